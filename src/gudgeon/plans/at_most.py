"""What a job may come to at most, before anything is apart: everything that its scope looks at worn, and all that cures it.

It is no forecast: it is the sum below which the bill stays, with what it leaves out said beside it.
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from gudgeon.plans.money import exact
from gudgeon.plans.needed import opened
from gudgeon.plans.prices import price_of
from gudgeon.plans.remedies import Remedy, remedies_of
from gudgeon.plans.shape import Given, Plan
from gudgeon.problem import Said, said
from gudgeon.routes.own import asks_for

#: Castings and cranks: told apart when they are found, never spread over every estimate (common practice, no source).
APART = ("head", "crankcase", "rod")
#: What taking apart opens: until one of these is touched, nobody has seen the parts.
INSIDE = ("holder", "head", "base", "keepers", "rings", "pin")


def before_strip_down(given: Given) -> bool:
    """Whether nothing of what the scope takes apart has been opened yet; a valves job is known when its lash is."""
    names = opened(given) & frozenset(INSIDE)
    if names:
        return not any(j.split(" ", 1)[-1] in INSIDE for j in given.state.touched_joints)
    lash = [v for v in given.judged.verdicts if v.key == "lash"]
    return given.state.scope == "valves" and any(v.verdict == "not measured" for v in lash)


def worst(given: Given) -> tuple[tuple[str, ...], dict[str, set[str]]]:
    """The slots that may get a new part, and the work outside by operation and place."""
    found = tuple(_remedies(given))
    slots = {r.slot for r in found if r.what == "renew" and given.state.anatomy.slots[r.slot].kind not in APART}
    work: dict[str, set[str]] = {}
    for remedy in found:
        if remedy.what == "machine":
            work.setdefault(remedy.words.replace(" ", "_"), set()).add(remedy.slot.split("/")[0])
    guides = {slot.split("/")[0] for slot in slots if slot.endswith("/guide")}
    if guides:
        work.setdefault("fit_guide", set()).update(guides)
        work.setdefault("cut_seat", set()).update(guides)
    if "lash" in asks_for(given.state.scope, given.state.anatomy):
        slots |= {s for s in given.state.anatomy.slots if s.endswith("/shim")}
    return tuple(s for s in given.state.anatomy.slots if s in slots), work


def _remedies(given: Given) -> Iterable[Remedy]:
    asked = set(asks_for(given.state.scope, given.state.anatomy))
    for verdict in given.judged.verdicts:
        if verdict.key in asked and verdict.row is not None and verdict.key != "lash":
            yield from remedies_of(verdict, given.state.anatomy)


def parts_at_most(given: Given, slots: Iterable[str], order: Plan | None) -> Decimal:
    """The dearest part for each of these slots that no list has yet, each piece once."""
    there = {slot for buy in (order.buys if order else ()) for slot in buy.slots}
    total, paid = Decimal(0), set[tuple[str, str]]()
    for slot in slots:
        rows = [row for row in given.book.parts_in(slot) if price_of(given, row.number) is not None]
        if slot in there or not rows:
            continue
        row = max(rows, key=lambda r: price_of(given, r.number) or 0.0)
        group = next((g for g in row.groups() if slot in g), (slot,))
        if (row.number, group[0]) not in paid:
            paid.add((row.number, group[0]))
            total += exact(price_of(given, row.number)) * row.count
    return total


def left_out(given: Given) -> Said:
    """What even the upper end does not hold."""
    there = {slot.kind for slot in given.state.anatomy.slots.values()}
    names = ", ".join(kind for kind in APART if kind in there)
    return said("not in it: {names}; what is found there is told first", names=names)
