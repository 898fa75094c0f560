"""The small sections of an engine's levels, each drawn around its own height on the common centre line."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from gudgeon.figures.lobe import cam
from gudgeon.figures.marks import curve, hatch, seen
from gudgeon.figures.svg import (
    BLUE,
    INK,
    PAPER,
    THIN,
    WASH,
    Element,
    Pen,
    Point,
    box,
    fill,
    group,
    line,
    mirrored,
    poly,
    stroke,
)

AXIS = 456.0
LEFT, RIGHT = AXIS - 58.0, AXIS + 58.0
Level = Callable[[float, Pen], Element]


def _shape(outline: tuple[Point, ...], pen: Pen) -> Element:
    inside = WASH if pen is BLUE else PAPER
    return group(fill(poly(outline), inside), stroke(poly(outline), pen))


def _twice(one: Callable[[float], Element]) -> Element:
    return group(one(LEFT), one(RIGHT))


def cover(y: float, pen: Pen) -> Element:
    """A dome over the cams."""
    left = curve((AXIS - 75, y + 19), (AXIS - 75, y - 8), (AXIS - 60, y - 19), (AXIS - 36, y - 19))
    return _shape((*left, *mirrored(left, AXIS)), pen)


def cams(y: float, pen: Pen) -> Element:
    """Two lobes at rest, noses up."""
    return _twice(lambda x: _shape(cam(x, y + 6, 18, 18, 7), pen))


def followers(y: float, pen: Pen) -> Element:
    """Fingers with the shim under each."""

    def one(x: float) -> Element:
        back = curve((x - 27, y - 6), (x - 10, y - 15), (x + 12, y - 14), (x + 26, y - 4))
        arm = (*back, (x + 26, y + 5), *curve((x + 20, y + 1), (x + 4, y - 4), (x - 8, y - 5), (x - 27, y + 4)))
        return group(_shape(arm, pen), _shape(box(x + 2, y + 7, 18, 8), pen))

    return _twice(one)


def buckets(y: float, pen: Pen) -> Element:
    """Inverted cups with the shim between."""

    def one(x: float) -> Element:
        cup = ((x - 20, y - 18), (x + 20, y - 18), (x + 20, y + 14), (x + 15, y + 14), (x + 15, y - 10), (x - 15, y - 10),
               (x - 15, y + 14), (x - 20, y + 14))  # fmt: skip
        return group(_shape(cup, pen), _shape(box(x - 8, y - 4, 16, 7), pen))

    return _twice(one)


def rockers(y: float, pen: Pen) -> Element:
    """Centre-pivot arms."""

    def one(x: float) -> Element:
        back = curve((x - 32, y + 4), (x - 14, y - 18), (x + 14, y - 18), (x + 32, y + 4))
        under = curve((x + 32, y + 12), (x + 12, y - 2), (x - 12, y - 2), (x - 32, y + 12))
        return group(
            _shape((*back, *under), pen), line(x - 3, y - 7, x + 3, y - 7, pen), line(x, y - 10, x, y - 4, pen)
        )

    return _twice(one)


def push_rods(y: float, pen: Pen) -> Element:
    """Two rods with ball ends."""
    return _twice(lambda x: group(_shape(box(x - 3, y - 22, 6, 44), pen), line(x - 7, y - 22, x + 7, y - 22, pen)))


def springs(y: float, pen: Pen) -> Element:
    """Four coils each."""

    def one(x: float) -> Element:
        return group(*(line(x - 18, y - 19 + 9 * i, x + 18, y - 13 + 9 * i, pen) for i in range(5)))

    return _twice(one)


def valves(y: float, pen: Pen) -> Element:
    """Stem up, head down."""

    def one(x: float) -> Element:
        flare = curve((x + 3, y + 4), (x + 4, y + 14), (x + 14, y + 15), (x + 27, y + 20))
        right = ((x + 3, y - 24), *flare)
        return _shape((*right, *mirrored(right, x)), pen)

    return _twice(one)


def head(y: float, pen: Pen) -> Element:
    """A block with its chamber."""
    dome = curve((AXIS - 60, y + 22), (AXIS - 34, y - 9), (AXIS + 34, y - 9), (AXIS + 60, y + 22))
    return _shape(
        ((AXIS - 110, y - 22), (AXIS + 110, y - 22), (AXIS + 110, y + 22), *reversed(dome), (AXIS - 110, y + 22)), pen
    )


def gasket(y: float, pen: Pen) -> Element:
    """A thin sheet."""
    return _shape(box(AXIS - 110, y - 3, 220, 6), pen)


def barrel(y: float, pen: Pen) -> Element:
    """Two walls and the bore between them."""
    frame = stroke(poly(box(AXIS - 90, y - 24, 180, 48)), pen)
    walls = (box(AXIS - 90, y - 24, 44, 48), box(AXIS + 46, y - 24, 44, 48))
    cut = group(*(_shape(w, pen) if pen is BLUE else group(seen(w), hatch(w, 7)) for w in walls))
    return group(fill(poly(box(AXIS - 90, y - 24, 180, 48)), PAPER), cut, frame)


def piston(y: float, pen: Pen) -> Element:
    """Crown, rings, skirt."""
    arch = curve((AXIS + 36, y + 23), (AXIS + 14, y + 8), (AXIS - 14, y + 8), (AXIS - 36, y + 23))
    body = ((AXIS - 65, y - 23), (AXIS + 65, y - 23), (AXIS + 65, y + 23), *arch, (AXIS - 65, y + 23))
    rings = (line(AXIS - 65, y + d, AXIS + 65, y + d, pen) for d in (-16, -9, -2))
    return group(_shape(body, pen), *rings)


def crankcase(y: float, pen: Pen) -> Element:
    """The mouth that has to stay covered."""
    mouth = ((AXIS - 120, y - 16), (AXIS - 50, y - 16), (AXIS - 50, y - 2), (AXIS + 50, y - 2), (AXIS + 50, y - 16),
             (AXIS + 120, y - 16), (AXIS + 120, y + 18), (AXIS - 120, y + 18))  # fmt: skip
    return _shape(mouth, pen)


def plain(y: float, pen: Pen) -> Element:
    """A level that has no drawing of its own."""
    return stroke(poly(box(AXIS - 60, y - 14, 120, 28)), pen, THIN if pen is INK else 2.2)


LEVELS: Mapping[str, Level] = {
    "cover": cover, "cams": cams, "followers": followers, "buckets": buckets, "rockers": rockers,
    "push-rods": push_rods, "springs": springs, "valves": valves, "head": head, "gasket": gasket, "barrel": barrel,
    "piston": piston, "crankcase": crankcase,
}  # fmt: skip


def level(kind: str, y: float, pen: Pen) -> Element:
    """The drawing of one level."""
    return LEVELS.get(kind, plain)(y, pen)
