"""A stem wears to an hourglass; only the smallest of six places says what its guide has left to hold."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _points(a: Anatomy, w: str) -> tuple[str, ...]:
    return tuple(f"{level} {axis}" for level in ("top", "middle", "bottom") for axis in "xy")


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/valve", name="stem"),)


KIND = Measurand(
    key="stem_diameter",
    name="stem diameter",
    dimension="length",
    unit="mm",
    gauges=("micrometer",),
    where=lambda a: a.valves,
    observes=_observes,
    points=_points,
    worst_first=("bottom y", "top y"),
    needs=("clean", "room"),
    plausible=(3.0, 12.0),
    drawing="valve",
    ask="Three heights of the worked length, two axes each.",
    example="4.966 mm",
)
