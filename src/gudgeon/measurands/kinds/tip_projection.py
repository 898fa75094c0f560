"""The tip must stand clear of retainer and keepers, or the follower works on the retainer and drops the valve."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot=f"{w}/valve", name="tip"),
        Surface(slot=f"{w}/valve", name="groove"),
        Surface(slot=f"{w}/keepers", name="taper"),
        Surface(slot=f"{w}/retainer", name="seat"),
    )


KIND = Measurand(
    key="tip_projection",
    name="tip projection",
    dimension="length",
    unit="mm",
    gauges=("depth micrometer",),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean",),
    plausible=(0.0, 10.0),
    drawing="valve",
    ask="Stem tip above the retainer, keepers seated.",
    example="2.35 mm",
)
