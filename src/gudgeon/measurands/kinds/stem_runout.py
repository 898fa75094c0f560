"""A bent stem cannot seal and opens its guide; the full dial swing over one turn shows it."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/valve", name="stem"), Surface(slot=f"{w}/valve", name="form"))


KIND = Measurand(
    key="stem_runout",
    name="stem run-out",
    dimension="length",
    unit="mm",
    gauges=("lever dial", "dial indicator"),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean",),
    plausible=(0.0, 1.0),
    drawing="valve",
    ask="On V-blocks, one full turn, full swing of the dial.",
    caution="Hands clear of turning parts.",
    example="0.012 mm",
)
