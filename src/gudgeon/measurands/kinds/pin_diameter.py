"""A worn pin knocks; it is measured for itself and for two fits."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/pin", name="diameter"),)


KIND = Measurand(
    key="pin_diameter",
    name="piston pin diameter",
    dimension="length",
    unit="mm",
    gauges=("micrometer",),
    where=lambda a: a.cylinders,
    observes=_observes,
    needs=("clean", "room"),
    plausible=(6.0, 40.0),
    drawing="gauge",
    example="18.993 mm",
)
