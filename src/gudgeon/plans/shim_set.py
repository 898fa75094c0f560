"""The best set of shims: fewest that may miss, fewest bought, nearest the aim, fewest moved, lowest position; exact."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Lift:
    """What it costs to take out a cam that is shut, and what a shim costs, in the same money; which valve is under which."""

    cam_of: Mapping[str, str]
    shut: frozenset[str]
    cam_cost: int
    shim_cost: int
    settled: frozenset[str] = frozenset()


def choice(room: Room, item: Item, rules: Rules) -> Choice | None:
    """This shim under this valve, if its lash lies in the window at face value."""
    assert room.room is not None
    window = room.window
    if not window.low_mm <= (room.room.value - item.known.value) * (1.0 / window.factor) <= window.high_mm:
        return None
    lash = room.lash(item.known)
    reach = t_inverse(1.0 - rules.risk) * lash.u
    tight = lash.value - window.low_mm >= (reach if rules.tight_wall == "guarded" else 0.0)
    loose = window.high_mm - lash.value >= (reach if rules.loose_wall == "guarded" else 0.0)
    return Choice(room=room, item=item, lash=lash, sure=tight and loose)


def best_set(
    rooms: Sequence[Room], items: Sequence[Item], sizes: Sequence[float], rules: Rules, *, shim_cost: int = 1
) -> tuple[Choice, ...] | None:
    """One shim for each valve; nothing where no set exists at all."""
    table = [[choice(room, item, rules) for item in items] for room in rooms]
    fresh = [_fresh(room, sizes, rules) for room in rooms]
    rank = _Rank(rows=len(rooms), columns=len(items) + len(rooms), shim_cost=shim_cost)
    costs = [
        [
            *(None if c is None else rank.cost(c, row, n) for n, c in enumerate(line)),
            *(
                rank.cost(new, row, len(items) + row) if new is not None and n == row else None
                for n in range(len(rooms))
            ),
        ]
        for row, (line, new) in enumerate(zip(table, fresh, strict=True))
    ]
    picked = assign(costs)
    if picked is None:
        return None
    found = [fresh[row] if column >= len(items) else table[row][column] for row, column in enumerate(picked)]
    return tuple(c for c in found if c is not None)


def best_with_lifts(
    rooms: Sequence[Room], items: Sequence[Item], sizes: Sequence[float], rules: Rules, lift: Lift
) -> tuple[tuple[Choice, ...], frozenset[str]] | None:
    """The best set where each cam that comes out is paid for, and the cams that come out: least money, then as without.

    Every set of shut cams is tried, with all that stays under the others left as it is; so the best of them is the best.
    """
    own = {i.valve: i for i in items if i.origin == "slot"}
    best: tuple[tuple[int, ...], tuple[Choice, ...], frozenset[str]] | None = None
    shut = sorted({lift.cam_of[r.valve] for r in rooms} & lift.shut)
    least = _keepable(rooms, own, rules, lift)
    for lifted in (frozenset(c) for n in range(len(shut) + 1) for c in combinations(shut, n)):
        stays = [r for r in rooms if lift.cam_of[r.valve] in lift.shut - lifted]
        kept = [least[r.valve] for r in stays]
        if None in kept or (best is not None and len(lifted) * lift.cam_cost > best[0][1] and best[0][0] == 0):
            continue
        left = [r for r in rooms if r not in stays]
        free = [i for i in items if i.origin != "slot" or i.valve not in {r.valve for r in stays}]
        found = best_set(left, free, sizes, rules, shim_cost=lift.shim_cost) if left else ()
        if found is None:
            continue
        every = (*found, *(c for c in kept if c is not None))
        worth = _worth(every, len(lifted), lift)
        if best is None or worth < best[0]:
            best = worth, every, lifted
    return None if best is None else (best[1], best[2])


def _keepable(
    rooms: Sequence[Room], own: Mapping[str, Item], rules: Rules, lift: Lift
) -> dict[str, Choice | None]:  # fmt: skip
    """What each valve has today, where it may keep it: in setting as read, or in its window."""
    found: dict[str, Choice | None] = {}
    for room in rooms:
        item = own.get(room.valve)
        one = choice(room, item, rules) if item is not None else None
        if item is not None and room.valve in lift.settled:
            one = Choice(room=room, item=item, lash=room.lash(item.known), sure=True)
        found[room.valve] = one
    return found


def _worth(chosen: Sequence[Choice], lifted: int, lift: Lift) -> tuple[int, ...]:
    """What a set is ranked by: fewest that may miss, least money, nearest the aims, fewest moved."""
    money = lifted * lift.cam_cost + sum(c.bought for c in chosen) * lift.shim_cost
    return sum(not c.sure for c in chosen), money, sum(_away(c) for c in chosen), sum(c.moved for c in chosen)


def _away(one: Choice) -> int:
    return round(abs(one.lash.value - one.room.window.aim_mm) / GRAIN_MM)


def _fresh(room: Room, sizes: Sequence[float], rules: Rules) -> Choice | None:
    """The best shim that can be bought for a valve: nobody else wants that very one."""
    assert room.room is not None
    low, high = (room.room.value - room.window.factor * end for end in (room.window.high_mm, room.window.low_mm))
    near = [size for size in sizes if low - GRAIN_MM <= size <= high + GRAIN_MM]
    found = [c for size in near if (c := choice(room, bought(size, room.valve), rules)) is not None]
    return min(found, key=lambda c: (not c.sure, _away(c)), default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rank:
    """Several wishes as one whole number, the first beyond all others."""

    rows: int
    columns: int
    shim_cost: int

    def cost(self, one: Choice, row: int, column: int) -> int:
        """What a choice costs."""
        many, far = self.rows + 1, self.rows * round(WIDEST_MM / GRAIN_MM) + 1
        money = self.rows * self.shim_cost + 1
        cost = (0 if one.sure else 1) * money + (self.shim_cost if one.bought else 0)
        cost = (cost * far + _away(one)) * many + (1 if one.moved else 0)
        last = self.columns + 1
        places: int = last**self.rows
        own: int = last ** (self.rows - 1 - row)
        return cost * places + column * own
