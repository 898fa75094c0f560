"""Followers that were off their shaft sit anew."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="follower shaft"),)


KIND = Operation(
    key="open_follower_shaft",
    name="draw follower shaft",
    did="follower shaft drawn",
    where=lambda a: tuple(c for c in a.cams if a.has(f"{c}/follower shaft")),
    disturbs=_disturbs,
    example="cam.in",
)
