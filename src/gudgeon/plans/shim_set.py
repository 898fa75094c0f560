"""The best set of shims: fewest that may miss, fewest bought, nearest the aim, fewest moved, lowest position; exact."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.metrology.known import Known
from gudgeon.metrology.student import t_inverse
from gudgeon.plans.assign import assign
from gudgeon.plans.lashes import Room
from gudgeon.plans.shim_items import Item, bought
from gudgeon.shelf.rules import Rules

#: Distances from the aim are told apart down to this, in mm.
GRAIN_MM = 1e-6
#: No lash window is wider than this, in mm.
WIDEST_MM = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A shim for a valve, and the lash to expect over it; `sure` where the guarded walls are kept too."""

    room: Room
    item: Item
    lash: Known
    sure: bool

    @property
    def moved(self) -> bool:
        """Whether the shim comes from anywhere but its own slot."""
        return not (self.item.origin == "slot" and self.item.valve == self.room.valve)

    @property
    def bought(self) -> bool:
        """Whether it must be bought."""
        return self.item.origin == "buy"


def choice(room: Room, item: Item, rules: Rules) -> Choice | None:
    """This shim under this valve, if its lash lies in the window at face value."""
    lash, window = room.lash(item.known), room.window
    if not window.low_mm <= lash.value <= window.high_mm:
        return None
    reach = t_inverse(1.0 - rules.risk) * lash.u
    tight = lash.value - window.low_mm >= (reach if rules.tight_wall == "guarded" else 0.0)
    loose = window.high_mm - lash.value >= (reach if rules.loose_wall == "guarded" else 0.0)
    return Choice(room=room, item=item, lash=lash, sure=tight and loose)


def best_set(
    rooms: Sequence[Room], items: Sequence[Item], sizes: Sequence[float], rules: Rules
) -> tuple[Choice, ...] | None:
    """One shim for each valve; nothing where no set exists at all."""
    table = [_row(room, items, sizes, len(rooms), n, rules) for n, room in enumerate(rooms)]
    columns = len(items) + len(sizes) * len(rooms)
    rank = _Rank(rows=len(rooms), columns=columns)
    costs = [
        [None if c is None else rank.cost(c, row, n) for n, c in enumerate(line)] for row, line in enumerate(table)
    ]
    picked = assign(costs)
    if picked is None:
        return None
    found = [table[row][column] for row, column in enumerate(picked)]
    return tuple(c for c in found if c is not None)


def _row(
    room: Room, items: Sequence[Item], sizes: Sequence[float], rooms: int, own: int, rules: Rules
) -> list[Choice | None]:
    """What each shim would do at one valve; of the sizes on sale each valve has its own columns."""
    row = [choice(room, item, rules) for item in items]
    for n in range(rooms):
        row += [choice(room, bought(size, room.valve), rules) if n == own else None for size in sizes]
    return row


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rank:
    """Several wishes as one whole number, the first beyond all others."""

    rows: int
    columns: int

    def cost(self, one: Choice, row: int, column: int) -> int:
        """What a choice costs."""
        away = round(abs(one.lash.value - one.room.window.aim_mm) / GRAIN_MM)
        many, far = self.rows + 1, self.rows * round(WIDEST_MM / GRAIN_MM) + 1
        cost = (0 if one.sure else 1) * many + (1 if one.bought else 0)
        cost = (cost * far + away) * many + (1 if one.moved else 0)
        last = self.columns + 1
        places: int = last**self.rows
        own: int = last ** (self.rows - 1 - row)
        return cost * places + column * own
