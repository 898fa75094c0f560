"""A piston ring squared in its bore, seen from above, with its section beside it."""

from __future__ import annotations

from gudgeon.figures.marks import arc, hatch, section, seen
from gudgeon.figures.places import DrawingSpec, Spot, beside, caption
from gudgeon.figures.svg import THIN, Element, box, centre_line, circle, group

X, Y, BORE, OUTER, INNER, WALL = 290.0, 330.0, 198.0, 194.0, 168.0, 226.0
GAP_DEG = 5.0


def outline(_: DrawingSpec) -> Element:
    """The bore's wall is hatched, the ring lies in it with its gap on top."""
    around = (*arc(X, Y, WALL, 0, 360, 72), *reversed(arc(X, Y, BORE, 0, 360, 72)))
    start, end = -90 + GAP_DEG, 270 - GAP_DEG
    ring = (*arc(X, Y, OUTER, start, end, 72), *reversed(arc(X, Y, INNER, start, end, 72)))
    return group(
        hatch(around),
        circle(X, Y, WALL, width=THIN),
        circle(X, Y, BORE),
        seen(ring),
        centre_line(X, 60, X, 590),
        centre_line(30, Y, 550, Y),
        section(box(604, 420, 34, 96), 7),
        caption(621, 556, "section", "middle"),
    )


def spots(_: DrawingSpec) -> tuple[Spot, ...]:
    """The gap, and the two sizes of the section."""
    half = 17.0
    gap_y = Y - (OUTER + INNER) / 2
    gap = Spot(
        words=("gap",), start=(X - half, gap_y), end=(X + half, gap_y), figure=(X, 56), label=(X + 62, 62), room=300
    )
    axial = beside(("axial|thickness|height|width",), 380, (584, 420), (584, 516))
    radial = beside(("radial",), 300, (604, 408), (638, 408))
    return (gap, axial, radial)
