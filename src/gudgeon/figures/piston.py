"""The piston seen along its pin, so that the skirt's diameter at right angles to the pin lies in the drawing."""

from __future__ import annotations

from gudgeon.figures.marks import curve, seen
from gudgeon.figures.places import DrawingSpec, Spot, beside, sides
from gudgeon.figures.svg import GREY, THIN, Element, Point, centre_line, circle, group, line, mirrored

AXIS, LEFT, RIGHT = 320.0, 170.0, 470.0
GROOVES = ((118.0, 132.0), (156.0, 170.0), (196.0, 218.0))
PIN_Y, PIN_RADIUS, SKIRT_Y = 318.0, 44.0, 430.0


def _left_edge() -> tuple[Point, ...]:
    notches: list[Point] = []
    for top, bottom in GROOVES:
        notches += [(LEFT, top), (LEFT + 26, top), (LEFT + 26, bottom), (LEFT, bottom)]
    return ((LEFT + 4, 88), *notches, (LEFT, 508), (236, 508))


def outline(spec: DrawingSpec) -> Element:
    """Crown, three grooves, pin bore and skirt."""
    left = _left_edge()
    arch = curve((236, 508), (262, 474), (378, 474), (404, 508))
    belt = (line(LEFT + 26, y, RIGHT - 26, y, GREY, THIN) for groove in GROOVES for y in groove)
    return group(
        sides(spec, 200, 440, 44),
        seen((*left, *arch[1:-1], *mirrored(left, AXIS))),
        *belt,
        circle(AXIS, PIN_Y, PIN_RADIUS),
        circle(AXIS, PIN_Y, PIN_RADIUS + 7, GREY, THIN),
        centre_line(AXIS, 60, AXIS, 540),
        centre_line(AXIS - 70, PIN_Y, AXIS + 70, PIN_Y),
    )


def spots(_: DrawingSpec) -> tuple[Spot, ...]:
    """Side clearance in each groove, the pin bore, the skirt."""
    rings = ("top|first|1", "second|2", "oil|third|3")
    clearances = tuple(
        beside(("side|groove", ring), 96 + 84 * i, None, (RIGHT - 13, (top + bottom) / 2))
        for i, (ring, (top, bottom)) in enumerate(zip(rings, GROOVES, strict=True))
    )
    pin = beside(("pin",), PIN_Y + 36, (AXIS - PIN_RADIUS, PIN_Y), (AXIS + PIN_RADIUS, PIN_Y))
    crown = Spot(words=("crown|deck",), end=(AXIS - 90, 88), figure=(100, 112), label=(24, 62), room=120)
    squish = beside(("squish",), 96, None, (RIGHT - 14, 88))
    pocket = beside(("valve",), 96, None, (AXIS + 56, 88))
    skirt = Spot(
        words=("piston|skirt",),
        start=(LEFT, SKIRT_Y),
        end=(RIGHT, SKIRT_Y),
        figure=(AXIS, SKIRT_Y),
        label=(LABEL_RIGHT, SKIRT_Y + 6),
    )
    return (*clearances, pin, crown, squish, pocket, skirt)


LABEL_RIGHT = RIGHT + 26
