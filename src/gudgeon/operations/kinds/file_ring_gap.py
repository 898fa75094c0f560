"""A gap too small is filed, squarely and little by little, and read again."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/ring", name="ends"),)


KIND = Operation(
    key="file_ring_gap",
    name="file ring gap",
    did="ring gap filed",
    where=lambda a: a.rings,
    disturbs=_disturbs,
    calls_for=("ring_gap",),
    example="c1.ring.top",
)
