"""The shaft wears under the load side of each follower; smallest counts."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/follower shaft", name="diameter"),)


KIND = Measurand(
    key="shaft_diameter",
    name="follower shaft diameter",
    dimension="length",
    unit="mm",
    gauges=("micrometer",),
    where=lambda a: tuple(c for c in a.cams if a.has(f"{c}/follower shaft")),
    observes=_observes,
    needs=("clean", "room"),
    plausible=(4.0, 40.0),
    drawing="gauge",
    example="9.975 mm",
)
