"""Random sets of shims, and the same choice as a mixed-integer program for a general solver."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from random import Random

from gudgeon.metrology.known import known
from gudgeon.plans.lashes import Room, Window
from gudgeon.plans.shim_items import Item, bought
from gudgeon.plans.shim_set import GRAIN_MM, Choice, Lift, choice
from gudgeon.shelf.rules import Rules

SIZES = tuple(round(1.5 + 0.05 * n, 3) for n in range(13))
RULES = Rules()
#: Money of one unit of the aim: below every sum of distances.
_FAR = 16 * round(10.0 / GRAIN_MM) + 1


def valves(count: int) -> tuple[str, ...]:
    return tuple(f"c{n // 4 + 1}.{'in' if n % 4 < 2 else 'ex'}.{'left' if n % 2 else 'right'}" for n in range(count))


def draw(seed: int, count: int = 16, shelf: int = 8) -> tuple[list[Room], list[Item]]:
    """Valves with worn lashes and what lies in the drawer."""
    random = Random(seed)
    rooms, items = [], []
    for valve in valves(count):
        low = 0.10 if ".in" in valve else 0.20
        window = Window(low_mm=low, high_mm=low + 0.06, aim_mm=low + 0.04, factor=1.0)
        size = round(random.uniform(1.6, 2.0), 3)
        lash = low + random.choice((random.uniform(-0.04, 0.0), random.uniform(0.02, 0.06), random.uniform(0.06, 0.09)))
        rooms.append(Room(valve=valve, window=window, room=known(size + lash, f"room {valve}", 0.004)))
        items.append(
            Item(origin="slot", shim=f"orig:{valve}/shim", size_mm=size, known=known(size, valve, 0.001), valve=valve)
        )
    for n in range(shelf):
        size = random.choice(SIZES) + random.uniform(-0.004, 0.004)
        items.append(Item(origin="shelf", shim=f"{size}", size_mm=size, known=known(size, f"shelf {n}", 0.002)))
    return rooms, items


def weight(one: Choice, shim_cost: int = 1) -> int:
    """One choice as money, distance and moves in one whole number; sets are compared by its sum."""
    money = (0 if one.sure else 1) * (16 * shim_cost + 1) * 10_000 + (shim_cost if one.bought else 0)
    away = round(abs(one.lash.value - one.room.window.aim_mm) / GRAIN_MM)
    return (money * _FAR + away) * 17 + (1 if one.moved else 0)


def model(
    rooms: Sequence[Room], items: Sequence[Item], lift: Lift | None = None
) -> tuple[Callable[[], int | None], Callable[[], object]]:  # fmt: skip
    """The same choice for `scipy.optimize.milp`: its value in whole numbers, and its time without its building."""
    import numpy as np
    from scipy import optimize, sparse

    options = [
        (row, column, c)
        for row, room in enumerate(rooms)
        for column, item in enumerate((*items, *(bought(size, room.valve) for size in SIZES)))
        if (c := choice(room, item, RULES)) is not None
    ]
    cams = sorted(lift.shut) if lift else []
    price = lift.shim_cost if lift else 1
    width = len(options) + len(cams)
    whole = [weight(c, price) for _r, _c, c in options] + [(lift.cam_cost if lift else 0) * _FAR * 17] * len(cams)
    lines = sparse.lil_array((len(rooms) + len(items) + (len(options) if lift else 0), width))
    low, high = np.zeros(lines.shape[0]), np.ones(lines.shape[0])
    low[: len(rooms)] = 1
    for n, (row, column, one) in enumerate(options):
        lines[row, n] = 1
        if column < len(items):
            lines[len(rooms) + column, n] = 1
        if lift is not None:
            tie = len(rooms) + len(items) + n
            low[tie] = -np.inf
            touched = {lift.cam_of[one.room.valve]} | (
                {lift.cam_of[one.item.valve]} if one.item.origin == "slot" else set()
            )
            high[tie] = 0 if one.moved and touched & lift.shut else 1
            lines[tie, n] = len(touched & lift.shut) if one.moved else 0
            for cam in touched & lift.shut if one.moved else ():
                lines[tie, len(options) + cams.index(cam)] = -1
    constraints = optimize.LinearConstraint(lines.tocsr(), low, high)

    def run() -> object:
        return optimize.milp(np.array(whole, dtype=float) / 1e6, constraints=constraints, integrality=np.ones(width),
                             bounds=optimize.Bounds(0, 1), options={"mip_rel_gap": 0})  # fmt: skip

    def value() -> int | None:
        found = run()
        return None if found.x is None else sum(w for w, x in zip(whole, found.x, strict=True) if x > 0.5)  # type: ignore[attr-defined]

    return value, run
