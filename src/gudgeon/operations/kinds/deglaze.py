"""A broken glaze is a new finish and a bore a little larger: a short re-read, never on a plated bore unless its book says so."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/barrel", name="bore"), Surface(slot=f"{w}/barrel", name="finish"))


KIND = Operation(
    key="deglaze",
    name="deglaze bore",
    did="bore deglazed",
    where=lambda a: a.cylinders,
    disturbs=_disturbs,
    calls_for=("bore_diameter", "ring_gap"),
    forbidden_on=("plated",),
    caution="Wash all grit out.",
    example="c1",
)
