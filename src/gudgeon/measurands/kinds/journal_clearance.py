"""Crushed strip shows the clearance under the torqued holder, where neither bore nor journal alone can."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot=f"{w}/cam", name="journals"),
        Surface(slot=f"{w}/holder", name="bore"),
    )


KIND = Measurand(
    key="journal_clearance",
    name="cam journal clearance",
    dimension="length",
    unit="mm",
    gauges=("strip",),
    where=lambda a: a.cams,
    observes=_observes,
    needs=("clean",),
    plausible=(0.0, 0.6),
    drawing="gauge",
    ask="Strip across the journal, holder to final torque, cam not turned, widest place.",
    caution="Even stages: a cracked holder may throw bits.",
    example="0.051 mm",
)
