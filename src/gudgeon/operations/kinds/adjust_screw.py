"""Screw and locknut move together: the lash is read after locking."""

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=w, name="adjuster"),)


KIND = Operation(
    key="adjust_screw",
    name="adjust lash screw",
    did="lash screw adjusted",
    where=lambda a: tuple(v for v in a.valves if a.layout.side(v).follower in ("rocker_screw", "pushrod_screw")),
    disturbs=_disturbs,
    calls_for=("lash",),
    example="c1.in",
)
