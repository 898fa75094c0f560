"""The command answers at once: what it does not need for an answer it does not load."""

import json
import subprocess
import sys

import pytest

HEAVY = {"django", "pydantic", "msgspec", "typst", "numpy", "scipy", "PIL", "babel", "rich"}
PROBE = """
import json, sys
sys.argv = ["gudgeon", *json.loads(sys.argv[1])]
from gudgeon.__main__ import main
try:
    code = main()
except SystemExit as left:
    code = left.code
print(json.dumps({"code": code or 0, "loaded": sorted({name.partition(".")[0] for name in sys.modules})}), file=sys.stderr)
"""


@pytest.mark.parametrize("words", [["--help"], ["job", "--help"], ["book", "check", "--help"]], ids=" ".join)
def test_help_loads_nothing_heavy(words: list[str]) -> None:
    ran = subprocess.run(
        [sys.executable, "-c", PROBE, json.dumps(words)], capture_output=True, text=True, check=False, timeout=60
    )
    seen = json.loads(ran.stderr.splitlines()[-1])
    assert seen["code"] == 0
    assert "gudgeon" in ran.stdout
    assert HEAVY & set(seen["loaded"]) == set()
