"""A scored journal starves the cam of oil; it is half of the journal clearance."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/cam", name="journals"),)


KIND = Measurand(
    key="journal_diameter",
    name="cam journal diameter",
    dimension="length",
    unit="mm",
    gauges=("micrometer",),
    where=lambda a: a.cams,
    observes=_observes,
    needs=("clean", "room"),
    plausible=(8.0, 70.0),
    drawing="lobe",
    ask="Smallest of all journals.",
    example="21.966 mm",
)
