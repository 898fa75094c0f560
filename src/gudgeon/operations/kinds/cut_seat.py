"""Every cut lets the valve sink: tip, spring, lash, width and contact all follow."""

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.operations.shape import Detail, Operation


def _disturbs(a: Anatomy, w: str, detail: Detail) -> tuple[Feature, ...]:
    return (Surface(slot=f"{w}/seat", name="face"), Surface(slot=f"{w}/seat", name="depth"))


def _pairs(a: Anatomy, w: str) -> tuple[tuple[str, str], ...]:
    return ((f"{w}/valve", f"{w}/seat"),)


KIND = Operation(
    key="cut_seat",
    name="cut seat",
    did="seat cut",
    where=lambda a: a.valves,
    disturbs=_disturbs,
    renews=True,
    pairs=_pairs,
    calls_for=("seat_width", "contact", "tip_height", "installed_height", "seal_test", "lash"),
    caution="Copper-beryllium seats exist: no dry cutting, ask the maker first. Guide before seat.",
    example="c1.in.left",
)
