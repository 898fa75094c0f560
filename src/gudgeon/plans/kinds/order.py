"""One order list for the whole engine, complete before assembly: the part that is forgotten stops the engine for a week.

It reads what the other plans use up, adds what always comes new, and looks at what was ordered, came and was fitted.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass

from gudgeon.job.state import JobState
from gudgeon.plans.needed import closed_again, needed
from gudgeon.plans.prices import price_of
from gudgeon.plans.shape import Buy, Given, Line, Plan, Planner
from gudgeon.plans.shortages import Shortage, first_stop, left_over, shortages, what_to_do
from gudgeon.problem import Said, said

KEY, NAME = "order", "order list"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """One line of the list: how many, where they stand, how many are still to be ordered."""

    buy: Buy
    status: str
    to_order: int


def plan(given: Given, earlier: tuple[Plan, ...]) -> Plan:
    """What to order now, what waits for a decision, what is on its way, here, or fitted."""
    wanted = needed(given, earlier)
    book = _Stock(given)
    rows = [book.row(buy) for buy in wanted]
    rows += [_Row(buy=b, status=status, to_order=0) for b, status in book.extras({r.buy.number for r in rows})]
    now = [r for r in rows if r.to_order and r.buy.sure]
    unsure = [r for r in rows if r.to_order and not r.buy.sure]
    waiting = [p for p in earlier if p.key in ("shims", "base_gasket") and p.state == "waits"]
    if not rows:
        words = said("this job uses up no part that the book knows")
        return Plan(key=KEY, name=NAME, state="nothing to do", reasons=(words,))
    total = sum((r.buy.price or 0.0) * r.buy.count for r in rows)
    reasons = (_headline(now, unsure, waiting), *(_waits(p) for p in waiting), *_unpriced(rows))
    on_the_way = any(r.status == "ordered" for r in rows)
    stops = shortages(given, earlier, [r.buy for r in rows if r.status in ("needed", "ordered")])
    state = "ready" if now else ("waits" if unsure or waiting or on_the_way else "nothing to do")
    sums = said("kinds of parts: {n}, {total:.2f} together", n=len(rows), total=total)
    reasons = (*reasons, *first_stop(stops), *left_over(given), sums)
    return Plan(key=KEY, name=NAME, state=state, buys=tuple(r.buy for r in rows), reasons=reasons,  # type: ignore[arg-type]
                lines=tuple(_line(given, r, stops) for r in rows))  # fmt: skip


def _headline(now: list[_Row], unsure: list[_Row], waiting: list[Plan]) -> Said:
    return said("order {now} now, {wait} wait", now=len(now), wait=len(unsure) + len(waiting))


def _waits(one: Plan) -> Said:
    why = str(one.reasons[0]) if one.reasons else one.state
    return said("{plan} not known yet: {why}", plan=one.name, why=why)


def _unpriced(rows: list[_Row]) -> tuple[Said, ...]:
    none = [r.buy.number or r.buy.name for r in rows if r.buy.price is None]
    return (said("no price for {names}", names=", ".join(none)),) if none else ()


class _Stock:
    """What was ordered, what came, what stands in the engine, what lies on the shelf; each piece is counted once."""

    def __init__(self, given: Given) -> None:
        self.given = given
        self.ordered = _counted(fact.lines for _seq, fact in given.state.orders if fact.kind == "parts")
        self.arrived = came(given)
        here = given.state.opened.number if given.state.opened else ""
        self.leftover = _counted((*({row.number: row.count} for row in given.shelf.leftovers if row.job != here or not here),
                                  _received(given, ("shelf",))))  # fmt: skip
        for _seq, fact in given.state.wrong:
            self.ordered[fact.number] = max(0, self.ordered.get(fact.number, 0) - fact.count)

    def row(self, buy: Buy) -> _Row:
        """A line with its status."""
        again = len(set(buy.slots)) < len(buy.slots)  # the new one was used up: one more for the same slot
        fitted = bool(buy.slots) and not again and all(self._is_new(slot) for slot in buy.slots)
        if buy.on_hand:
            self._take(self.ordered, buy)
            self._take(self.arrived, buy)
            return _Row(buy=buy, status="fitted" if fitted or self._under(buy) else "on the shelf", to_order=0)
        arrived, ordered = self._take(self.arrived, buy), self._take(self.ordered, buy)
        have = max(arrived, ordered)
        spare = self._take(self.leftover, buy, buy.count - have) if have < buy.count else 0
        left = buy.count - have - spare
        if fitted or closed_again(self.given, buy.number) or (arrived >= buy.count and self._used_up(buy)):
            return _Row(buy=buy, status="fitted", to_order=0)
        if left > 0:
            return _Row(buy=buy, status="needed", to_order=left)
        if arrived + spare >= buy.count:
            return _Row(buy=buy, status="arrived" if arrived else "on the shelf", to_order=0)
        return _Row(buy=buy, status="ordered", to_order=0)

    def extras(self, known: set[str]) -> list[tuple[Buy, str]]:
        """What was ordered beyond what any plan asks for."""
        found = []
        for number, count in self.ordered.items():
            row = self.given.book.part(number)
            if count <= 0 or number in known:
                continue
            came = self.arrived.get(number, 0) >= count
            fitted = any(
                p.received and p.number == number and self.given.state.slot_of(p.id)
                for p in self.given.state.parts.values()
            )
            buy = Buy(number=number, name=row.name if row else number, count=count, slots=(), because=said("ordered by hand"),
                      price=price_of(self.given, number))  # fmt: skip
            found.append((buy, "fitted" if fitted else ("arrived" if came else "ordered")))
        return found

    def _take(self, pool: dict[str, int], buy: Buy, most: int | None = None) -> int:
        """Take pieces out of a pool, so that no piece serves two lines."""
        got = min(pool.get(buy.number, 0), buy.count if most is None else most)
        if got:
            pool[buy.number] -= got
        return got

    def _is_new(self, slot: str) -> bool:
        part = self.given.state.slots.get(slot)
        return bool(part) and not str(part).startswith("orig:")

    def _under(self, buy: Buy) -> bool:
        """Whether it is a spacer that was fitted: it has no slot of its own."""
        places = {slot.split("/")[0] for slot in buy.slots if slot.endswith("/spring")}
        return bool(places) and all(self.given.state.did("fit_spacer", place) for place in places)

    def _used_up(self, buy: Buy) -> bool:
        """Whether fluids were filled: then what has no slot is in the engine."""
        return not buy.slots and bool(self.given.state.did("fill_fluids"))


def came(given: Given) -> dict[str, int]:
    """What came of the orders of this job and is good, by number."""
    found = _counted(_came(given.state))
    orders = {fact.order for _seq, fact in given.state.orders}
    for number, count in _received(given, orders).items():
        found[number] = max(found.get(number, 0), count)
    return found


def _came(state: JobState) -> Iterable[Mapping[str, int]]:
    """What came and is good, order by order: of an order no more than was ordered less what came wrong."""
    wrong: dict[str, dict[str, int]] = {}
    for _seq, fact in state.wrong:
        bad = wrong.setdefault(fact.order, {})
        bad[fact.number] = bad.get(fact.number, 0) + fact.count
    for order in dict.fromkeys(fact.order for _seq, fact in state.arrived):
        came = _counted(fact.lines for _seq, fact in state.arrived if fact.order == order)
        asked = _counted(fact.lines for _seq, fact in state.orders if fact.order == order)
        bad = wrong.get(order, {})
        yield {n: min(c, max(0, asked.get(n, 0) - bad[n])) if n in bad else c for n, c in came.items()}


def _counted(lines: Iterable[Mapping[str, int]]) -> dict[str, int]:
    found: dict[str, int] = {}
    for one in lines:
        for number, count in one.items():
            found[number] = found.get(number, 0) + count
    return found


def _received(given: Given, whence: Container[str]) -> dict[str, int]:
    """Parts in hand by number, of those that came on one of these orders; one piece may fill several slots."""
    orders = {e.typed.id: str(getattr(e.typed.body, "order", "")) for e in given.state.entries}
    counts: dict[str, int] = {}
    for part, row in given.state.parts.items():
        if row.received and row.number and orders.get(part, "") in whence:
            counts[row.number] = counts.get(row.number, 0) + 1
    return counts


def _line(given: Given, row: _Row, stops: tuple[Shortage, ...]) -> Line:
    buy, book = row.buy, given.book.part(row.buy.number)
    stop = next((s for s in stops if s.buy is buy), None)
    numbers = (
        ("number", buy.number),
        ("name", buy.name),
        ("count", float(buy.count)),
        ("status", row.status),
        ("to_order", float(row.to_order)),
        ("sure", buy.sure),
        ("price", buy.price),
        ("total", buy.price * buy.count if buy.price is not None else None),
        ("delivery", book.delivery if book else ""),
        ("look_alike", book.look_alike if book else ""),
        ("mark", book.mark if book else ""),
        ("stops", float(stop.step) if stop else None),
    )
    what = said(
        "{count} × {name} {number}: {status}", count=buy.count, name=buy.name, number=buy.number, status=row.status
    )
    alike = (
        (said("not {other}: {mark}", other=book.look_alike, mark=book.mark or "look twice"),)
        if book and book.look_alike
        else ()
    )
    because = (buy.because, *alike, *((stop.words,) if stop else ()), *what_to_do(given, buy.number))
    return Line(where=buy.slots[0] if buy.slots else "", what=what, numbers=numbers, because=because)


KIND = Planner(key=KEY, name=NAME, plan=plan, scopes=("valves", "leak test", "cylinder", "head out", "whole top end"))
