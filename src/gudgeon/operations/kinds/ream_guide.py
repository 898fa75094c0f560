"""A guide is reamed to its valve from the chamber side, before the seat is cut."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/guide", name="bore"),)


KIND = Operation(
    key="ream_guide",
    name="ream guide",
    did="guide reamed",
    where=lambda a: a.valves,
    disturbs=_disturbs,
    renews=True,
    calls_for=("guide_bore",),
    details=("to",),
    caution="Clockwise only, with oil; copper-beryllium guides exist: no dry dust.",
    example="c1.in.left",
)
