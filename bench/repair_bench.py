"""Repairs of a four-cylinder, sixteen-valve engine with every fit failing, against the same model in a general solver."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np
from four_fails import ANATOMY, BOOK, SHELF, entries
from scipy import optimize, sparse
from timing import best

from gudgeon.job.replay import replay
from gudgeon.plans.joint import Task, cheapest
from gudgeon.plans.repair_task import Weight, wanted
from gudgeon.plans.run import plan_all
from gudgeon.plans.shape import Given
from gudgeon.verdicts.evaluate import evaluate
from gudgeon.workbench.build import gasket_numbers

Row = tuple[str, float, float | None]


def model(task: Task, money: int) -> Callable[[], float]:
    """The same task as a mixed-integer program in cents, ready to be solved: its building is not counted."""
    place = {r.key: n for n, r in enumerate(task.repairs)}
    first_pack, first_row = len(place), len(place) + len(task.packs)
    width = first_row + sum(len(rule.rows) for rule in task.rules)
    cost = np.zeros(width)
    cost[:first_row] = [x.cost // money for x in (*task.repairs, *task.packs)]
    lines: list[dict[int, int]] = []
    low: list[float] = []
    high: list[float] = []

    def bound(line: dict[int, int], least: float, most: float) -> None:
        lines.append(line)
        low.append(least)
        high.append(most)

    at = first_row
    for rule in task.rules:
        rows = sorted(rule.rows)
        bound({at + n: 1 for n in range(len(rows))}, 1, 1)
        for i, key in enumerate(rule.repairs):
            bound({place[key]: 1, **{at + n: -1 for n, row in enumerate(rows) if row[i]}}, 0, 0)
        at += len(rows)
    for number in dict.fromkeys(n for r in task.repairs for n, _c in r.pieces):
        asks = {place[r.key]: -dict(r.pieces).get(number, 0) for r in task.repairs}
        holds = {first_pack + n: dict(p.holds).get(number, 0) for n, p in enumerate(task.packs)}
        bound({k: v for k, v in {**asks, **holds}.items() if v}, -task.stock.get(number, 0), np.inf)
    matrix = sparse.lil_array((len(lines), width))
    for n, line in enumerate(lines):
        for column, value in line.items():
            matrix[n, column] = value
    top = np.ones(width)
    top[first_pack:first_row] = 99
    constraints = optimize.LinearConstraint(matrix.tocsr(), low, high)
    bounds, whole = optimize.Bounds(0, top), np.ones(width)
    return lambda: (
        optimize.milp(cost, constraints=constraints, integrality=whole, bounds=bounds, options={"mip_rel_gap": 0}).fun
    )


def given() -> Given:
    """The job, replayed, not asked anything yet."""
    return Given(
        state=replay(entries(), ANATOMY, numbers=gasket_numbers(BOOK)), book=BOOK, shelf=SHELF, rules=SHELF.rules
    )


def rows() -> Iterator[Row]:
    """The optimum's lower bound over its cost, its time over the general solver's, and replanning over replay and evaluate."""
    asked = wanted(given())
    task, money = asked.task(), Weight(cents=1).ranked(cuts_first=False)
    found, general = cheapest(task), model(task, money)
    assert found is not None
    assert round(general()) == found.cost // money, "the general solver finds another optimum"
    yield (
        f"repairs: cost over its lower bound, {len(task.repairs)} repairs, {len(task.rules)} rules",
        found.cost / found.lower,
        1.0,
    )
    yield "repairs: time over the same model in milp", best(lambda: cheapest(task), 9) / best(general, 9), 1.0
    landed, numbers = entries(), gasket_numbers(BOOK)
    before = best(lambda: evaluate(replay(landed, ANATOMY, numbers=numbers), BOOK, SHELF.rules, SHELF), 9)
    yield "replanned after one entry over replay and evaluate", best(lambda: plan_all(given()), 9) / before, 3.0
