"""One door to all part drawings: a screen or a paper asks by the drawing's key, an unknown key gives a plain list of places."""

from __future__ import annotations

from collections.abc import Mapping

from gudgeon.figures import bore, guide, head, lash, lobe, piston, ring, seat, shim, spring, valve
from gudgeon.figures.places import HEIGHT, WIDTH, DrawingSpec, Outline, Spots, listed, sentence, sheet, sizes
from gudgeon.figures.svg import drawing

CAPTIONS = (
    "seen from below", "seen from above", "section", "tip", "spring side", "port side", "chamber", "port", "pivot", "shaft",
    "screw, locknut", "push-rod",
)  # fmt: skip
"""The fixed words of the drawings, for those who translate them."""

DRAWINGS: Mapping[str, tuple[Outline, Spots]] = {
    "bore": (bore.outline, bore.spots),
    "piston": (piston.outline, piston.spots),
    "ring": (ring.outline, ring.spots),
    "valve": (valve.outline, valve.spots),
    "guide": (guide.outline, guide.spots),
    "seat": (seat.outline, seat.spots),
    "spring": (spring.outline, spring.spots),
    "head": (head.outline, head.spots),
    "face": (head.face_outline, head.face_spots),
    "lash": (lash.outline, lash.spots),
    "lobe": (lobe.outline, lobe.spots),
    "shim": (shim.outline, shim.spots),
}


def part_drawing(kind: str, spec: DrawingSpec, translate: Mapping[str, str] | None = None) -> str:
    """The drawing of a part with its places; ``"gauge"`` and anything unknown is a list of the places."""
    if kind not in DRAWINGS:
        high = sizes(spec)
        rows = int((HEIGHT - 60) // high.row)
        height = 60.0 + high.row * min(max(len(spec.places), 1), rows)
        lines = listed(spec.places, 24, 48, WIDTH - 48, rows, high)
        return drawing(WIDTH, height, spec.title, sentence(spec, translate), lines)
    outline, spots = DRAWINGS[kind]
    return sheet(spec, outline(spec), spots(spec), translate)
