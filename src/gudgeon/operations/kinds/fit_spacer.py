"""A spacer under the spring restores its load after a sink and takes the same from nothing else."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="spacer"), Joint(place=w, name="keepers"))


KIND = Operation(
    key="fit_spacer",
    name="fit spring spacer",
    did="spring spacer fitted",
    where=lambda a: a.valves,
    disturbs=_disturbs,
    calls_for=("installed_height",),
    details=("thickness",),
    example="c1.in.left",
)
