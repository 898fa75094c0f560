"""The stack row by row, for a screen that sets its words itself: they wrap, grow with the reader's size, and are links."""

from __future__ import annotations

from gudgeon.figures.levels import AXIS, level
from gudgeon.figures.stack import Shape, state_mark
from gudgeon.figures.svg import BLUE, INK, Element, drawing, plain_number

HEIGHT, HALF = 58.0, 126.0


def level_figure(kind: str, name: str, *, now: bool) -> str:
    """One level alone, its centre line in the middle of the drawing."""
    across = (("transform", f"translate({plain_number(HALF - AXIS)} 0)"),)
    shape = level(kind, HEIGHT / 2, BLUE if now else INK)
    return drawing(2 * HALF, HEIGHT, name, name, Element("g", across, (shape,)))


def mark_figure(shape: Shape, word: str, *, now: bool = False) -> str:
    """A state's shape alone."""
    return drawing(26, 26, word, word, state_mark(shape, 13, 13, BLUE if now else INK))
