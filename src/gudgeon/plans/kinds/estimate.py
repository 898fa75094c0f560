"""What the job costs by today's plans, held against what was approved: a bill above the owner's word ends in a quarrel."""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon import units
from gudgeon.plans.shape import Given, Line, Plan, Planner
from gudgeon.problem import Refused, Said, said

KEY, NAME = "estimate", "estimate"
#: Work done outside, as operations; a new guide is fitted before the seat is cut.
OUTSIDE = ("fit_guide", "cut_seat", "skim_head", "skim_barrel", "rebore")

#: Jobs that are done on a word, without an estimate (common practice, no source).
SMALL = ("valves", "leak test")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sum:
    """One line of the bill."""

    name: str
    amount: float
    words: Said


def plan(given: Given, earlier: tuple[Plan, ...]) -> Plan:
    """Parts, work outside, hours; the sum against the ceiling."""
    sums = [_parts(earlier), _outside(given, earlier), _work(given)]
    total = sum(s.amount for s in sums)
    ceiling = _ceiling(given)
    lines = tuple(Line(where="", what=s.words, numbers=(("of", s.name), ("amount", round(s.amount, 2)))) for s in sums)
    currency = given.rules.currency
    end = Line(where="", what=said("total {total:.2f} {currency}", total=total, currency=currency),
               numbers=(("of", "total"), ("amount", round(total, 2)), ("approved", ceiling)))  # fmt: skip
    state, reasons = _against(given, total, ceiling)
    return Plan(key=KEY, name=NAME, state=state, lines=(*lines, end), reasons=(*reasons, *_unknown(given, earlier)))  # type: ignore[arg-type]


def _parts(earlier: tuple[Plan, ...]) -> _Sum:
    order = next((p for p in earlier if p.key == "order"), None)
    amount = sum((b.price or 0.0) * b.count for b in (order.buys if order else ()))
    return _Sum(name="parts", amount=amount, words=said("parts {amount:.2f}", amount=amount))


def outside_work(given: Given, earlier: tuple[Plan, ...]) -> dict[str, int]:
    """How often each operation is done outside: done already, or still on the machining order."""
    did = {(d.operation, d.where) for d in given.state.done if d.operation in OUTSIDE}
    for one in earlier:
        for cut in one.machines if one.key == "machining" else ():
            if cut.where in given.state.anatomy.valves:
                did |= {("cut_seat", cut.where)} | (
                    {("fit_guide", cut.where)} if "guide_bore" in cut.measures else set()
                )
            else:
                did.add(("skim_head" if cut.where in given.state.anatomy.heads else "skim_barrel", cut.where))
    return {operation: sum(1 for op, _w in did if op == operation) for operation in OUTSIDE}


def _outside(given: Given, earlier: tuple[Plan, ...]) -> _Sum:
    amount = 0.0
    for operation, times in outside_work(given, earlier).items():
        row = given.shelf.work(operation)
        amount += times * (row.price.value if row and row.price else 0.0)
    return _Sum(name="outside", amount=amount, words=said("work outside {amount:.2f}", amount=amount))


def _work(given: Given) -> _Sum:
    row = given.shelf.work(given.state.scope)
    hours = row.hours.value if row and row.hours else 0.0
    price = given.rules.hour_price.value
    amount = hours * price
    words = said("{hours:g} h × {price:.2f} = {amount:.2f}", hours=hours, price=price, amount=amount)
    return _Sum(name="hours", amount=amount, words=words)


def _ceiling(given: Given) -> float | None:
    """What the owner last allowed."""
    if not given.state.approvals:
        return None
    try:
        return units.read(given.state.approvals[-1][1].amount, "money").value
    except Refused:
        return None


def _against(given: Given, total: float, ceiling: float | None) -> tuple[str, tuple[Said, ...]]:
    if ceiling is None:
        state = "nothing to do" if given.state.scope in SMALL else "ready"
        return state, (said("not approved yet: {total:.2f}", total=total),)
    if total <= ceiling + 0.005:
        return "nothing to do", (said("{total:.2f} under the approved {ceiling:.2f}", total=total, ceiling=ceiling),)
    over = said("{total:.2f} is {more:.2f} over the approved {ceiling:.2f}", total=total, ceiling=ceiling,
                more=total - ceiling)  # fmt: skip
    share = given.rules.overrun.value
    if total <= ceiling * (1.0 + share / 100.0):
        return "ready", (over, said("within the {share:g} % that needs no new yes: tell the owner", share=share))
    return "waits", (over, said("it needs a new yes before going on"))


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


KIND = Planner(key=KEY, name=NAME, plan=plan, scopes=("valves", "leak test", "cylinder", "head out", "whole top end"))
