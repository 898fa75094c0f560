"""A square code that a camera reads, as one path: black on white with its quiet zone, whatever the scheme of the page."""

from __future__ import annotations

from collections.abc import Sequence

from gudgeon.figures.svg import drawing, element
from gudgeon.problem import refuse

QUIET = 4
"""Modules of white around the code (ISO/IEC 18004)."""


def square_code(rows: Sequence[Sequence[bool]], title: str) -> str:
    """The drawing as SVG text; `rows` are its modules, true is dark."""
    side = len(rows)
    if not side or any(len(row) != side for row in rows):
        raise refuse("code", "The code is not a square.", "Report this.")
    runs = [run for y, row in enumerate(rows) for run in _runs(row, y)]
    whole = side + 2 * QUIET
    paper = element("rect", x=0, y=0, width=whole, height=whole, fill="#ffffff")
    dark = element("path", d="".join(runs), fill="#000000", shape_rendering="crispEdges")
    return drawing(whole, whole, title, title, paper, dark)


def _runs(row: Sequence[bool], y: int) -> list[str]:
    """The dark runs of a row, each as a closed bar."""
    found, start = [], -1
    for x, dark in enumerate((*row, False)):
        if dark and start < 0:
            start = x
        elif not dark and start >= 0:
            found.append(f"M{start + QUIET} {y + QUIET}h{x - start}v1h-{x - start}z")
            start = -1
    return found
