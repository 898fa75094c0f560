"""A bore wears oval and tapered: six places, the largest decides clearance, the spread decides shape."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _points(a: Anatomy, w: str) -> tuple[str, ...]:
    return tuple(f"{level} {axis}" for level in ("top", "middle", "bottom") for axis in "xy")


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/barrel", name="bore"),)


KIND = Measurand(
    key="bore_diameter",
    name="bore diameter",
    dimension="length",
    unit="mm",
    gauges=("bore gauge",),
    where=lambda a: a.cylinders,
    observes=_observes,
    points=_points,
    worst_first=("top y", "top x", "bottom y"),
    needs=("clean", "room"),
    plausible=(25.0, 140.0),
    drawing="bore",
    ask="x along the pin, y across the pin. Cold, clean, dry.",
    example="76.014 mm",
)
