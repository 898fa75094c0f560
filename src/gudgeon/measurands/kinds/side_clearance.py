"""A ring that flutters in a worn groove seals nothing, however good its gap."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/ring", name="sides"), Surface(slot=f"{a.cylinder(w)}/piston", name="grooves"))


KIND = Measurand(
    key="side_clearance",
    name="ring side clearance",
    dimension="length",
    unit="mm",
    gauges=("feeler",),
    where=lambda a: a.rings,
    observes=_observes,
    needs=("clean",),
    plausible=(0.0, 0.6),
    pair=True,
    drawing="piston",
    ask="Clean groove, all round, largest.",
    example="0.058 mm",
)
