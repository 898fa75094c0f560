"""A size read through carbon is not the part's: the first cleaning voids what was read on a dirty surface, a second washes nothing away."""

from gudgeon.anatomy import Anatomy, Feature, Surface, surfaces_of
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return tuple(Surface(slot=w, name=name) for name in surfaces_of(a.slots[w].kind))


KIND = Operation(
    key="clean",
    name="clean part",
    did="part cleaned",
    where=lambda a: tuple(a.slots),
    disturbs=_disturbs,
    first_time_only=True,
    caution=(
        "Solvents flammable: ventilate, no sparks, no petrol. Air below 30 psi at a dead end, glasses, "
        "never on skin. Wet, by hand; assume asbestos in old gaskets."
    ),
    example="c1.in.left/valve",
)
