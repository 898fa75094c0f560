"""A leaning spring pushes the stem against its guide at every stroke."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/spring", name="coils"),)


KIND = Measurand(
    key="spring_tilt",
    name="spring tilt",
    dimension="length",
    unit="mm",
    gauges=("square and feeler",),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean",),
    plausible=(0.0, 6.0),
    drawing="spring",
    ask="Against a square, turned once, largest gap at the top.",
    example="0.5 mm",
)
