"""A heated head may have moved its faces and loosened its inserts: both are looked at again."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/head", name="heat"),)


KIND = Operation(
    key="heat_head",
    name="heat head",
    did="head heated",
    where=lambda a: a.heads,
    disturbs=_disturbs,
    calls_for=("head_flatness",),
    caution="Oven, never a torch; gloves; mark HOT until measured cool.",
    example="head",
)
