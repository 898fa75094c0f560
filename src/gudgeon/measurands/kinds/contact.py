"""Where the blue sits on the face says which cutter comes next; a ring of the right width in the wrong place still burns."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot=f"{w}/seat", name="face"),
        Surface(slot=f"{w}/valve", name="face"),
        Joint(place=w, name="guide axis"),
    )


KIND = Measurand(
    key="contact",
    name="contact",
    dimension="words",
    unit="",
    gauges=("eye",),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean",),
    words=("centre", "high", "low", "broken"),
    drawing="seat",
    ask="Blue: where on the face, and unbroken all round?",
    example="centre",
)
