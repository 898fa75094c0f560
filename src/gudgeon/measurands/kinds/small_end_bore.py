"""The small end shows what the bottom end went through before a good top end is put on it."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/rod", name="small end"),)


KIND = Measurand(
    key="small_end_bore",
    name="small end bore",
    dimension="length",
    unit="mm",
    gauges=("small-hole gauge", "pin"),
    where=lambda a: a.cylinders,
    observes=_observes,
    needs=("clean", "room"),
    plausible=(6.0, 40.0),
    drawing="gauge",
    example="19.023 mm",
)
