"""A new guide has a new axis: the seat is no longer true to it, and the head was heated."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="guide axis"), Surface(slot=f"{a.head(w)}/head", name="heat"))


KIND = Operation(
    key="fit_guide",
    name="fit guide",
    did="guide fitted",
    where=lambda a: a.valves,
    disturbs=_disturbs,
    calls_for=("guide_bore", "seat_runout"),
    caution="Oven, never a torch; gloves to the elbow, mark HOT until measured cool; chilled parts burn skin.",
    example="c1.in.left",
)
