"""The skirt is barrelled and oval: only the stated height, square to the pin, compares with the book."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/piston", name="skirt"),)


KIND = Measurand(
    key="piston_diameter",
    name="piston diameter",
    dimension="length",
    unit="mm",
    gauges=("micrometer",),
    where=lambda a: a.cylinders,
    observes=_observes,
    needs=("clean", "room"),
    plausible=(25.0, 140.0),
    drawing="piston",
    ask="Square to the pin, at the book's height from the skirt edge.",
    example="75.962 mm",
)
