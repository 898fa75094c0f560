"""A plug at its torque seals the chamber and sheds its heat."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _closes(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="plug"),)


KIND = Operation(
    key="plug_in",
    name="tighten plug",
    did="plug tightened",
    where=lambda a: a.cylinders,
    closes=_closes,
    example="c1",
)
