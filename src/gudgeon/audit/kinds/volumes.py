"""Displacement and compression ratio follow from the sizes: a lost digit in one of them shows here."""

from collections.abc import Iterable
from math import isclose

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.book.engine import Geometry
from gudgeon.mechanics import volumes
from gudgeon.problem import Refused
from gudgeon.shelf.parse import Shelf
from gudgeon.units import Quantity

KEY = "volumes"
NAME = "displacement and ratio follow from the sizes"
WHY = "Cranking pressure is predicted from these; a wrong one sends a good engine to the strip bench."
CLOSE = 0.02  # makers round chamber volumes to the nearest tenth and state ratios to one: common practice, no source


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """The printed volume and ratio against the computed ones."""
    size, cylinders = rows.geometry, rows.layout.cylinders if rows.layout else 1
    if size.bore is None or size.stroke is None:
        return
    try:
        one = volumes.displacement_cm3(size.bore.value, size.stroke.value)
        yield from _displacement(size, one, cylinders)
        yield from _ratio(size, one)
    except Refused as refused:
        yield found("error", size.line, "geometry", "{words}", "Look at the sizes.",
                    words=str(refused.problems[0]))  # fmt: skip


def _displacement(size: Geometry, one: float, cylinders: int) -> Iterable[Finding]:
    printed = size.displacement
    if printed is None or isclose(printed.value, one * cylinders, rel_tol=0.005):
        return
    assert size.bore is not None and size.stroke is not None
    yield found("error", size.line, "geometry", "The sizes make {made} cm³, the book says {printed}.",
                "Bore, stroke, cylinders or displacement is a misprint.",
                f"π × {size.bore.value:g}² × {size.stroke.value:g} / 4000 × {cylinders} = {one * cylinders:.2f} cm³",
                made=f"{one * cylinders:.2f}", printed=str(printed))  # fmt: skip


def _ratio(size: Geometry, one: float) -> Iterable[Finding]:
    printed, thick, across = size.compression_ratio, size.gasket_thickness, size.gasket_bore or size.bore
    if printed is None or size.chamber is None or size.bore is None or thick is None or across is None:
        return
    above = volumes.clearance_volume_cm3(
        bore_mm=size.bore.value,
        chamber_cm3=size.chamber.value,
        gasket_bore_mm=across.value,
        gasket_thickness_mm=thick.value,
        deck_mm=_or_zero(size.deck),
        dome_cm3=_or_zero(size.dome),
    )
    made = volumes.compression_ratio(one, above)
    if not isclose(printed.value, made, rel_tol=CLOSE):
        yield found("error", size.line, "geometry", "The volumes make a ratio of {made}, the book says {printed}.",
                    "Chamber, gasket, deck, dome or ratio is a misprint.",
                    f"({one:.2f} + {above:.3f}) / {above:.3f} = {made:.2f}",
                    made=f"{made:.2f}", printed=str(printed))  # fmt: skip


def _or_zero(size: Quantity | None) -> float:
    return size.value if size is not None else 0.0
