"""Slackened head nuts let go of the gasket: it counts as used and the leak test is void."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="head"),)


KIND = Operation(
    key="loosen_head",
    name="loosen head",
    did="head loosened",
    where=lambda a: a.heads,
    disturbs=_disturbs,
    caution="Cold engine, coolant drained and caught; reverse of the tightening order, in stages.",
    example="head",
)
