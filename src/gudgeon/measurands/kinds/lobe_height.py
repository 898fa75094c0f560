"""A worn lobe opens its valve less and later; smallest of the cam's lobes counts."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _points(a: Anatomy, w: str) -> tuple[str, ...]:
    return tuple(v for v in a.under(w))


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/cam", name="lobes"),)


KIND = Measurand(
    key="lobe_height",
    name="lobe height",
    dimension="length",
    unit="mm",
    gauges=("micrometer",),
    where=lambda a: a.cams,
    observes=_observes,
    points=_points,
    needs=("clean", "room"),
    plausible=(10.0, 80.0),
    drawing="lobe",
    ask="Nose to back, largest over the lobe, each lobe.",
    example="35.206 mm",
)
