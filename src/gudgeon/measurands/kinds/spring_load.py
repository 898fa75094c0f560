"""Load at the installed length is what closes the valve; it is judged for itself."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/spring", name="coils"),)


KIND = Measurand(
    key="spring_load",
    name="spring load",
    dimension="force",
    unit="N",
    gauges=("spring tester",),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean",),
    plausible=(20.0, 900.0),
    drawing="spring",
    ask="At the book's length.",
    caution="Eye protection; compress square, stand aside.",
    example="171.0 N",
)
