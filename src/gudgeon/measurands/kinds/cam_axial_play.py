"""A cam that floats endways wears its thrust faces and its sprocket out of line."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot=f"{w}/cam", name="journals"),
        Surface(slot=f"{w}/holder", name="bore"),
    )


KIND = Measurand(
    key="cam_axial_play",
    name="cam axial play",
    dimension="length",
    unit="mm",
    gauges=("dial indicator",),
    where=lambda a: a.cams,
    observes=_observes,
    needs=("clean",),
    plausible=(0.0, 2.0),
    drawing="gauge",
    example="0.12 mm",
)
