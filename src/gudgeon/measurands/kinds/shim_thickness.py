"""A shim's mark is often not its size: every shim plan rests on what the micrometer says of this very shim."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/shim", name="faces"),)


KIND = Measurand(
    key="shim_thickness",
    name="shim thickness",
    dimension="length",
    unit="mm",
    gauges=("micrometer",),
    where=lambda a: tuple(v for v in a.valves if a.has(f"{v}/shim")),
    observes=_observes,
    needs=("clean", "room"),
    plausible=(0.8, 6.0),
    drawing="shim",
    ask="Wiped dry, in the middle.",
    example="1.952 mm",
)
