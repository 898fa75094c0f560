"""A bucket worn out of round tips in its bore and rattles like a wide lash."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/follower", name="outside"),)


KIND = Measurand(
    key="bucket_diameter",
    name="bucket diameter",
    dimension="length",
    unit="mm",
    gauges=("micrometer",),
    where=lambda a: tuple(v for v in a.valves if a.layout.side(v).follower.startswith("bucket")),
    observes=_observes,
    needs=("clean", "room"),
    plausible=(12.0, 50.0),
    drawing="gauge",
    ask="Half way down the skirt, smallest of two axes.",
    example="27.976 mm",
)
