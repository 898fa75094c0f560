"""What the job costs, held against what was approved: a bill above the owner's word ends in a quarrel.

Before anything is apart it is a range: what the scope costs at least, and at most if all it looks at is worn. After that
it is one sum, of what was found and decided.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from gudgeon import units
from gudgeon.job.entries import EstimateApproved
from gudgeon.plans.at_most import before_strip_down, left_out, parts_at_most, worst
from gudgeon.plans.money import cents, exact, of_quantity
from gudgeon.plans.shape import Given, Line, Plan, Planner, Standing
from gudgeon.problem import Refused, Said, said

KEY, NAME = "estimate", "estimate"
#: Work done outside, as operations; a new guide is fitted before the seat is cut.
OUTSIDE = ("fit_guide", "cut_seat", "skim_head", "skim_barrel", "rebore")

#: Jobs that are done on a word, without an estimate (common practice, no source).
SMALL = ("valves", "leak test")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sum:
    """One line of the bill: at least, and at most where nothing is apart yet."""

    name: str
    amount: Decimal
    most: Decimal
    words: Said


def plan(given: Given, earlier: tuple[Plan, ...]) -> Plan:
    """Parts, work outside, hours, tax; the sum, or its range, against the ceiling."""
    ranged = before_strip_down(given)
    slots, work = worst(given) if ranged else ((), {})
    sums = [_parts(given, earlier, slots), _outside(given, earlier, work), _work(given)]
    sums += _tax(given, sums)
    total, most = sum((s.amount for s in sums), Decimal(0)), sum((s.most for s in sums), Decimal(0))
    ceiling = _ceiling(given)
    state, reasons = _against(given, total, most, ceiling)
    more = (*_between(given, total, most), *_unknown(given, earlier), *_delivery(given, earlier))
    end = _Sum(name="total", amount=total, most=most,
               words=said("total {total:.2f} {currency}", total=float(total), currency=given.rules.currency))  # fmt: skip
    lines = tuple(_line(given, s, ceiling, ranged=ranged) for s in (*sums, end))
    return Plan(key=KEY, name=NAME, state=state, lines=lines, reasons=(*reasons, *more))


def _line(given: Given, one: _Sum, ceiling: Decimal | None, *, ranged: bool) -> Line:
    numbers: list[tuple[str, float | str | bool | None]] = [("of", one.name), ("amount", float(one.amount))]
    if ranged:
        numbers.append(("most", float(one.most)))
    if one.name == "total":
        numbers += [("approved", None if ceiling is None else float(ceiling)), ("firm", not ranged)]
    words = one.words
    if ranged and one.most > one.amount:
        words = said("{words}, at most {most:.2f}", words=str(one.words), most=float(one.most))
    return Line(where="", what=words, numbers=tuple(numbers))


def _parts(given: Given, earlier: tuple[Plan, ...], slots: tuple[str, ...]) -> _Sum:
    order = next((p for p in earlier if p.key == "order"), None)
    amount = cents(sum((exact(b.price) * b.count for b in (order.buys if order else ())), Decimal(0)))
    most = amount + cents(parts_at_most(given, slots, order))
    return _Sum(name="parts", amount=amount, most=most, words=said("parts {amount:.2f}", amount=float(amount)))


def outside_work(given: Given, earlier: tuple[Plan, ...]) -> dict[str, int]:
    """How often each operation is done outside: done already, or still on the machining order."""
    return {operation: len(places) for operation, places in _outside_places(given, earlier).items()}


def _outside_places(given: Given, earlier: tuple[Plan, ...]) -> dict[str, set[str]]:
    did = {(d.operation, d.where) for d in given.state.done if d.operation in OUTSIDE}
    for one in earlier:
        for cut in one.machines if one.key == "machining" else ():
            if cut.where in given.state.anatomy.valves:
                did |= {("cut_seat", cut.where)} | (
                    {("fit_guide", cut.where)} if "guide_bore" in cut.measures else set()
                )
            else:
                did.add(("skim_head" if cut.where in given.state.anatomy.heads else "skim_barrel", cut.where))
    return {operation: {where for op, where in did if op == operation} for operation in OUTSIDE}


def _outside(given: Given, earlier: tuple[Plan, ...], work: dict[str, set[str]]) -> _Sum:
    amount = most = Decimal(0)
    for operation, places in _outside_places(given, earlier).items():
        row = given.shelf.work(operation)
        price = of_quantity(row.price) if row and row.price else Decimal(0)
        amount += len(places) * price
        most += len(places | work.get(operation, set())) * price
    amount, most = cents(amount), cents(most)
    return _Sum(name="outside", amount=amount, most=most, words=said("work outside {amount:.2f}", amount=float(amount)))


def _work(given: Given) -> _Sum:
    row = given.shelf.work(given.state.scope)
    hours = of_quantity(row.hours) if row and row.hours else Decimal(0)
    price = of_quantity(given.rules.hour_price)
    amount = cents(hours * price)
    words = said(
        "{hours:g} h × {price:.2f} = {amount:.2f}", hours=float(hours), price=float(price), amount=float(amount)
    )
    return _Sum(name="hours", amount=amount, most=amount, words=words)


def _tax(given: Given, sums: list[_Sum]) -> list[_Sum]:
    """The tax on all of it, where the rules name a rate."""
    rate = given.rules.tax_rate
    if rate.number == 0:
        return []
    share = Decimal(rate.number) / 100
    net, most = sum((s.amount for s in sums), Decimal(0)), sum((s.most for s in sums), Decimal(0))
    amount = cents(net * share)
    words = said("{name} {rate:g} % of {net:.2f} = {amount:.2f}", name=given.rules.tax_name or "tax", rate=float(rate.number),
                 net=float(net), amount=float(amount))  # fmt: skip
    return [_Sum(name="tax", amount=amount, most=cents(most * share), words=words)]


def _ceiling(given: Given) -> Decimal | None:
    """What the owner last allowed; a word taken back is none."""
    if not given.state.approvals:
        return None
    try:
        return of_quantity(units.read(given.state.approvals[-1][1].amount, "money"))
    except Refused:
        return None


def _against(given: Given, total: Decimal, most: Decimal, ceiling: Decimal | None) -> tuple[Standing, tuple[Said, ...]]:
    if ceiling is None:
        small = given.state.scope in SMALL
        taken_back = _taken_back(given)
        words = said("not approved yet: {total:.2f}", total=float(total))
        return ("nothing to do" if small and not taken_back else "waits" if taken_back else "ready"), (
            *taken_back,
            words,
        )
    if total <= ceiling:
        if most > ceiling >= total:
            words = said("at least {total:.2f} under the approved {ceiling:.2f}, at most {most:.2f} over it", total=float(total),
                         ceiling=float(ceiling), most=float(most))  # fmt: skip
            return "nothing to do", (words,)
        return "nothing to do", (
            said("{total:.2f} under the approved {ceiling:.2f}", total=float(total), ceiling=float(ceiling)),
        )
    over = said("{total:.2f} is {more:.2f} over the approved {ceiling:.2f}", total=float(total), ceiling=float(ceiling),
                more=float(total - ceiling))  # fmt: skip
    share = given.rules.overrun
    if total <= ceiling * (1 + Decimal(share.number) / 100):
        return "ready", (over, said("within the {share:g} % that needs no new yes: tell the owner", share=share.value))
    return "waits", (over, said("it needs a new yes before going on"))


def _taken_back(given: Given) -> tuple[Said, ...]:
    """That an approval was retracted, where none stands: what was allowed once is not allowed any more."""
    facts = (e for e in given.state.entries if e.typed.id in given.state.retracted)
    last = next((e.seq for e in reversed(tuple(facts)) if isinstance(e.typed.body, EstimateApproved)), 0)
    return (
        (said("the approval of entry {n} was taken back: nothing goes on without a new one", n=last),) if last else ()
    )


def _between(given: Given, total: Decimal, most: Decimal) -> tuple[Said, ...]:
    if most <= total:
        return ()
    between = said("between {total:.2f} and {most:.2f}, until it is apart", total=float(total), most=float(most))
    return (between, left_out(given))


def _unknown(given: Given, earlier: tuple[Plan, ...]) -> tuple[Said, ...]:
    """What the sum leaves out, because nobody gave a price."""
    found = []
    for operation, times in outside_work(given, earlier).items():
        row = given.shelf.work(operation)
        if times and (row is None or row.price is None):
            found.append(
                said("no price for work outside: {what}, {n} times", what=operation.replace("_", " "), n=times)
            )
    hours = given.shelf.work(given.state.scope)
    if hours is None or hours.hours is None:
        found.append(said("no usual hours set for this scope: own work is not counted"))
    return tuple(found)


def _delivery(given: Given, earlier: tuple[Plan, ...]) -> tuple[Said, ...]:
    """The part that comes last: before it nothing is finished."""
    order = next((p for p in earlier if p.key == "order"), None)
    waits = {
        str(dict(x.numbers).get("number")) for x in (order.lines if order else ()) if dict(x.numbers).get("to_order")
    }
    days = [(d, row.name) for row in given.book.parts if row.number in waits and (d := delivery_days(row.delivery))]
    if not days:
        return ()
    longest, name = max(days)
    return (said("the last part comes after {days} days: {name}", days=longest, name=name),)


def delivery_days(text: str) -> int:
    """The days in "3 days", "2 weeks"; 0 where it says nothing that can be counted."""
    number, _, unit = text.strip().casefold().partition(" ")
    times = {"day": 1, "days": 1, "week": 7, "weeks": 7}.get(unit, 0)
    return int(number) * times if number.isdecimal() and len(number) < 4 else 0


KIND = Planner(key=KEY, name=NAME, plan=plan, scopes=("valves", "leak test", "cylinder", "head out", "whole top end"))
