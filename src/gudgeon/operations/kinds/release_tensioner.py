"""Reset, fitted, tight, then released: bolted down with the plunger out it breaks or overtightens the chain."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _closes(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place="engine", name="tensioner"),)


KIND = Operation(
    key="release_tensioner",
    name="fit and release tensioner",
    did="tensioner fitted and released",
    where=lambda a: ("engine",) if a.has("engine/tensioner") else (),
    closes=_closes,
    calls_for=("timing_marks",),
    caution="Reset it first, never bolt it down with the plunger out.",
    example="engine",
)
