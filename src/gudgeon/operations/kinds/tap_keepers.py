"""Tapping a stem to settle its keepers moves seal and lash, nothing else."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="keepers"),)


def _closes(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="keepers"),)


KIND = Operation(
    key="tap_keepers",
    name="tap keepers",
    did="keepers tapped",
    where=lambda a: a.valves,
    disturbs=_disturbs,
    closes=_closes,
    caution="Glasses: keepers can fly when the stem is tapped.",
    example="c1.in.left",
)
