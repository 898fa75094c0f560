"""A valve that was out sits anew: its seal and its lash are read again."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="keepers"),)


KIND = Operation(
    key="open_keepers",
    name="take keepers out",
    did="keepers taken out",
    where=lambda a: a.valves,
    disturbs=_disturbs,
    caution="Glasses; compress square, stand aside; keepers fly, magnets ready.",
    example="c1.in.left",
)
