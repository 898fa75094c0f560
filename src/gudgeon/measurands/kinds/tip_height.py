"""The tip stands higher as valve and seat wear or are cut; it is the one height a machinist and a shim plan share."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot=f"{w}/valve", name="face"),
        Surface(slot=f"{w}/valve", name="tip"),
        Surface(slot=f"{w}/seat", name="face"),
        Joint(place=w, name="guide axis"),
        Surface(slot=f"{a.head(w)}/head", name="spring seats"),
    )


KIND = Measurand(
    key="tip_height",
    name="tip height",
    dimension="length",
    unit="mm",
    gauges=("depth micrometer",),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean",),
    plausible=(10.0, 80.0),
    drawing="valve",
    ask="Valve held shut: spring seat to stem tip.",
    example="41.26 mm",
)
