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


def run(words: list[str]) -> tuple[int, str, set[str]]:
    """Exit code, output, and the packages that were loaded."""
    command = [sys.executable, "-c", PROBE, json.dumps(words)]
    ran = subprocess.run(command, capture_output=True, text=True, check=False, timeout=60)
    seen = json.loads(ran.stderr.splitlines()[-1])
    return seen["code"], ran.stdout, set(seen["loaded"])


@pytest.mark.parametrize("words", [["--help"], ["job", "--help"], ["book", "check", "--help"]], ids=" ".join)
def test_help_loads_nothing_heavy(words: list[str]) -> None:
    code, said, loaded = run(words)
    assert code == 0
    assert "gudgeon" in said
    assert HEAVY & loaded == set()


def test_a_calculation_loads_nothing_heavy() -> None:
    code, said, loaded = run(["calc", "shim", "shim=1.80mm", "lash=0.02mm", "low=0.10mm", "high=0.20mm"])
    assert code == 0
    assert "1.67" in said  # 1.80 + (0.02 − 0.15)
    assert HEAVY & loaded == set()
