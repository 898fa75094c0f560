"""A burette says what a skim or a sunk valve did to the chamber."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return (
        Surface(slot=f"{a.head(w)}/head", name="chamber"),
        Surface(slot=f"{a.head(w)}/head", name="height"),
        *(Surface(slot=f"{v}/seat", name="depth") for v in a.valves_of(w)),
    )


KIND = Measurand(
    key="chamber_volume",
    name="chamber volume",
    dimension="volume",
    unit="cm³",
    gauges=("burette",),
    where=lambda a: a.cylinders,
    observes=_observes,
    needs=("clean",),
    plausible=(2.0, 400.0),
    drawing="head",
    example="36.0 cm³",
)
