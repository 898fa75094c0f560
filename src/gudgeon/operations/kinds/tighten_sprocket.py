"""Sprocket bolts that come loose cost cam, chain and case: locker, torque, cure time."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _closes(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="sprocket"),)


KIND = Operation(
    key="tighten_sprocket",
    name="tighten cam sprocket",
    did="cam sprocket tightened",
    where=lambda a: a.cams,
    closes=_closes,
    calls_for=("timing_marks",),
    caution="Locker: skin and eyes; not near oil ways.",
    example="cam.in",
)
