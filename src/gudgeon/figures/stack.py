"""The engine in section, taken apart along its centre line: each level says in a shape and a word where it stands.

Strip-down reads downwards, building up reads upwards. What is asked for now is blue; everything else is ink.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, assert_never

from gudgeon.figures.levels import AXIS, level
from gudgeon.figures.marks import arc, turned_label, wrapped
from gudgeon.figures.svg import (
    BLUE,
    GREY,
    HATCH,
    INK,
    THIN,
    Element,
    Pen,
    box,
    centre_line,
    drawing,
    fill,
    group,
    label,
    line,
    poly,
    stroke,
)
from gudgeon.problem import said

Shape = Literal["later", "waits", "new", "out", "now", "done", "stop"]
WIDTH, ROW, TOP = 1240.0, 58.0, 58.0


@dataclass(frozen=True, slots=True, kw_only=True)
class StackRow:
    """One level: its kind, where it stands (a shape and its word), its name, and what follows from what."""

    kind: str
    shape: Shape
    word: str
    name: str
    line1: str = ""
    line2: str = ""
    now: bool = False


def state_mark(shape: Shape, x: float, y: float, pen: Pen = INK) -> Element:
    """The seven shapes: they differ without colour and at arm's length."""
    match shape:
        case "later":
            return fill(poly(arc(x, y, 3.2, 0, 360, 12)), pen)
        case "waits":
            return group(line(x - 5, y - 8, x - 5, y + 8, pen, 2.8), line(x + 5, y - 8, x + 5, y + 8, pen, 2.8))
        case "new":
            return stroke(poly(box(x - 9, y - 9, 18, 18)), pen, 2.6)
        case "out":
            head = stroke(poly(((x + 2, y - 7), (x + 9, y), (x + 2, y + 7)), closed=False), pen, 2.6)
            return group(line(x - 10, y, x + 9, y, pen, 2.6), head)
        case "now":
            return fill(poly(((x, y - 11), (x + 11, y), (x, y + 11), (x - 11, y))), pen)
        case "done":
            return stroke(poly(((x - 10, y), (x - 3, y + 7), (x + 9, y - 8)), closed=False), pen, 2.8)
        case "stop":
            return group(line(x - 8, y - 8, x + 8, y + 8, pen, 3), line(x - 8, y + 8, x + 8, y - 8, pen, 3))
        case _:
            assert_never(shape)


def _row(row: StackRow, y: float) -> Element:
    pen = BLUE if row.now else INK
    word, second = (BLUE, BLUE) if row.now else (GREY, INK)
    return group(
        state_mark(row.shape, 46, y, pen),
        label(64, y + 6, wrapped(row.word, 72, 18, 1)[0], word, size=18),
        label(136, y + 6, wrapped(row.name, 190, 19, 1)[0], pen, size=19, weight=600),
        level(row.kind, y, pen),
        line(586, y, 624, y, HATCH, THIN),
        label(636, y - 3, wrapped(row.line1, 530, 19, 1)[0], second, size=19, weight=600),
        label(636, y + 19, wrapped(row.line2, 530, 17, 1)[0], GREY, size=17),
    )


def _directions(bottom: float, translate: Mapping[str, str] | None) -> Element:
    """Two thin arrows at the edge: the way down and the way up."""
    down, up = said("strip down").words(translate), said("build up").words(translate)
    middle = (TOP + bottom) / 2
    return group(
        line(1182, TOP - 20, 1182, bottom, HATCH, 1.6),
        stroke(poly(((1175, bottom - 10), (1182, bottom), (1189, bottom - 10)), closed=False), HATCH, 1.6),
        line(1216, TOP - 20, 1216, bottom, HATCH, 1.6),
        stroke(poly(((1209, TOP - 10), (1216, TOP - 20), (1223, TOP - 10)), closed=False), HATCH, 1.6),
        turned_label(1176, middle, down),
        turned_label(1234, middle, up),
    )


def sentence(rows: tuple[StackRow, ...]) -> str:
    """The stack in words, from the cover down."""
    lines = (": ".join((r.name, ", ".join(t for t in (r.word, r.line1, r.line2) if t))) for r in rows)
    return "; ".join(lines)


def stack(rows: tuple[StackRow, ...], title: str, translate: Mapping[str, str] | None = None) -> str:
    """The job page's drawing as SVG text."""
    bottom = TOP + ROW * max(len(rows) - 1, 0)
    marks = tuple(_row(row, TOP + ROW * i) for i, row in enumerate(rows))
    axis = centre_line(AXIS, 10, AXIS, bottom + 50)
    return drawing(WIDTH, bottom + 60, title, sentence(rows), axis, *marks, _directions(bottom + 22, translate))
