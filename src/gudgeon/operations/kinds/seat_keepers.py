"""Keepers that are not home drop the valve into the engine."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _closes(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="keepers"),)


KIND = Operation(
    key="seat_keepers",
    name="seat keepers",
    did="keepers seated",
    where=lambda a: a.valves,
    closes=_closes,
    calls_for=("seal_test",),
    caution="Glasses; tap the stem only under a cloth, stand aside.",
    example="c1.in.left",
)
