"""The base joint at its final torque carries the head joint above it."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _closes(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="base"),)


KIND = Operation(
    key="tighten_base",
    name="tighten barrel",
    did="barrel tightened",
    where=lambda a: a.cylinders,
    closes=_closes,
    example="c1",
)
