"""A wide seat carries soot and leaks, a narrow one burns: the cutter widens the ring, so width is read last."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot=f"{w}/seat", name="face"),
        Surface(slot=f"{w}/valve", name="face"),
        Joint(place=w, name="guide axis"),
    )


KIND = Measurand(
    key="seat_width",
    name="seat width",
    dimension="length",
    unit="mm",
    gauges=("graticule",),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean",),
    plausible=(0.1, 5.0),
    drawing="seat",
    ask="Widest place of the blued ring.",
    example="1.04 mm",
)
