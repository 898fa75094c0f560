"""Grinding the tip buys lash and shortens the stem; on a coated tip it ends the valve."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/valve", name="tip"), Joint(place=w, name="keepers"))


KIND = Operation(
    key="grind_tip",
    name="grind valve tip",
    did="valve tip ground",
    where=lambda a: a.valves,
    disturbs=_disturbs,
    renews=True,
    calls_for=("tip_height", "tip_projection", "lash"),
    forbidden_on=("coated",),
    caution="Titanium: no grinding. Glasses.",
    example="c1.ex.left",
)
