"""Turned backwards, the slack changes strands: marks and the two turns start again."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place="engine", name="direction"),)


KIND = Operation(
    key="turn_backwards",
    name="turned backwards",
    did="turned backwards",
    where=lambda a: ("engine",),
    disturbs=_disturbs,
    example="engine",
)
