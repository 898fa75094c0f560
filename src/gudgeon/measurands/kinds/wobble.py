"""Rocking the valve in its guide is quick, but it is not the clearance: it is kept beside it, never compared with it."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/guide", name="bore"), Surface(slot=f"{w}/valve", name="stem"))


KIND = Measurand(
    key="wobble",
    name="stem wobble",
    dimension="length",
    unit="mm",
    gauges=("dial indicator",),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean",),
    plausible=(0.0, 1.5),
    drawing="guide",
    ask="Valve about 10 mm open, full side-to-side reading.",
    example="0.146 mm",
)
