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


Rule = tuple[tuple[int, ...], frozenset[Row]]
#: Groups of more repairs than this are split at the repair that most of their rules speak of, before anything is added up.
_SMALL = 8


def cheapest(task: Task) -> Best | None:
    """The cheapest set; nothing where the rules contradict each other or a piece is not to be had."""
    room = _Room(task)
    room.search([(tuple(room.index[k] for k in rule.repairs), rule.rows) for rule in task.rules], {})
    return room.end()


class _Room:
    """One task being worked out: `best` is the cheapest set so far, `left` the lowest bound of what was not looked into."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self.index = {repair.key: n for n, repair in enumerate(task.repairs)}
        asked = dict.fromkeys(n for r in task.repairs for n, _c in r.pieces)
        self.singly = {n: c for n in asked if (c := _single(task, n)) is not None}
        numbers = tuple(n for n in asked if n not in self.singly)
        self.supply: Supply = supply_of(task.packs, task.stock, numbers)
        self.nothing: Demand = (0,) * len(numbers)
        self.costs = [r.cost + sum(self.singly.get(n, 0) * c for n, c in r.pieces) for r in task.repairs]
        self.asks = [tuple(sum(c for n, c in r.pieces if n == number) for number in numbers) for r in task.repairs]
        self.worths = self.supply.worths()
        self.like: dict[object, Table] = {}
        self.best: tuple[int, Demand, frozenset[int]] | None = None
        self.left: int | None = None

    def search(self, rules: Sequence[Rule], fixed: dict[int, bool]) -> None:
        """Every way to settle what many rules speak of; then the small groups that remain, added up."""
        fixed = dict(fixed)
        rest = _follow(rules, fixed)
        if rest is None:
            return
        groups = _groups(rest)
        large = max(groups, key=_size, default=[])
        if _size(large) > _SMALL:
            at = _hub(large)
            for value in (False, True):
                self.search(rest, {**fixed, at: value})
            return
        tables = [self.table(group) for group in groups]
        if all(tables):
            self.together([self._settled(fixed), *tables])

    def _settled(self, fixed: Mapping[int, bool]) -> Table:
        done = frozenset(n for n, value in fixed.items() if value)
        return {self._demand(done): (sum(self.costs[n] for n in done), done)}

    def table(self, rules: list[Rule]) -> Table:
        """The least costs of one group; groups that look alike are worked out once."""
        order = list(dict.fromkeys(n for scope, _rows in rules for n in scope))
        place = {n: i for i, n in enumerate(order)}
        alike = (tuple((tuple(place[n] for n in scope), rows) for scope, rows in rules),
                 tuple((self.costs[n], self.asks[n]) for n in order))  # fmt: skip
        if alike not in self.like:
            found = _thin(self._branch(rules))
            self.like[alike] = {d: (c, frozenset(place[n] for n in picked)) for d, (c, picked) in found.items()}
        return {d: (c, frozenset(order[i] for i in picked)) for d, (c, picked) in self.like[alike].items()}

    def _branch(self, rules: list[Rule]) -> Table:
        at, found = _hub(rules), Table()
        for value in (False, True):
            fixed = {at: value}
            rest = _follow(rules, fixed)
            if rest is None:
                continue
            tables = [self._settled(fixed), *(self.table(group) for group in _groups(rest))]
            for demand, (cost, picked) in _summed(tables, self.nothing).items():
                if demand not in found or cost < found[demand][0]:
                    found[demand] = cost, picked
        return found

    def _demand(self, done: Iterable[int]) -> Demand:
        total = self.nothing
        for n in done:
            total = _plus(total, self.asks[n])
        return total

    def together(self, tables: Sequence[Table]) -> None:
        """The tables of the whole engine with what its pieces cost; what cannot beat the best known is left, its bound kept."""
        worth = max(self.worths, key=lambda w: sum(_least(table, w) for table in tables) - _dot(w, self.supply.stock))
        given = _dot(worth, self.supply.stock)
        rest = [_least(table, worth) for table in tables]
        self._keep(_easy(tables, worth, self.nothing))
        ahead = sum(rest) - given
        labels: Table = {self.nothing: (0, frozenset())}
        for table, least in zip(tables, rest, strict=True):
            ahead -= least
            following: Table = {}
            for one, (cost, picked) in labels.items():
                for other, (more, also) in table.items():
                    demand, total = _plus(one, other), cost + more
                    bound = total + _dot(worth, demand) + ahead
                    if self.best is not None and bound >= self.best[0]:
                        self.left = bound if self.left is None else min(bound, self.left)
                    elif demand not in following or total < following[demand][0]:
                        following[demand] = total, picked | also
            labels = following
        for demand, (cost, picked) in labels.items():
            self._keep((cost, demand, picked))

    def _keep(self, one: tuple[int, Demand, frozenset[int]]) -> None:
        """The better of this set and the best so far, pieces paid."""
        cost, demand, picked = one
        pieces = self.supply.cost(demand)
        if pieces is not None and (self.best is None or cost + pieces < self.best[0]):
            self.best = cost + pieces, demand, picked

    def end(self) -> Best | None:
        """The best set in its own words, with the bound of all that was not looked into."""
        if self.best is None:
            return None
        cost, demand, picked = self.best
        bought = self.supply.bought(demand)
        for n in sorted(picked):
            for number, count in self.task.repairs[n].pieces:
                if number in self.singly:
                    bought[number] = bought.get(number, 0) + count
        keys = frozenset(self.task.repairs[n].key for n in picked)
        return Best(chosen=keys, bought=bought, cost=cost, lower=cost if self.left is None else min(self.left, cost))


def _single(task: Task, number: str) -> int | None:
    """What a piece costs that is sold in one way only, by itself, and does not lie here: then it is no matter of sums."""
    packs = [p for p in task.packs if any(n == number for n, _c in p.holds)]
    if (
        len(packs) == 1
        and packs[0].holds == ((number, 1),)
        and packs[0].number == number
        and not task.stock.get(number)
    ):
        return packs[0].cost
    return None


def _size(rules: Sequence[Rule]) -> int:
    return len({n for scope, _rows in rules for n in scope})


def _hub(rules: Sequence[Rule]) -> int:
    """The repair that most rules speak of."""
    count: dict[int, int] = {}
    for scope, _rows in rules:
        for n in scope:
            count[n] = count.get(n, 0) + 1
    return max(count, key=lambda n: (count[n], -n))


def _least(table: Table, worth: Demand) -> int:
    return min([cost + _dot(worth, demand) for demand, (cost, _picked) in table.items()])


def _easy(tables: Sequence[Table], worth: Demand, nothing: Demand) -> tuple[int, Demand, frozenset[int]]:
    """One good set, to measure others by."""
    total, demand, picked = 0, nothing, frozenset[int]()
    for table in tables:
        best = min(table, key=lambda d: table[d][0] + _dot(worth, d))
        total, demand, picked = total + table[best][0], _plus(demand, best), picked | table[best][1]
    return total, demand, picked


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


def _thin(table: Table) -> Table:
    """Without what asks for as much or more and costs as much or more."""
    kept: Table = {}
    for demand in sorted(table, key=lambda d: (table[d][0], sum(d))):
        if not any(all(a <= b for a, b in zip(d, demand, strict=True)) for d in kept):
            kept[demand] = table[demand]
    return kept


def _plus(one: Demand, other: Demand) -> Demand:
    return tuple([a + b for a, b in zip(one, other, strict=True)])


def _dot(worth: Demand, demand: Demand) -> int:
    return sum([w * d for w, d in zip(worth, demand, strict=True)])
