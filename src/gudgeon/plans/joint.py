"""The cheapest set of repairs that leaves no rule broken, chosen for the whole engine at once and proven to be the cheapest.

Rules are tables: which of a few repairs may be done together. What shares no rule is worked out by itself, what shares
rules is split at the repair that most of them speak of; each piece becomes a short table from the parts it asks for to its
least cost, so that a kit which serves several places is weighed at the very end, and exactly.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from gudgeon.plans.covering import Demand, Pack, Supply, supply_of

Row = tuple[bool, ...]
#: From what is asked for to the least cost of asking for it, and the repairs that do.
Table = dict[Demand, tuple[int, frozenset[int]]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair:
    """One thing that may be done: what it costs by itself, and the pieces it uses up."""

    key: str
    cost: int = 0
    pieces: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowed:
    """Which of a few repairs may be done together: every row that is not listed is ruled out."""

    repairs: tuple[str, ...]
    rows: frozenset[Row]


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """Everything that is chosen together."""

    repairs: tuple[Repair, ...]
    rules: tuple[Allowed, ...]
    packs: tuple[Pack, ...] = ()
    stock: Mapping[str, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Best:
    """The cheapest set, what is bought for it, and the proof: no set can cost less than `lower`, and this one costs that."""

    chosen: frozenset[str]
    bought: Mapping[str, int]
    cost: int
    lower: int

    @property
    def proven(self) -> bool:
        """Whether nothing cheaper exists."""
        return self.lower == self.cost


def needs(repair: str, other: str) -> Allowed:
    """The first is never done without the second."""
    return Allowed(repairs=(repair, other), rows=frozenset({(False, False), (False, True), (True, True)}))


def excludes(repair: str, other: str) -> Allowed:
    """Never both."""
    return Allowed(repairs=(repair, other), rows=frozenset({(False, False), (False, True), (True, False)}))


def only(repair: str, done: bool) -> Allowed:
    """Settled already."""
    return Allowed(repairs=(repair,), rows=frozenset({(done,)}))


def cheapest(task: Task) -> Best | None:
    """The cheapest set; nothing where the rules contradict each other or a piece is not to be had."""
    room = _Room(task)
    rules = [(tuple(room.index[k] for k in rule.repairs), rule.rows) for rule in task.rules]
    parts = room.split(rules, {})
    return None if parts is None else room.together(parts)


Rule = tuple[tuple[int, ...], frozenset[Row]]


class _Room:
    """One task being worked out."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self.index = {repair.key: n for n, repair in enumerate(task.repairs)}
        self.numbers = tuple(dict.fromkeys(n for r in task.repairs for n, _c in r.pieces))
        self.supply: Supply = supply_of(task.packs, task.stock, self.numbers)
        place = {n: i for i, n in enumerate(self.numbers)}
        self.asks: list[Demand] = []
        for repair in task.repairs:
            demand = [0] * len(self.numbers)
            for number, count in repair.pieces:
                demand[place[number]] += count
            self.asks.append(tuple(demand))
        self.nothing: Demand = (0,) * len(self.numbers)
        self.like: dict[object, Table] = {}

    def split(self, rules: Sequence[Rule], fixed: dict[int, bool]) -> list[Table] | None:
        """What follows from what is fixed, and a table for each group of rules that shares no repair with another."""
        left = _follow(rules, fixed)
        if left is None:
            return None
        done = frozenset(n for n, value in fixed.items() if value)
        tables: list[Table] = [{self._demand(done): (self._cost(done), done)}] if done else []
        for group in _groups(left):
            table = self.table(group)
            if not table:
                return None
            tables.append(table)
        return tables

    def table(self, rules: list[Rule]) -> Table:
        """The least costs of one group; groups that look alike are worked out once."""
        order = list(dict.fromkeys(n for scope, _rows in rules for n in scope))
        place = {n: i for i, n in enumerate(order)}
        alike = (tuple((tuple(place[n] for n in scope), rows) for scope, rows in rules),
                 tuple((self.task.repairs[n].cost, self.asks[n]) for n in order))  # fmt: skip
        if alike not in self.like:
            found = self._branch(rules, order)
            self.like[alike] = {d: (c, frozenset(place[n] for n in picked)) for d, (c, picked) in found.items()}
        return {d: (c, frozenset(order[i] for i in picked)) for d, (c, picked) in self.like[alike].items()}

    def _branch(self, rules: list[Rule], order: list[int]) -> Table:
        count = dict.fromkeys(order, 0)
        for scope, _rows in rules:
            for n in scope:
                count[n] += 1
        at = max(order, key=lambda n: count[n])
        found: Table = {}
        for value in (False, True):
            tables = self.split(rules, {at: value})
            for demand, (cost, picked) in (_summed(tables, self.nothing) if tables is not None else {}).items():
                if demand not in found or cost < found[demand][0]:
                    found[demand] = cost, picked
        return found

    def _cost(self, done: Iterable[int]) -> int:
        return sum(self.task.repairs[n].cost for n in done)

    def _demand(self, done: Iterable[int]) -> Demand:
        total = self.nothing
        for n in done:
            total = _plus(total, self.asks[n])
        return total

    def together(self, tables: Sequence[Table]) -> Best | None:
        """The tables of the whole engine with what its pieces cost; what cannot beat the best known is left, its bound kept."""
        worth = self.supply.worth()
        given = sum(w * s for w, s in zip(worth, self.supply.stock, strict=True))
        kept = [_thin(table, worth) for table in tables]
        rest = [min(c + _dot(worth, d) for d, (c, _p) in table.items()) for table in kept]
        most = self._easy(kept, worth)
        lower, ahead = most, sum(rest)
        labels: Table = {self.nothing: (0, frozenset())}
        for table, least in zip(kept, rest, strict=True):
            ahead -= least
            following: Table = {}
            for one, (cost, picked) in labels.items():
                for other, (more, also) in table.items():
                    demand, total = _plus(one, other), cost + more
                    bound = total + _dot(worth, demand) - given + ahead
                    if most is not None and bound > most:
                        lower = min(bound, lower if lower is not None else bound)
                    elif demand not in following or total < following[demand][0]:
                        following[demand] = total, picked | also
            labels = following
        return self._end(labels, lower)

    def _easy(self, tables: Sequence[Table], worth: Demand) -> int | None:
        """The cost of one good set, to measure others by."""
        total, demand = 0, self.nothing
        for table in tables:
            best = min(table, key=lambda d: table[d][0] + _dot(worth, d))
            total, demand = total + table[best][0], _plus(demand, best)
        pieces = self.supply.cost(demand)
        return None if pieces is None else total + pieces

    def _end(self, labels: Table, lower: int | None) -> Best | None:
        found: tuple[int, Demand, frozenset[int]] | None = None
        for demand, (cost, picked) in labels.items():
            pieces = self.supply.cost(demand)
            if pieces is not None and (found is None or cost + pieces < found[0]):
                found = cost + pieces, demand, picked
        if found is None:
            return None
        total, demand, picked = found
        keys = frozenset(self.task.repairs[n].key for n in picked)
        return Best(chosen=keys, bought=self.supply.bought(demand), cost=total,
                    lower=total if lower is None else min(lower, total))  # fmt: skip


