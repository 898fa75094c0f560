"""How far the piston stops below the face sets squish and ratio before any gasket is chosen."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot=f"{w}/piston", name="crown"),
        Surface(slot=f"{w}/barrel", name="height"),
        Surface(slot=f"{w}/base gasket", name="thickness"),
    )


KIND = Measurand(
    key="deck_height",
    name="deck height",
    dimension="length",
    unit="mm",
    gauges=("depth micrometer", "dial indicator"),
    where=lambda a: a.cylinders,
    observes=_observes,
    needs=("clean",),
    plausible=(-3.0, 12.0),
    drawing="piston",
    example="0.40 mm",
)
