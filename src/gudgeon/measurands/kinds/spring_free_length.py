"""A tired spring is often short, but not always: length may pass while the load fails."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/spring", name="coils"),)


KIND = Measurand(
    key="spring_free_length",
    name="spring free length",
    dimension="length",
    unit="mm",
    gauges=("caliper",),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean",),
    plausible=(15.0, 90.0),
    drawing="spring",
    ask="Standing free, shortest place.",
    example="42.82 mm",
)