def _follow(rules: Sequence[Rule], fixed: dict[int, bool]) -> list[Rule] | None:
    """Rules without what is fixed; `fixed` grows by what they leave no choice in; nothing where one cannot be kept."""
    waiting = list(rules)
    grown = True
    while grown:
        grown = False
        left: list[Rule] = []
        for scope, rows in waiting:
            if any(n in fixed for n in scope):
                keep = [i for i, n in enumerate(scope) if n not in fixed]
                rows = frozenset(tuple(row[i] for i in keep) for row in rows
                                 if all(row[i] == fixed[n] for i, n in enumerate(scope) if n in fixed))  # fmt: skip
                scope = tuple(scope[i] for i in keep)
            if not rows:
                return None
            for i, n in enumerate(scope):
                values = {row[i] for row in rows}
                if len(values) == 1:
                    fixed[n] = values.pop()
                    grown = True
            if scope and len(rows) < 1 << len(scope):
                left.append((scope, rows))
        waiting = left
    return waiting


def _groups(rules: Sequence[Rule]) -> list[list[Rule]]:
    """Rules that share repairs, together."""
    root: dict[int, int] = {}

    def top(n: int) -> int:
        while root.setdefault(n, n) != n:
            root[n] = root[root[n]]
            n = root[n]
        return n

    for scope, _rows in rules:
        for n in scope[1:]:
            root[top(n)] = top(scope[0])
    found: dict[int, list[Rule]] = {}
    for rule in rules:
        found.setdefault(top(rule[0][0]), []).append(rule)
    return list(found.values())


def _summed(tables: Sequence[Table], nothing: Demand) -> Table:
    """Every way to take one of each table."""
    labels: Table = {nothing: (0, frozenset())}
    for table in tables:
        following: Table = {}
        for one, (cost, picked) in labels.items():
            for other, (more, also) in table.items():
                demand, total = _plus(one, other), cost + more
                if demand not in following or total < following[demand][0]:
                    following[demand] = total, picked | also
        labels = following
    return labels


def _thin(table: Table, worth: Demand) -> Table:
    """Without what asks for as much or more and costs as much or more."""
    kept: Table = {}
    for demand in sorted(table, key=lambda d: (table[d][0] + _dot(worth, d), sum(d))):
        cost = table[demand][0]
        if not any(c <= cost and all(a <= b for a, b in zip(d, demand, strict=True)) for d, (c, _p) in kept.items()):
            kept[demand] = table[demand]
    return kept


def _plus(one: Demand, other: Demand) -> Demand:
    return tuple(a + b for a, b in zip(one, other, strict=True))


def _dot(worth: Demand, demand: Demand) -> int:
    return sum(w * d for w, d in zip(worth, demand, strict=True))
