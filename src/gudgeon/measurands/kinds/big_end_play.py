"""A good top end on a bad bottom end is money burnt: felt and read before anything is ordered."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/rod", name="big end"),)


KIND = Measurand(
    key="big_end_play",
    name="big end up-and-down play",
    dimension="length",
    unit="mm",
    gauges=("dial indicator",),
    where=lambda a: a.cylinders,
    observes=_observes,
    needs=(),
    plausible=(0.0, 1.0),
    drawing="gauge",
    ask="Rod pushed and pulled along the bore at top dead centre.",
    example="0.01 mm",
)
