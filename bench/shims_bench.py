"""The set of shims of a sixteen-valve engine, against the same choice in a general solver, without and with paid cam lifts."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "tests" / "plans"))

from shim_model import RULES, SIZES, draw, model, weight
from timing import best

from gudgeon.plans.shim_set import Lift, best_set, best_with_lifts

Row = tuple[str, float, float | None]
SEEDS = range(12)


def rows() -> Iterator[Row]:
    """Ours over the general solver's, over a dozen sets; the solver's model is built beforehand and not counted."""
    plain, paid, general, general_paid = 0.0, 0.0, 0.0, 0.0
    for seed in SEEDS:
        rooms, items = draw(seed)
        value, run = model(rooms, items)
        found = best_set(rooms, items, SIZES, RULES)
        assert value() == (None if found is None else sum(weight(c) for c in found)), "another optimum"
        plain += best(lambda r=rooms, i=items: best_set(r, i, SIZES, RULES), 5)
        general += best(run, 5)
        cams = {r.valve: "cam.in" if ".in" in r.valve else "cam.ex" for r in rooms}
        lift = Lift(cam_of=cams, shut=frozenset(cams.values()), cam_cost=4800, shim_cost=650)
        paid += best(lambda r=rooms, i=items, p=lift: best_with_lifts(r, i, SIZES, RULES, p), 5)
        general_paid += best(model(rooms, items, lift)[1], 5)
    yield "shims of 16 valves: time over milp", plain / general, 0.2
    yield "shims of 16 valves, cam lifts paid: time over milp", paid / general_paid, 0.4
