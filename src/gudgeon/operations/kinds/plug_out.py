"""The plug joint is part of what the leak test tests."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="plug"),)


KIND = Operation(
    key="plug_out",
    name="take plug out",
    did="plug taken out",
    where=lambda a: a.cylinders,
    disturbs=_disturbs,
    example="c1",
)
