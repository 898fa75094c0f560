"""What the plunger has left to travel is what chain and guides have used up."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot="engine/tensioner", name="travel"),
        Surface(slot="engine/chain", name="length"),
        Surface(slot="engine/chain guide", name="pad"),
    )


KIND = Measurand(
    key="tensioner_travel",
    name="tensioner travel",
    dimension="length",
    unit="mm",
    gauges=("caliper",),
    where=lambda a: ("engine",) if a.has("engine/tensioner") else (),
    observes=_observes,
    needs=(),
    plausible=(0.0, 60.0),
    drawing="gauge",
    caution="Spring-loaded plunger: hold it, face away.",
    example="6.2 mm",
)
