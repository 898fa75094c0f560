"""The set of shims is the best there is: against a general solver on 200 draws, with and without paid cam lifts."""

from __future__ import annotations

from itertools import product
from random import Random

import pytest
from shim_model import _FAR, RULES, SIZES, draw, model, weight

from gudgeon.plans.lashes import Room
from gudgeon.plans.shim_items import Item, bought
from gudgeon.plans.shim_set import Choice, Lift, best_set, best_with_lifts, choice


def paid(seed: int, rooms: list[Room]) -> Lift:
    random = Random(seed)
    cams = {r.valve: "cam.in" if ".in" in r.valve else "cam.ex" for r in rooms}
    shut = frozenset(c for c in set(cams.values()) if random.random() < 0.8)
    return Lift(cam_of=cams, shut=shut, cam_cost=random.choice((100, 700, 4800)), shim_cost=650)


@pytest.mark.parametrize("block", range(8))
def test_the_same_optimum_as_a_general_solver(block: int) -> None:
    pytest.importorskip("scipy.optimize")
    for seed in range(block * 25, block * 25 + 25):
        rooms, items = draw(seed, count=4 + seed % 13, shelf=seed % 9)
        found = best_set(rooms, items, SIZES, RULES)
        assert model(rooms, items)[0]() == (None if found is None else sum(weight(c) for c in found)), seed


@pytest.mark.parametrize("block", range(4))
def test_the_same_optimum_with_cam_lifts_paid(block: int) -> None:
    pytest.importorskip("scipy.optimize")
    for seed in range(block * 15, block * 15 + 15):
        rooms, items = draw(seed, count=4 + seed % 13, shelf=seed % 9)
        if seed % 3 == 0:  # one side in setting: its cam need not come out
            rooms = [eased(r, items) if ".ex" in r.valve else r for r in rooms]
        lift = paid(seed, rooms)
        found = best_with_lifts(rooms, items, SIZES, RULES, lift)
        ours = (
            None if found is None else sum(weight(c, 650) for c in found[0]) + len(found[1]) * lift.cam_cost * _FAR * 17
        )
        assert model(rooms, items, lift)[0]() == ours, seed


def eased(room: Room, items: list[Item]) -> Room:
    """The same valve with a lash in the middle of its window."""
    own = next(i for i in items if i.valve == room.valve)
    assert room.room is not None
    return Room(valve=room.valve, window=room.window, room=room.room.shifted(own.size_mm + room.window.aim_mm - 0.005))


def worth(chosen: tuple[Choice, ...], lifted: int, lift: Lift) -> tuple[int, ...]:
    away = sum(round(abs(c.lash.value - c.room.window.aim_mm) / 1e-6) for c in chosen)
    money = sum(c.bought for c in chosen) * lift.shim_cost + lifted * lift.cam_cost
    return sum(not c.sure for c in chosen), money, away, sum(c.moved for c in chosen)


@pytest.mark.parametrize("seed", range(60))
def test_no_set_with_paid_lifts_is_better(seed: int) -> None:
    """Every set of three valves, by trying all of them."""
    rooms, items = draw(seed, count=3, shelf=2)
    rooms[2] = eased(rooms[2], items) if seed % 2 else rooms[2]
    lift = paid(seed, rooms)
    tried = []
    options = [
        [(n, c) for n, item in enumerate((*items, *(bought(s, r.valve) for s in SIZES))) if (c := choice(r, item, RULES))]
        for r in rooms
    ]  # fmt: skip
    for picked in product(*options):
        used = [n for n, _c in picked if n < len(items)]
        moved = [c for _n, c in picked if c.moved]
        out = {lift.cam_of[c.room.valve] for c in moved} | {
            lift.cam_of[c.item.valve] for c in moved if c.item.origin == "slot"
        }
        if len(set(used)) == len(used):
            tried.append(worth(tuple(c for _n, c in picked), len(out & lift.shut), lift))
    found = best_with_lifts(rooms, items, SIZES, RULES, lift)
    assert (None if found is None else worth(found[0], len(found[1]), lift)) == min(tried, default=None)
