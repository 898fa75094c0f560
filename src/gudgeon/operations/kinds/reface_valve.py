"""Refacing takes from the margin and through any coating."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/valve", name="face"), Surface(slot=f"{w}/valve", name="margin"))


KIND = Operation(
    key="reface_valve",
    name="reface valve",
    did="valve refaced",
    where=lambda a: a.valves,
    disturbs=_disturbs,
    renews=True,
    calls_for=("valve_margin", "tip_height"),
    forbidden_on=("coated",),
    caution=(
        "Titanium: no grinding, fine chips burn, water feeds it. Hollow stems may hold sodium: never cut or drill."
    ),
    example="c1.ex.left",
)
