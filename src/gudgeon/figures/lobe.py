"""A cam lobe seen along its shaft: height over the nose, base circle across it, journal, run-out."""

from __future__ import annotations

from math import acos, degrees

from gudgeon.figures.marks import arc, seen
from gudgeon.figures.places import DrawingSpec, Spot, beside
from gudgeon.figures.svg import GREY, THIN, Element, Point, centre_line, circle, group, line

X, Y, BASE, NOSE_Y, NOSE = 270.0, 360.0, 120.0, 190.0, 52.0


def cam(x: float, y: float, base: float, rise: float, nose: float, turned_deg: float = 0.0) -> tuple[Point, ...]:
    """A cam's outline: base circle and nose, joined by straight flanks; 0° points up."""
    flank = degrees(acos((base - nose) / rise))
    up = -90 + turned_deg
    tip_x, tip_y = arc(x, y, rise, up, up, 1)[0]
    return (*arc(x, y, base, up + flank, up + 360 - flank, 48), *arc(tip_x, tip_y, nose, up - flank, up + flank, 24))


def outline(_: DrawingSpec) -> Element:
    """Nose up; the journal's circle lies behind it."""
    return group(
        seen(cam(X, Y, BASE, Y - NOSE_Y, NOSE)),
        circle(X, Y, 62, GREY, THIN),
        *(line(X, y, 486, y, GREY, THIN) for y in (NOSE_Y - NOSE, Y + BASE)),
        centre_line(X, 90, X, 530),
        centre_line(X - 138, Y, X + 138, Y),
    )


def spots(_: DrawingSpec) -> tuple[Spot, ...]:
    """Height beside the lobe, base circle across it."""
    top, bottom = NOSE_Y - NOSE, Y + BASE
    return (
        Spot(
            words=("base",),
            start=(X - BASE, Y),
            end=(X + BASE, Y),
            figure=(X, Y),
            label=(X - BASE - 24, Y + 6),
            anchor="end",
            room=120,
        ),
        beside(("journal",), 480, None, (X + 44, Y + 44)),
        beside(("run|runout",), 120, None, (X + 40, Y - 46)),
        Spot(words=("lobe|height|lift",), start=(474, top), end=(474, bottom), figure=(474, 300), label=(528, 280)),
    )
