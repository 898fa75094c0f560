"""Lapping makes valve and seat a pair and moves both a little; through a coating it ends the valve."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/valve", name="face"), Surface(slot=f"{w}/seat", name="face"))


def _pairs(a: Anatomy, w: str) -> tuple[tuple[str, str], ...]:
    return ((f"{w}/valve", f"{w}/seat"),)


KIND = Operation(
    key="lap_valve",
    name="lap valve",
    did="valve lapped",
    where=lambda a: a.valves,
    disturbs=_disturbs,
    pairs=_pairs,
    calls_for=("seat_width", "contact", "tip_height", "seal_test", "lash"),
    forbidden_on=("coated",),
    caution=("Grit kills bearings: wash all of it off. Copper-beryllium seats exist: wet only, ask the maker first."),
    example="c1.ex.left",
)
