"""A finger or rocker loose on its shaft hides in the lash."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/follower", name="bore"),)


KIND = Measurand(
    key="follower_bore",
    name="follower bore",
    dimension="length",
    unit="mm",
    gauges=("small-hole gauge", "pin"),
    where=lambda a: tuple(v for v in a.valves if a.has(f"{a.cam(v)}/follower shaft")),
    observes=_observes,
    needs=("clean", "room"),
    plausible=(4.0, 40.0),
    drawing="gauge",
    example="10.018 mm",
)
