"""The cylinder bore in section, at three depths: across the pin on the dimension lines, along the pin beside them."""

from __future__ import annotations

from gudgeon.figures.marks import section
from gudgeon.figures.places import DrawingSpec, Spot, sides
from gudgeon.figures.svg import Element, centre_line, group, line, mirrored

LEFT, RIGHT, AXIS = 176.0, 456.0, 316.0
ROWS = (("top", 128.0), ("middle|mid", 298.0), ("bottom|low", 468.0))


def outline(spec: DrawingSpec) -> Element:
    """Two hatched walls, the deck above, the spigot below."""
    wall = ((98, 52), (LEFT, 52), (LEFT, 572), (136, 572), (136, 528), (98, 528))
    return group(
        sides(spec, 140, 492, 36),
        section(wall),
        section(mirrored(wall, AXIS)),
        line(LEFT, 52, RIGHT, 52),
        line(LEFT, 572, RIGHT, 572),
        centre_line(AXIS, 24, AXIS, 592),
    )


def spots(_: DrawingSpec) -> tuple[Spot, ...]:
    """Across the pin lies in the drawing; along the pin is written beside it."""
    across = tuple(
        Spot(
            words=(depth,),
            start=(LEFT, y),
            end=(RIGHT, y),
            figure=(AXIS, y),
            label=(88, y + 6),
            anchor="end",
            room=100,
            says="before",
        )
        for depth, y in ROWS
    )
    along = tuple(
        Spot(words=(depth, "x|along"), figure=(600, y + 26), label=(552, y - 6), says="after") for depth, y in ROWS
    )
    return across + along
