"""The valve on its own, tip up: stem at three depths and two directions, face, margin, tip."""

from __future__ import annotations

from gudgeon.figures.marks import curve, seen
from gudgeon.figures.places import DrawingSpec, Spot, beside, caption
from gudgeon.figures.svg import GREY, THIN, Element, Point, centre_line, group, line, mirrored

AXIS, STEM, HEAD = 300.0, 18.0, 140.0
ROWS = (("top", 168.0), ("middle|mid", 258.0), ("bottom|low", 348.0))


def right_half() -> tuple[Point, ...]:
    """From the tip down to the head's rim."""
    tip = ((AXIS, 48), (AXIS + STEM - 4, 48), (AXIS + STEM, 52))
    groove = ((AXIS + STEM, 84), (AXIS + STEM - 6, 90), (AXIS + STEM - 6, 100), (AXIS + STEM, 106))
    neck = curve((AXIS + STEM, 388), (AXIS + STEM, 470), (AXIS + 70, 486), (AXIS + HEAD - 30, 496))
    rim = ((AXIS + HEAD, 526), (AXIS + HEAD, 548))
    return (*tip, *groove, *neck, *rim)


def outline(_: DrawingSpec) -> Element:
    """Stem, keeper groove, neck, face and margin."""
    right = right_half()
    return group(
        seen((*right, *mirrored(right, AXIS))),
        line(AXIS - HEAD + 30, 496, AXIS + HEAD - 30, 496, GREY, THIN),
        line(AXIS - HEAD, 526, AXIS + HEAD, 526, GREY, THIN),
        centre_line(AXIS, 24, AXIS, 572),
        caption(AXIS + 34, 74, "tip"),
    )


def spots(_: DrawingSpec) -> tuple[Spot, ...]:
    """The first direction to the left, the other to the right."""
    stem = tuple(
        Spot(
            words=(depth,),
            start=(AXIS - STEM, y),
            end=(AXIS + STEM, y),
            figure=(200, y),
            label=(146, y + 6),
            anchor="end",
            room=134,
            says="before",
        )
        for depth, y in ROWS
    )
    other = tuple(
        Spot(
            words=(depth, "y|across"),
            start=(AXIS - STEM, y + 26),
            end=(AXIS + STEM, y + 26),
            figure=(410, y + 26),
            label=(464, y + 32),
            room=256,
            says="after",
        )
        for depth, y in ROWS
    )
    rest = (
        beside(("margin",), 548, (AXIS + HEAD + 12, 526), (AXIS + HEAD + 12, 548)),
        beside(("run|runout|bend|bent",), 462, None, (AXIS + HEAD - 12, 512)),
        beside(("tip",), 56, None, (AXIS + STEM, 60)),
        Spot(words=("face|seal|contact",), end=(AXIS - HEAD + 14, 512), figure=(80, 470), label=(24, 430)),
        Spot(
            words=("head",),
            start=(AXIS - HEAD, 580),
            end=(AXIS + HEAD, 580),
            figure=(AXIS, 580),
            label=(24, 586),
            room=130,
        ),
    )
    whole = Spot(
        words=("stem",),
        start=(AXIS - STEM, 258),
        end=(AXIS + STEM, 258),
        figure=(200, 258),
        label=(146, 264),
        anchor="end",
    )
    return (*stem, *other, *rest, whole)
