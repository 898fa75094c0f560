"""With the tensioner out a chain can jump: the marks say nothing until it works again."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place="engine", name="tensioner"),)


KIND = Operation(
    key="remove_tensioner",
    name="take tensioner out",
    did="tensioner taken out",
    where=lambda a: ("engine",) if a.has("engine/tensioner") else (),
    disturbs=_disturbs,
    caution="Spring-loaded plunger: hold it, face away. Tensioner out before the cam holders.",
    example="engine",
)
