"""A thin margin burns: grinding and wear take from it, and no later adjustment gives it back."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/valve", name="margin"),)


KIND = Measurand(
    key="valve_margin",
    name="valve margin",
    dimension="length",
    unit="mm",
    gauges=("caliper",),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean",),
    plausible=(0.1, 4.0),
    drawing="valve",
    ask="Smallest, all round.",
    example="0.74 mm",
)
