"""A seat that does not run true to its guide cannot be sealed by any amount of lapping."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/seat", name="face"), Joint(place=w, name="guide axis"))


KIND = Measurand(
    key="seat_runout",
    name="seat run-out",
    dimension="length",
    unit="mm",
    gauges=("lever dial",),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean",),
    plausible=(0.0, 1.0),
    drawing="seat",
    ask="Pilot in the guide, one full turn, full swing.",
    example="0.02 mm",
)
