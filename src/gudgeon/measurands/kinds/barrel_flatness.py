"""The barrel's face is half of the head joint; what a straightedge cannot settle, a dial grid on a plate can."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _extra(a: Anatomy, w: str) -> tuple[str, ...]:
    return ("edge 1", "edge 2", "edge 3", "edge 4", "diagonal 1", "diagonal 2")


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/barrel", name="face"), Surface(slot=f"{w}/barrel", name="form"))


KIND = Measurand(
    key="barrel_flatness",
    name="barrel face flatness",
    dimension="length",
    unit="mm",
    gauges=("straightedge", "dial grid"),
    where=lambda a: a.cylinders,
    observes=_observes,
    extra_points=_extra,
    needs=("clean",),
    plausible=(0.0, 1.0),
    pair=True,
    drawing="face",
    ask="Six directions; the thickest leaf that goes anywhere, then the one that does not.",
    example="0.04/0.05",
)
