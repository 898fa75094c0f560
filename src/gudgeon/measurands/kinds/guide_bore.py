"""A guide wears to a bell mouth at both ends; the largest of six places decides the fit."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _points(a: Anatomy, w: str) -> tuple[str, ...]:
    return tuple(f"{level} {axis}" for level in ("top", "middle", "bottom") for axis in "xy")


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/guide", name="bore"),)


KIND = Measurand(
    key="guide_bore",
    name="guide bore",
    dimension="length",
    unit="mm",
    gauges=("small-hole gauge", "pin"),
    where=lambda a: a.valves,
    observes=_observes,
    points=_points,
    worst_first=("bottom y", "top y"),
    needs=("clean", "room"),
    plausible=(3.0, 13.0),
    drawing="guide",
    ask="Both ends and the middle, two axes each. Small-hole gauge, then micrometer.",
    example="5.021 mm",
)
