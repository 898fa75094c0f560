"""The valve spring in section between its seats: free length, installed height, load, tilt, wire."""

from __future__ import annotations

from gudgeon.figures.marks import arc, section
from gudgeon.figures.places import DrawingSpec, Spot, beside
from gudgeon.figures.svg import DASHED, GREY, THIN, Element, box, centre_line, group, line

AXIS, HALF, WIRE, TOP, BOTTOM, COILS = 300.0, 92.0, 15.0, 100.0, 500.0, 6


def outline(spec: DrawingSpec) -> Element:
    """Coils cut on both sides and joined by the half that is seen; the outer edge squared by a thin line."""
    pitch = (BOTTOM - TOP - 2 * WIRE) / COILS
    coils: list[Element] = []
    for i in range(COILS):
        left, right = TOP + WIRE + i * pitch, TOP + WIRE + (i + 0.5) * pitch
        coils += [
            line(AXIS - HALF, left - WIRE, AXIS + HALF, right - WIRE),
            line(AXIS - HALF, left + WIRE, AXIS + HALF, right + WIRE),
            section(arc(AXIS - HALF, left, WIRE, 0, 360), 6),
            section(arc(AXIS + HALF, right, WIRE, 0, 360), 6),
        ]
    last = section(arc(AXIS - HALF, BOTTOM - WIRE, WIRE, 0, 360), 6)
    seats = (section(box(AXIS - 130, TOP - 18, 260, 18), 7, 45), section(box(AXIS - 130, BOTTOM, 260, 18), 7, 45))
    squared = line(AXIS + HALF + WIRE + 3, TOP - 56, AXIS + HALF + WIRE + 3, BOTTOM, GREY, THIN, DASHED)
    tilted = any(beside(("tilt|square",), 0).fits(p.key) for p in spec.places)
    return group(*seats, *coils, last, *((squared,) if tilted else ()), centre_line(AXIS, 40, AXIS, 560))


def spots(_: DrawingSpec) -> tuple[Spot, ...]:
    """Free length to the left, installed height to the right, the load from above."""
    edge = AXIS + HALF + WIRE
    return (
        Spot(words=("free",), start=(124, TOP), end=(124, BOTTOM), figure=(124, 300), label=(24, 240), room=96),
        Spot(words=("installed|height",), start=(474, TOP), end=(474, BOTTOM), figure=(474, 300), label=(528, 280)),
        Spot(
            words=("load|force",),
            end=(AXIS, TOP - 18),
            figure=(AXIS, 36),
            label=(AXIS - 92, 48),
            anchor="end",
            room=330,
        ),
        beside(("tilt|square",), 118, (edge - 14, TOP - 44), (edge + 3, TOP - 44)),
        beside(("wire",), 430, (edge - 2 * WIRE, 385), (edge, 385)),
        Spot(words=("length",), start=(124, TOP), end=(124, BOTTOM), figure=(124, 300), label=(24, 240), room=96),
    )
