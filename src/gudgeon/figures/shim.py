"""A shim: its mark from above, its thickness in section."""

from __future__ import annotations

from gudgeon.figures.marks import section
from gudgeon.figures.places import DrawingSpec, Spot
from gudgeon.figures.svg import Element, box, centre_line, circle, group

X, LEFT, WIDE, TOP, THICK_PX = 300.0, 170.0, 260.0, 420.0, 74.0


def outline(_: DrawingSpec) -> Element:
    """Seen from above, and cut below."""
    return group(
        circle(X, 200, WIDE / 2),
        circle(X, 200, WIDE / 2 - 8, width=1.2),
        section(box(LEFT, TOP, WIDE, THICK_PX)),
        centre_line(X, 44, X, 540),
        centre_line(X - 160, 200, X + 160, 200),
    )


def spots(_: DrawingSpec) -> tuple[Spot, ...]:
    """Thickness and diameter on the section, the mark on the face."""
    right = LEFT + WIDE
    return (
        Spot(words=("mark|code",), end=(X + 40, 170), figure=(572, 130), label=(528, 100)),
        Spot(words=("diameter",), start=(LEFT, 548), end=(right, 548), figure=(X, 548), label=(right + 30, 554)),
        Spot(
            words=("shim|thickness",),
            start=(right + 20, TOP),
            end=(right + 20, TOP + THICK_PX),
            figure=(572, TOP + THICK_PX / 2),
            label=(528, TOP - 4),
        ),
    )
