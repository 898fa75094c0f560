"""A rebore is cut to the piston in hand, not to a table."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/barrel", name="bore"), Surface(slot=f"{w}/barrel", name="finish"))


KIND = Operation(
    key="rebore",
    name="rebore",
    did="bore rebored",
    where=lambda a: a.cylinders,
    disturbs=_disturbs,
    renews=True,
    calls_for=("bore_diameter", "ring_gap"),
    forbidden_on=("plated",),
    details=("to",),
    caution="Clamp the work, no gloves near turning tools.",
    example="c1",
)
