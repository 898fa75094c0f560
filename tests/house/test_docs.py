"""The papers about the house are true: links lead somewhere, rooms are the real ones, and the worked examples work."""

import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PAGES = [*sorted(ROOT.glob("*.md")), *sorted((ROOT / "docs").rglob("*.md"))]
WORKED = re.findall(
    r"<!-- file: (\S+) -->\n```python\n(.*?)```",
    (ROOT / "docs" / "how-to-add.md").read_text(encoding="utf-8"),
    re.DOTALL,
)
ASK = """
from gudgeon.anatomy import Layout, Side, expand
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.operations.catalogue import OPERATIONS

side = Side(valves=2, follower="finger")
engine = expand(Layout(cylinders=1, arrangement="single", intake=side, exhaust=side))


def meet(operation, at, measurand, where):
    return set(OPERATIONS[operation].disturbs(engine, at, {})) & set(MEASURANDS[measurand].observes(engine, where))


assert meet("fit_guide", "c1.in.left", "guide_projection", "c1.in.left")
assert not meet("fit_guide", "c1.in.left", "guide_projection", "c1.in.right")
assert not meet("cut_seat", "c1.in.left", "guide_projection", "c1.in.left")
assert meet("smooth_chamber", "c1", "chamber_volume", "c1")
assert all(key in MEASURANDS for key in OPERATIONS["smooth_chamber"].calls_for)
"""


@pytest.mark.parametrize("sheet", PAGES, ids=lambda sheet: str(sheet.relative_to(ROOT)))
def test_links_lead_somewhere(sheet: Path) -> None:
    links = re.findall(r"\]\(([^)#]+)[^)]*\)", sheet.read_text(encoding="utf-8"))
    assert [link for link in links if "://" not in link and not (sheet.parent / link).exists()] == []


@pytest.mark.parametrize("sheet", PAGES, ids=lambda sheet: str(sheet.relative_to(ROOT)))
def test_a_command_that_is_named_exists(sheet: Path) -> None:
    targets = set(re.findall(r"^([a-z]+):", (ROOT / "Makefile").read_text(encoding="utf-8"), flags=re.MULTILINE))
    named = re.findall(r"(?:`|^    )make ([a-z]+)", sheet.read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert set(named) <= targets


def test_the_page_on_rooms_has_every_room_in_the_order_of_the_contract() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    layers = project["tool"]["importlinter"]["contracts"][0]["layers"]
    rows = re.findall(r"^\| (`[^|]+) \|", (ROOT / "docs" / "architecture.md").read_text(encoding="utf-8"), re.MULTILINE)
    shown = [room for row in rows if row.count("kinds") == 0 for room in re.findall(r"`(\w+)(?:/|\.py)`", row)]
    asked = [room for layer in layers for room in layer.split(" | ")]
    assert sorted(shown[: len(asked)]) == sorted(asked)
    assert [min(shown.index(room) for room in layer.split(" | ")) for layer in layers] == sorted(
        min(shown.index(room) for room in layer.split(" | ")) for layer in layers
    )


def test_there_are_worked_examples() -> None:
    assert [place for place, _ in WORKED] == [
        "measurands/kinds/guide_projection.py",
        "operations/kinds/smooth_chamber.py",
    ]


def test_the_worked_examples_work(tmp_path: Path) -> None:
    house = tmp_path / "src" / "gudgeon"
    shutil.copytree(ROOT / "src" / "gudgeon", house, ignore=shutil.ignore_patterns("__pycache__"))
    for place, text in WORKED:
        (house / place).write_text(text, encoding="utf-8")
        room, _, file = place.partition("/kinds/")
        catalogue, kind = house / room / "catalogue.py", file.removesuffix(".py")
        listed = catalogue.read_text(encoding="utf-8")
        listed = listed.replace(f"from gudgeon.{room}.kinds import (", f"from gudgeon.{room}.kinds import ({kind},", 1)
        catalogue.write_text(listed.replace("for kind in (", f"for kind in ({kind},", 1), encoding="utf-8")
    seen = {**os.environ, "PYTHONPATH": str(tmp_path / "src")}
    ran = subprocess.run([sys.executable, "-c", ASK], env=seen, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr


def test_the_worked_examples_are_written_as_the_house_is(tmp_path: Path) -> None:
    for place, text in WORKED:
        (tmp_path / Path(place).name).write_text(text, encoding="utf-8")
    ran = subprocess.run(
        [sys.executable, "-m", "ruff", "check", "--config", str(ROOT / "pyproject.toml"), str(tmp_path)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 0, ran.stdout
