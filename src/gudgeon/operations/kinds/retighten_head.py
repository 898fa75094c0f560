"""Nuts taken up after a heat cycle, without slackening, move the valve train a little: lash is read once more."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="settled"),)


def _closes(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="head"),)


KIND = Operation(
    key="retighten_head",
    name="retighten head",
    did="head retightened",
    where=lambda a: a.heads,
    disturbs=_disturbs,
    closes=_closes,
    calls_for=("lash",),
    caution="Only if the book says so, and only fully cold (overnight).",
    example="head",
)
