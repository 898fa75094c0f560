"""A bent cam loads its journals and moves the lash from lobe to lobe."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/cam", name="form"),)


KIND = Measurand(
    key="cam_runout",
    name="cam run-out",
    dimension="length",
    unit="mm",
    gauges=("lever dial", "dial indicator"),
    where=lambda a: a.cams,
    observes=_observes,
    needs=("clean",),
    plausible=(0.0, 1.0),
    drawing="lobe",
    ask="On V-blocks, middle journal, full swing.",
    example="0.015 mm",
)
