"""The page of formulas says what the docstrings say, and nothing stands on it without a source."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def maker() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_formulas", ROOT / "tools" / "make_formulas.py")
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    sys.modules["make_formulas"] = module
    spec.loader.exec_module(module)
    return module


def test_the_page_is_up_to_date(maker: ModuleType) -> None:
    assert maker.PAGE.read_text(encoding="utf-8") == maker.page(maker.formulas()), "run: python tools/make_formulas.py"


def test_every_formula_is_on_it_with_a_source_and_the_mechanics_with_a_check(maker: ModuleType) -> None:
    found = maker.formulas()
    assert {one.room for one in found} == {"mechanics", "metrology"}
    mechanics = [one for one in found if one.room == "mechanics"]
    assert [f"{one.module}.{one.name}" for one in mechanics if not one.source] == []
    assert [f"{one.module}.{one.name}" for one in mechanics if not one.tests] == []


def test_sections_are_told_apart(maker: ModuleType) -> None:
    parts = maker.sections("What.\n\na = b\n\nNotes\n-----\nValid: always.\n\nSource\n------\nMe,\nmyself.\n")
    assert parts == {"": "What.\n\na = b", "Notes": "Valid: always.", "Source": "Me, myself."}


@pytest.mark.parametrize(
    ("parts", "words", "expected"),
    [
        ({"": "x", "Notes": "Valid. Source: a book."}, "", ("a book.", "Valid.")),
        ({"": "x", "Notes": "Valid."}, "Why.\n\nSource: the module.", ("the module.", "Valid.")),
        ({"": "x", "Source": "a page.", "Notes": "n"}, "Source: no", ("a page.", "n")),
        ({"": "x"}, "", ("", "")),
    ],
)
def test_where_a_source_is_found(
    maker: ModuleType, parts: dict[str, str], words: str, expected: tuple[str, str]
) -> None:
    assert maker.source_of(parts, words) == expected


def test_a_changed_docstring_makes_the_page_stale(maker: ModuleType, tmp_path: Path) -> None:
    room = tmp_path / "src" / "gudgeon" / "mechanics"
    room.mkdir(parents=True)
    (tmp_path / "tests").mkdir()
    (room / "one.py").write_text('def f(a_mm):\n    """Twice.\n\n    b = 2a\n    """\n', encoding="utf-8")
    before = maker.page(maker.formulas(tmp_path))
    assert "#### `f(a_mm)`" in before
    assert "> b = 2a" in before
    (room / "one.py").write_text('def f(a_mm):\n    """Twice.\n\n    b = 3a\n    """\n', encoding="utf-8")
    assert maker.page(maker.formulas(tmp_path)) != before
