"""Too small a gap butts when hot and breaks the engine; too large a gap leaks. It belongs to this ring in this bore."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/ring", name="ends"), Surface(slot=f"{a.cylinder(w)}/barrel", name="bore"))


KIND = Measurand(
    key="ring_gap",
    name="ring gap",
    dimension="length",
    unit="mm",
    gauges=("feeler",),
    where=lambda a: a.rings,
    observes=_observes,
    needs=("clean",),
    plausible=(0.05, 2.0),
    pair=True,
    drawing="ring",
    ask="Ring squared by the piston, oil-free, this ring in this bore.",
    example="0.34 mm",
)
