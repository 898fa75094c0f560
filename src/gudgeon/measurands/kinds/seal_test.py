"""The bench test says whether valve and seat meet now, before the head is bolted down over them."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot=f"{w}/valve", name="face"),
        Surface(slot=f"{w}/seat", name="face"),
        Joint(place=w, name="keepers"),
        Joint(place=w, name="guide axis"),
        Joint(place=w, name="seal"),
    )


KIND = Measurand(
    key="seal_test",
    name="seal test",
    dimension="words",
    unit="",
    gauges=("eye",),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean",),
    words=("holds", "weeps", "leaks"),
    drawing="seat",
    ask="Fluid in the port, three minutes.",
    caution="Fluid flammable: ventilate, no sparks, never petrol.",
    example="holds",
)
