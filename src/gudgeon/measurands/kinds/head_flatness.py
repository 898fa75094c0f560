"""A warped face opens the gasket between the bolts; six directions, the largest gap counts."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _extra(a: Anatomy, w: str) -> tuple[str, ...]:
    return ("edge 1", "edge 2", "edge 3", "edge 4", "diagonal 1", "diagonal 2")


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot=f"{w}/head", name="face"),
        Surface(slot=f"{w}/head", name="heat"),
        Surface(slot=f"{w}/head", name="form"),
    )


KIND = Measurand(
    key="head_flatness",
    name="head face flatness",
    dimension="length",
    unit="mm",
    gauges=("straightedge", "dial grid"),
    where=lambda a: a.heads,
    observes=_observes,
    extra_points=_extra,
    needs=("clean",),
    plausible=(0.0, 1.0),
    pair=True,
    drawing="face",
    ask="Six directions; the thickest leaf that goes anywhere, then the one that does not.",
    example="<0.02",
)
