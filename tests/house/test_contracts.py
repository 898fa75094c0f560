"""The import contracts hold, and each of them still bites when it is broken on purpose."""

import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
CONTRACTS = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["importlinter"]["contracts"]
ROOMS = [room for layer in CONTRACTS[0]["layers"] for room in layer.split(" | ")]
CATALOGUED = [container.removeprefix("gudgeon.") for container in CONTRACTS[1]["containers"]]


def lint(folder: Path) -> tuple[int, dict[str, str], str]:
    """Run import-linter on the house in a folder: exit code, each contract's word, and all that it said."""
    command = [sys.executable, "-c", "from importlinter.cli import lint_imports_command as run; run()", "--no-cache"]
    seen = {**os.environ, "PYTHONPATH": str(folder / "src"), "COLUMNS": "300"}
    ran = subprocess.run(command, cwd=folder, env=seen, capture_output=True, text=True, check=False)
    words = dict(re.findall(r"^(\S.*?) (KEPT|BROKEN)\b", ran.stdout, flags=re.MULTILINE))
    return ran.returncode, words, ran.stdout + ran.stderr


def test_every_contract_holds() -> None:
    code, words, said = lint(ROOT)
    assert code == 0, said
    assert {contract["name"] for contract in CONTRACTS} == set(words)


@pytest.fixture(scope="module")
def shell(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The house with every room empty, under the contracts of the real one."""
    folder = tmp_path_factory.mktemp("shell")
    shutil.copy(ROOT / "pyproject.toml", folder)
    house = folder / "src" / "gudgeon"
    pairs = [f"{room}/kinds" for room in CATALOGUED] + ["web/screens", "cli/commands"]
    for place in ["", *ROOMS, *pairs]:
        (house / place).mkdir(parents=True, exist_ok=True)
        (house / place / "__init__.py").touch()
    for place in pairs:
        (house / place / "one.py").touch()
        (house / place / "two.py").touch()
    for room in CATALOGUED:
        (house / room / "catalogue.py").write_text(f"from gudgeon.{room}.kinds import one, two\n", encoding="utf-8")
    return folder


def test_an_empty_house_keeps_every_contract(shell: Path) -> None:
    code, words, said = lint(shell)
    assert code == 0, said
    assert set(words.values()) == {"KEPT"}


ONE_WAY, NO_LOOK_BACK = CONTRACTS[0]["name"], CONTRACTS[1]["name"]
BREACHES = [
    ("units/__init__.py", "import gudgeon.mechanics", ONE_WAY),
    ("papers/__init__.py", "import gudgeon.exchange", ONE_WAY),
    ("web/__init__.py", "import gudgeon.cli", ONE_WAY),
    ("job/__init__.py", "import gudgeon.workbench", ONE_WAY),
    ("stray/__init__.py", "", ONE_WAY),
    ("plans/kinds/one.py", "from gudgeon.plans import catalogue", NO_LOOK_BACK),
    *(
        (f"{room}/kinds/one.py", f"import gudgeon.{room}.kinds.two", f"Neighbours in {room}.kinds")
        for room in CATALOGUED
    ),
    ("web/screens/one.py", "import gudgeon.web.screens.two", "Neighbours in web.screens"),
    ("cli/commands/one.py", "import gudgeon.cli.commands.two", "Neighbours in cli.commands"),
    ("job/__init__.py", "import pathlib", "The core does no input or output"),
    ("figures/__init__.py", "import random", "The core does no input or output"),
    ("workbench/__init__.py", "import django", "Django lives in storage, web and wiring"),
    ("web/screens/one.py", "import gudgeon.mechanics", "Faces, papers and figures do not calculate"),
    ("papers/__init__.py", "import numpy", "Faces, papers and figures do not calculate"),
    ("web/screens/one.py", "import gudgeon.verdicts", "Faces see a job only through the workbench"),
    ("demo/__init__.py", "import gudgeon.storage", "Only wiring knows storage"),
    ("job/later.py", "import gudgeon.job.sub\n", "No cycles anywhere"),
]


def test_a_breach_is_planted_for_every_contract() -> None:
    assert {contract for _, _, contract in BREACHES} == {contract["name"] for contract in CONTRACTS}


@pytest.mark.parametrize(("file", "line", "contract"), BREACHES, ids=lambda value: str(value)[:40])
def test_a_planted_breach_is_caught(shell: Path, tmp_path: Path, file: str, line: str, contract: str) -> None:
    shutil.copytree(shell, tmp_path, dirs_exist_ok=True)
    planted = tmp_path / "src" / "gudgeon" / file
    planted.parent.mkdir(exist_ok=True)
    planted.write_text(f"{line}\n", encoding="utf-8")
    if contract == "No cycles anywhere":
        (planted.parent / "sub.py").write_text("import gudgeon.job.later\n", encoding="utf-8")
    code, words, said = lint(tmp_path)
    assert code != 0
    assert words.get(contract) == "BROKEN", said
