"""Lash is read on the base circle: wear there opens lash without any wear at the valve."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/cam", name="base circle"),)


KIND = Measurand(
    key="base_circle",
    name="base circle",
    dimension="length",
    unit="mm",
    gauges=("micrometer",),
    where=lambda a: a.cams,
    observes=_observes,
    needs=("clean", "room"),
    plausible=(8.0, 70.0),
    drawing="lobe",
    ask="Across the back of the lobe, smallest.",
    example="28.98 mm",
)
