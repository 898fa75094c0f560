"""How deep the valve head stands under the gasket face decides what a skim may take."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot=f"{w}/valve", name="face"),
        Surface(slot=f"{w}/seat", name="face"),
        Surface(slot=f"{a.head(w)}/head", name="face"),
    )


KIND = Measurand(
    key="recession",
    name="valve recession",
    dimension="length",
    unit="mm",
    gauges=("depth micrometer",),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean",),
    plausible=(-3.0, 8.0),
    drawing="head",
    ask="Gasket face down to the valve head.",
    example="0.62 mm",
)
