"""The joint choice against trying everything, and against a general solver (HiGHS, by scipy)."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import product
from random import Random

import pytest

from gudgeon.plans.covering import Pack, supply_of
from gudgeon.plans.joint import Allowed, Best, Repair, Task, cheapest, excludes, needs, only


def pieces_cost(task: Task, wanted: Mapping[str, int]) -> int | None:
    """The least cost of pieces, by trying every number of every pack."""
    missing = {n: max(0, c - task.stock.get(n, 0)) for n, c in wanted.items()}
    most = [max((-(-missing.get(n, 0) // c) for n, c in p.holds), default=0) for p in task.packs]
    found = [
        sum(k * p.cost for k, p in zip(counts, task.packs, strict=True))
        for counts in product(*(range(m + 1) for m in most))
        if all(
            sum(k * dict(p.holds).get(n, 0) for k, p in zip(counts, task.packs, strict=True)) >= m
            for n, m in missing.items()
        )
    ]
    return min(found, default=None)


def tried(task: Task) -> int | None:
    """The least cost, by trying every set of repairs."""
    found: list[int] = []
    for row in product((False, True), repeat=len(task.repairs)):
        done = dict(zip((r.key for r in task.repairs), row, strict=True))
        if not all(tuple(done[k] for k in rule.repairs) in rule.rows for rule in task.rules):
            continue
        wanted: dict[str, int] = {}
        for repair in task.repairs:
            for number, count in repair.pieces if done[repair.key] else ():
                wanted[number] = wanted.get(number, 0) + count
        pieces = pieces_cost(task, wanted)
        if pieces is not None:
            found.append(pieces + sum(r.cost for r in task.repairs if done[r.key]))
    return min(found, default=None)


def draw(random: Random, repairs: int, rules: int, *, packs: bool = True) -> Task:
    numbers = ["P", "Q", "R"]
    made = tuple(
        Repair(key=f"r{n}", cost=random.randint(0, 30),
               pieces=((random.choice(numbers), random.randint(1, 2)),) if random.random() < 0.7 else ())
        for n in range(repairs)
    )  # fmt: skip
    table = []
    for _ in range(rules):
        scope = random.sample([r.key for r in made], min(repairs, random.randint(1, 3)))
        rows = [row for row in product((False, True), repeat=len(scope)) if random.random() < 0.5]
        table.append(Allowed(repairs=tuple(scope), rows=frozenset(rows or [(True,) * len(scope)])))
    singles = [Pack(number=n, cost=random.randint(5, 40), holds=((n, 1),)) for n in numbers if random.random() < 0.9]
    kits = [Pack(number=f"K{k}", cost=random.randint(20, 80), holds=tuple((n, random.randint(1, 2)) for n in random.sample(numbers, 2)))
            for k in range(random.randint(0, 2))]  # fmt: skip
    stock = {random.choice(numbers): random.randint(0, 2)}
    return Task(repairs=made, rules=tuple(table), packs=(*singles, *(kits if packs else ())), stock=stock)


def kept(task: Task, best: Best) -> bool:
    return all(tuple(k in best.chosen for k in rule.repairs) in rule.rows for rule in task.rules)


@pytest.mark.parametrize("seed", range(150))
def test_no_set_is_cheaper(seed: int) -> None:
    random = Random(seed)
    task = draw(random, random.randint(1, 7), random.randint(1, 6))
    best = cheapest(task)
    assert (None if best is None else best.cost) == tried(task)
    if best is not None:
        assert best.proven
        assert kept(task, best)
        own = sum(r.cost for r in task.repairs if r.key in best.chosen)
        paid = sum(p.cost * best.bought.get(p.number, 0) for p in task.packs)
        assert own + paid == best.cost


def by_milp(task: Task) -> float | None:
    """The same task as a mixed-integer program: one binary a repair and a row, one integer a pack."""
    numpy = pytest.importorskip("numpy")
    optimize = pytest.importorskip("scipy.optimize")
    repairs, packs = [r.key for r in task.repairs], task.packs
    width = len(repairs) + len(packs) + sum(len(rule.rows) for rule in task.rules)
    cost = numpy.zeros(width)
    cost[: len(repairs)] = [r.cost for r in task.repairs]
    cost[len(repairs) : len(repairs) + len(packs)] = [p.cost for p in packs]
    lines, low, high, at = [], [], [], len(repairs) + len(packs)
    for rule in task.rules:
        rows = sorted(rule.rows)
        one = numpy.zeros(width)
        one[at : at + len(rows)] = 1
        lines, low, high = [*lines, one], [*low, 1], [*high, 1]
        for i, key in enumerate(rule.repairs):
            tie = numpy.zeros(width)
            tie[repairs.index(key)] = 1
            for n, row in enumerate(rows):
                tie[at + n] -= row[i]
            lines, low, high = [*lines, tie], [*low, 0], [*high, 0]
        at += len(rows)
    for number in {n for r in task.repairs for n, _c in r.pieces}:
        tie = numpy.zeros(width)
        for i, repair in enumerate(task.repairs):
            tie[i] = -dict(repair.pieces).get(number, 0)
        for i, pack in enumerate(packs):
            tie[len(repairs) + i] = dict(pack.holds).get(number, 0)
        lines, low, high = [*lines, tie], [*low, -task.stock.get(number, 0)], [*high, numpy.inf]
    top = numpy.ones(width)
    top[len(repairs) : len(repairs) + len(packs)] = 99
    found = optimize.milp(cost, constraints=optimize.LinearConstraint(numpy.array(lines), low, high),
                          integrality=numpy.ones(width), bounds=optimize.Bounds(0, top), options={"mip_rel_gap": 0})  # fmt: skip
    return float(found.fun) if found.success else None


@pytest.mark.parametrize("seed", range(60))
def test_a_general_solver_finds_nothing_cheaper(seed: int) -> None:
    random = Random(seed + 1000)
    task = draw(random, random.randint(10, 24), random.randint(8, 22))
    best, other = cheapest(task), by_milp(task)
    if best is None or other is None:
        assert best is None
        assert other is None
    else:
        assert best.cost == pytest.approx(other)
        assert best.proven


def sixteen(random: Random) -> Task:
    """Sixteen valves: valve, guide, insert, cut, shim, spring; a head that answers all; three kits that overlap."""
    head = Repair(key="head", cost=random.randint(300, 700))
    repairs, rules = [head], []
    for v in range(16):
        side = "in" if v % 4 < 2 else "ex"
        repairs += [
            Repair(key=f"v{v}", cost=random.choice([0, 5]), pieces=((f"V{side}", 1),)),
            Repair(key=f"g{v}", cost=random.choice([20, 46]), pieces=(("G", 1),)),
            Repair(key=f"i{v}", cost=random.choice([0, 20]), pieces=((f"I{side}", 1),)),
            *(Repair(key=f"{key}{v}", cost=cost) for key, cost in (("c", 37), ("s", 6))),
            Repair(key=f"sp{v}", pieces=(("S", 1),)),
        ]
        rules += [needs(f"g{v}", f"c{v}"), needs(f"i{v}", f"c{v}"), needs(f"c{v}", f"s{v}"), needs(f"v{v}", f"s{v}")]
        some = [row for row in product((False, True), repeat=3) if any(row)]
        good = {row for row in some if random.random() < 0.75} | {(True, True, False)}
        rules.append(Allowed(repairs=(f"v{v}", f"g{v}", "head"), rows=frozenset(good)))
        rules += [Allowed(repairs=(f"c{v}", f"i{v}", "head"), rows=frozenset(some))] if random.random() < 0.5 else []
        rules += [only(f"sp{v}", True)] if random.random() < 0.4 else []
    alone = (("Vin", 24), ("Vex", 29), ("G", 11), ("S", 7), ("Iin", 18), ("Iex", 19))
    packs = [Pack(number=n, cost=c, holds=((n, 1),)) for n, c in alone]
    packs += [
        Pack(number="K1", cost=random.randint(25, 40), holds=(("Vin", 1), ("G", 1), ("S", 1))),
        Pack(number="K2", cost=random.randint(60, 100), holds=(("Vex", 2), ("G", 2), ("Iex", 1))),
        Pack(number="K3", cost=random.randint(15, 60), holds=(("S", 4), ("G", 2))),
    ]
    return Task(repairs=tuple(repairs), rules=tuple(rules), packs=tuple(packs), stock={"S": random.randint(0, 3)})


@pytest.mark.parametrize("seed", range(12))
def test_sixteen_valves_against_a_general_solver(seed: int) -> None:
    task = sixteen(Random(seed))
    best = cheapest(task)
    assert best is not None
    assert (best.proven, best.cost) == (True, pytest.approx(by_milp(task)))


def test_a_kit_beats_its_pieces_only_where_enough_of_them_are_needed() -> None:
    both = Allowed(repairs=("valve", "guide"), rows=frozenset({(True, False), (False, True)}))
    more = [Allowed(repairs=("spring",), rows=frozenset({(True,)}))]
    repairs = (
        Repair(key="valve", pieces=(("V", 1),)),
        Repair(key="guide", pieces=(("G", 1),)),
        Repair(key="spring", pieces=(("S", 1),)),
    )
    packs = (Pack(number="V", cost=50, holds=(("V", 1),)), Pack(number="G", cost=40, holds=(("G", 1),)),
             Pack(number="S", cost=30, holds=(("S", 1),)), Pack(number="K", cost=60, holds=(("V", 1), ("S", 1))))  # fmt: skip
    alone = cheapest(Task(repairs=repairs, rules=(both,), packs=packs, stock={}))
    assert alone is not None
    assert alone.chosen == {"guide"}
    together = cheapest(Task(repairs=repairs, rules=(both, *more), packs=packs, stock={}))
    assert together is not None
    assert (together.chosen, together.bought, together.cost) == ({"valve", "spring"}, {"K": 1}, 60)


def test_what_excludes_each_other_is_never_done_together() -> None:
    repairs = tuple(Repair(key=k, cost=c) for k, c in (("rebore", 5), ("barrel", 9), ("piston", 4)))
    rules = (Allowed(repairs=("rebore", "barrel"), rows=frozenset({(True, False), (False, True), (True, True)})),
             excludes("rebore", "barrel"), needs("rebore", "piston"))  # fmt: skip
    best = cheapest(Task(repairs=repairs, rules=rules, stock={}))
    assert best is not None
    assert (best.cost, len(best.chosen & {"rebore", "barrel"})) == (9, 1)
    assert cheapest(Task(repairs=repairs, rules=(*rules, only("rebore", True), only("barrel", True)), stock={})) is None


def test_what_lies_here_costs_nothing() -> None:
    task = Task(repairs=(Repair(key="v", pieces=(("V", 2),)),), rules=(only("v", True),), stock={"V": 1},
                packs=(Pack(number="V", cost=7, holds=(("V", 1),)),))  # fmt: skip
    best = cheapest(task)
    assert best is not None
    assert (best.cost, best.bought) == (7, {"V": 1})


@pytest.mark.parametrize("seed", range(40))
def test_no_demand_is_worth_more_than_it_costs(seed: int) -> None:
    random = Random(seed)
    task = draw(random, 3, 1)
    supply = supply_of(task.packs, {}, ("P", "Q", "R"))
    for demand in product(range(4), repeat=3):
        cost = supply.cost(demand)
        if cost is not None:
            assert all(sum(w * d for w, d in zip(worth, demand, strict=True)) <= cost for worth in supply.worths())
