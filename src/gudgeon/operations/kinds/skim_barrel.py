"""A skim off the barrel brings piston and head nearer by all of it."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/barrel", name="face"), Surface(slot=f"{w}/barrel", name="height"))


KIND = Operation(
    key="skim_barrel",
    name="skim barrel",
    did="barrel skimmed",
    where=lambda a: a.cylinders,
    disturbs=_disturbs,
    renews=True,
    calls_for=("barrel_flatness", "squish"),
    details=("removed",),
    caution="Clamp the work, guards shut, no gloves near turning tools.",
    example="c1",
)
