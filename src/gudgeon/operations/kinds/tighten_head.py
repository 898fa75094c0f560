"""At the final stage the one-use gasket is used, and what stands under the head is sealed in."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _closes(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="head"),)


KIND = Operation(
    key="tighten_head",
    name="tighten head",
    did="head tightened",
    where=lambda a: a.heads,
    closes=_closes,
    caution="Stages, criss-cross from the middle; stop if it feels like yield; angle bolts never twice.",
    example="head",
)
