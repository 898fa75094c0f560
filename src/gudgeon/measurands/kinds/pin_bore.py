"""The pin bore of a soft piston opens before the hard pin wears."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/piston", name="pin bore"),)


KIND = Measurand(
    key="pin_bore",
    name="piston pin bore",
    dimension="length",
    unit="mm",
    gauges=("small-hole gauge", "pin"),
    where=lambda a: a.cylinders,
    observes=_observes,
    needs=("clean", "room"),
    plausible=(6.0, 40.0),
    drawing="gauge",
    example="19.009 mm",
)
