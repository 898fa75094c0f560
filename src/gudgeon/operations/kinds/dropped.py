"""A part that fell may have kept its diameters, not its form: what tells form is read again."""

from gudgeon.anatomy import SURFACES, Anatomy, Feature, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Surface(slot=w, name="form"),)


KIND = Operation(
    key="dropped",
    name="dropped",
    did="part dropped",
    where=lambda a: tuple(s.name for s in a.slots.values() if "form" in SURFACES[s.kind]),
    disturbs=_disturbs,
    example="c1.in.left/valve",
)
