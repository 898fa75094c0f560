"""A sprocket that left its cam may come back a tooth out."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="sprocket"),)


KIND = Operation(
    key="open_sprocket",
    name="open cam sprocket",
    did="cam sprocket opened",
    where=lambda a: a.cams,
    disturbs=_disturbs,
    example="cam.in",
)
