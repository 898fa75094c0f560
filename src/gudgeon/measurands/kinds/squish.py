"""Piston and head may all but touch: solder over the pin line on the old, crushed gasket is the only proof."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _points(a: Anatomy, w: str) -> tuple[str, ...]:
    return ("intake", "exhaust", "left", "right")


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot=f"{w}/piston", name="crown"),
        Surface(slot=f"{w}/barrel", name="height"),
        Surface(slot=f"{a.head(w)}/head", name="height"),
        Surface(slot=f"{w}/base gasket", name="thickness"),
        Surface(slot=f"{a.head(w)}/head gasket", name="thickness"),
    )


KIND = Measurand(
    key="squish",
    name="squish",
    dimension="length",
    unit="mm",
    gauges=("micrometer",),
    where=lambda a: a.cylinders,
    observes=_observes,
    points=_points,
    needs=("clean", "turned"),
    plausible=(0.2, 4.0),
    drawing="piston",
    ask="Solder at four spots over the pin line, head at final torque, turned by hand.",
    caution="Turn by hand only; a hard stop is a stop.",
    example="0.98 mm",
)
