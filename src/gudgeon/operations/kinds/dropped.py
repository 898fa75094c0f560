"""A part that fell may have kept its diameters, not its form: what tells form is read again."""

from gudgeon.anatomy import Anatomy, Feature, Surface, surfaces_of
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return tuple(Surface(slot=w, name=name) for name in surfaces_of(a.slots[w].kind) if name == "form")


KIND = Operation(
    key="dropped",
    name="dropped",
    did="part dropped",
    where=lambda a: tuple(a.slots),
    disturbs=_disturbs,
    example="c1.in.left/valve",
)
