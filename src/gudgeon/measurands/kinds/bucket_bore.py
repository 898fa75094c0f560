"""The bore a bucket slides in is the head's: worn, only another head or a sleeve mends it."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{a.head(w)}/head", name="bucket bores"), Joint(place=w, name="bucket bore"))


KIND = Measurand(
    key="bucket_bore",
    name="bucket bore",
    dimension="length",
    unit="mm",
    gauges=("small-hole gauge", "bore gauge", "pin"),
    where=lambda a: tuple(v for v in a.valves if a.layout.side(v).follower.startswith("bucket")),
    observes=_observes,
    needs=("clean", "room"),
    plausible=(12.0, 50.0),
    drawing="gauge",
    ask="Largest of two axes, top and bottom.",
    example="28.012 mm",
)
