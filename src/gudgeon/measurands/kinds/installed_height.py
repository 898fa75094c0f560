"""A sunk valve lets its spring grow: the load on the shut valve falls although the spring is good."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot=f"{w}/valve", name="groove"),
        Surface(slot=f"{w}/valve", name="margin"),
        Surface(slot=f"{w}/seat", name="depth"),
        Surface(slot=f"{w}/retainer", name="seat"),
        Surface(slot=f"{w}/keepers", name="taper"),
        Surface(slot=f"{a.head(w)}/head", name="spring seats"),
        Joint(place=w, name="spacer"),
    )


KIND = Measurand(
    key="installed_height",
    name="spring installed height",
    dimension="length",
    unit="mm",
    gauges=("caliper",),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("clean",),
    plausible=(10.0, 80.0),
    drawing="spring",
    ask="Spring seat (on its spacer) to retainer, valve held shut.",
    example="34.55 mm",
)
