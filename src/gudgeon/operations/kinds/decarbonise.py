"""Carbon holds a valve off its seat: with it gone, lash, tip and seal are others."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/valve", name="face"),)


KIND = Operation(
    key="decarbonise",
    name="clean carbon off valve face",
    did="carbon cleaned off the face",
    where=lambda a: a.valves,
    disturbs=_disturbs,
    first_time_only=True,
    caution="Wet, by hand, no dry brush; titanium and coatings: no wire wheel.",
    example="c1.in.left",
)
