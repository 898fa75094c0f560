"""The last joint over the cams: oil stays in, dirt stays out."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _closes(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="cover"),)


KIND = Operation(
    key="tighten_cover",
    name="tighten cover",
    did="cover tightened",
    where=lambda a: a.heads,
    closes=_closes,
    example="head",
)
