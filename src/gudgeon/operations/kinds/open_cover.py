"""The cover opens the view on cams and lash; its seal is looked at."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="cover"),)


KIND = Operation(
    key="open_cover",
    name="take cover off",
    did="cover taken off",
    where=lambda a: a.heads,
    disturbs=_disturbs,
    caution="Cool engine, battery off, fuel shut; nothing may fall into the chain tunnel.",
    example="head",
)
