"""A row's height is worked out from the face's own widths: never too low for its words, and as Typst itself would set it."""

from __future__ import annotations

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.papers import typesetting
from gudgeon.papers.blocks import Heading, Table, TitleBlock
from gudgeon.papers.payload import payload
from gudgeon.papers.pdf import pdf
from gudgeon.papers.widths import WIDTHS, lines_taken

TITLE = TitleBlock(paper="Record", engine="Invented 100", job="T-1")


def test_widths_are_those_of_the_face() -> None:
    face = TTFont(Path(typesetting.__file__).parent / "fonts" / "SourceSansPro-Regular.otf")
    names, advances = face.getBestCmap(), face["hmtx"]
    assert face["head"].unitsPerEm == 1000
    assert face["OS/2"].sCapHeight == 660, "the template's cap-height is the face's"
    assert {c: advances[names[ord(c)]][0] for c in WIDTHS} == dict(WIDTHS)


@pytest.mark.parametrize(
    ("text", "room_mm", "lines"),
    [
        ("", 20, 1),
        ("one", 20, 1),
        ("one two three four five six", 20, 2),
        ("W" * 40, 20, 0),
        ("中中中中 中中中中", 20, 2),
    ],
)
def test_lines_by_hand(text: str, room_mm: float, lines: int) -> None:
    assert lines_taken(text, room_mm, 8.5) == lines


@given(st.lists(st.text("abc 123–.", min_size=1, max_size=60), min_size=1, max_size=6))
def test_narrower_never_takes_fewer_lines(words: list[str]) -> None:
    text = " ".join(words)
    wide, narrow = lines_taken(text, 80, 8.5), lines_taken(text, 40, 8.5)
    assert not narrow or wide <= narrow


def test_a_page_of_rows_is_set_as_typst_measures_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """The same words at the same places, whether we or Typst say how tall a row is."""
    rows = tuple((f"stem diameter, intake {n}", "serviceable, 6 of 6 points " * (1 + n % 4), f"{n}") for n in range(60))
    blocks = (
        TITLE,
        Heading("Sizes"),
        Table(head=("what", "verdict", "entry"), rows=rows, widths=(2, 2, 1), dense=True),
    )
    (table,) = (b for b in payload(blocks, frozenset())["blocks"] if b["kind"] == "table")
    assert set(table["lines"]) == {1, 2, 3, 4} or set(table["lines"]) >= {1, 2}
    ours = pdf(blocks)
    monkeypatch.setattr("gudgeon.papers.payload.Writer.heights", lambda self, rows, widths, points: [0] * len(rows))
    assert ours == pdf(blocks)


def test_a_row_with_a_run_without_a_space_is_left_to_typst() -> None:
    table = Table(head=("a", "b"), rows=(("x", "Q" * 300), ("x", "y")))
    (data,) = (b for b in payload((TITLE, table), frozenset())["blocks"] if b["kind"] == "table")
    assert data["lines"] == [0, 1]
