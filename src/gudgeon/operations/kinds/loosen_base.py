"""The base joint opened: its gasket and the leak test are void."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="base"),)


KIND = Operation(
    key="loosen_base",
    name="loosen barrel",
    did="barrel loosened",
    where=lambda a: a.cylinders,
    disturbs=_disturbs,
    example="c1",
)
