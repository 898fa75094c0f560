"""Honing opens the bore and every ring gap in it."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/barrel", name="bore"), Surface(slot=f"{w}/barrel", name="finish"))


KIND = Operation(
    key="hone",
    name="hone bore",
    did="bore honed",
    where=lambda a: a.cylinders,
    disturbs=_disturbs,
    renews=True,
    calls_for=("bore_diameter", "ring_gap"),
    forbidden_on=("plated",),
    details=("to",),
    caution="Guard, no gloves near turning tools; wash all grit out.",
    example="c1",
)
