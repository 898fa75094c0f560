"""What comes next with hand on the engine: the order of work, so that nothing is bolted down before what it hides was seen.

Each step is done, next or later by what the joints of the ledger say; the caution stands at the step, torque and wrench too.
"""

from __future__ import annotations

from gudgeon.anatomy import say
from gudgeon.book.fasteners import FastenerRow
from gudgeon.operations.own import operations
from gudgeon.plans.fasteners import loosening_of, order_of
from gudgeon.plans.shape import Given, Line, Plan, Planner
from gudgeon.plans.walk import Met, walk
from gudgeon.problem import Said, caution, said
from gudgeon.routes.holds import HOLDS

KEY, NAME = "route", "route"

Numbers = tuple[tuple[str, float | str | bool | None], ...]


def plan(given: Given, earlier: tuple[Plan, ...]) -> Plan:
    """Every step and hold, and which is next."""
    met = walk(given, earlier)
    first = next((n for n, one in enumerate(met) if not one.done), len(met))
    lines = tuple(_line(given, one, n, "done" if one.done else ("next" if n == first else "later"))
                  for n, one in enumerate(met))  # fmt: skip
    if first == len(met):
        return Plan(key=KEY, name=NAME, state="nothing to do", lines=lines, reasons=(said("every step is done"),))
    left = sum(not one.done for one in met)
    words = said("next: {what}; {left} of {n} steps and holds left", what=str(lines[first].what), left=left, n=len(met))
    return Plan(key=KEY, name=NAME, state="waits", lines=lines, reasons=(words,))


def _line(given: Given, one: Met, n: int, state: str) -> Line:
    head: Numbers = (("step", float(n + 1)), ("state", state))
    if one.hold is not None:
        status = one.hold
        numbers: Numbers = (*head, ("hold", status.hold.key), ("hold_state", status.state))
        what = said(
            "{key} {name}" if status.hold.key in HOLDS else "{name}", key=status.hold.key, name=status.hold.name
        )
        hides = said("going on would hide: {hides}", hides=status.hold.hides)
        return Line(where="", what=what, numbers=numbers, because=(hides,) if state != "done" else ())
    if one.plan is not None:
        what = said("{plan}, as planned: {state}", plan=one.plan.name, state=one.plan.state)
        why = one.plan.reasons[:1] if state != "done" else ()
        return Line(where="", what=what, numbers=(*head, ("plan", one.plan.key)), because=why)
    return _step(given, one, head, state)


def _step(given: Given, one: Met, head: Numbers, state: str) -> Line:
    assert one.step is not None
    kind = operations(given.state.anatomy)[one.step.operation]
    where = say(one.place, single=given.state.anatomy.layout.cylinders == 1)
    rows = given.book.fasteners_at(one.place, one.step.joint) if one.step.joint else ()
    build = one.step.phase == "build"
    tight = "; ".join(_tight(row) for row in rows if build)
    loose = "; ".join(_loose(row) for row in rows if not build and len(loosening_of(row)) > 1)
    numbers: Numbers = (
        *head,
        ("phase", one.step.phase),
        ("operation", kind.key),
        ("place", one.place),
        ("joint", f"{one.place} {one.step.joint}" if one.step.joint else ""),
        ("tightening", tight),
        ("loosening", loose),
        ("wrench", ", ".join(dict.fromkeys(w for row in rows if build for w in _wrenches(given, row)))),
    )
    words = " ".join(x for x in (kind.name, f"({where})" if where != "engine" else "") if x)
    detail = tight or loose
    what = said("{words}: {detail}", words=words, detail=detail) if detail else said("{words}", words=words)
    return Line(
        where=one.place, what=what, numbers=numbers, because=_because(given, one, rows) if state != "done" else ()
    )


def _because(given: Given, one: Met, rows: tuple[FastenerRow, ...]) -> tuple[Said, ...]:
    """Cautions first, then what the fasteners ask for."""
    assert one.step is not None
    kind = operations(given.state.anatomy)[one.step.operation]
    found = [said("{words}", words=caution(kind.caution))] if kind.caution else []
    found += [said("{words}", words=c.words) for c in given.book.cautions if c.at == kind.key]
    for row in rows if one.step.phase == "build" else ():
        found += _fastener(given, row)
    return tuple(found)


def _fastener(given: Given, row: FastenerRow) -> list[Said]:
    found = []
    for nm in row.stages_nm:
        if given.shelf.wrench_for(nm) is None:
            found.append(said("no wrench on the shelf is proved at {nm:g} N·m for {name}", nm=nm, name=row.name))
    if row.renew in ("always", "once"):
        found.append(said("{name}: used once, renew", name=row.name))
    if row.renew == "by length":
        found.append(said("{name}: measure their length before using them again", name=row.name))
    if row.locker:
        cure = row.cure.text if row.cure else "as it says"
        found.append(
            said(
                "{name}: locker {locker} on degreased threads, cure {cure}", name=row.name, locker=row.locker, cure=cure
            )
        )
    if row.note:
        found.append(said("{name}: {note}", name=row.name, note=row.note))
    return found


def _tight(row: FastenerRow) -> str:
    """How a kind of fastener is drawn up: stages, angle, state of its thread, order."""
    stages = " – ".join(f"{nm:g}" for nm in row.stages_nm)
    angle = f"+ {row.angle.text}" if row.angle else ""
    pieces = [f"{stages} N·m" if stages else "", angle, f"thread {row.thread_state}" if row.thread_state else ""]
    pieces.append(f"under the head {row.under_head}" if row.under_head not in ("", row.thread_state) else "")
    order = order_of(row)
    pieces.append(f"order {'-'.join(str(n) for n in order)}" if len(order) > 1 else "")
    return ", ".join(p for p in (f"{row.name} × {row.count}", *pieces) if p)


def _loose(row: FastenerRow) -> str:
    """How they are undone: backwards, each a quarter turn first, so that nothing is bent by the last one."""
    order = "-".join(str(n) for n in loosening_of(row))
    return f"{row.name} in the order {order}, a quarter turn each on the first round"


def _wrenches(given: Given, row: FastenerRow) -> list[str]:
    """The wrench for each stage: the one that holds 62 N·m is not true at 10."""
    found = [(wrench.id if (wrench := given.shelf.wrench_for(nm)) else "none") for nm in row.stages_nm]
    return list(dict.fromkeys(found))


KIND = Planner(key=KEY, name=NAME, plan=plan, scopes=("valves", "leak test", "cylinder", "head out", "whole top end"))
