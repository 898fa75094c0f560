"""The base gasket sets squish and with it compression, valve-to-piston and cam timing: it is chosen, not just renewed."""

from __future__ import annotations

from gudgeon.anatomy import say
from gudgeon.book.parts import PartRow
from gudgeon.mechanics.volumes import squish_after_cylinder_milled_mm
from gudgeon.metrology.student import t_inverse
from gudgeon.plans.prices import price_of
from gudgeon.plans.shape import Buy, Given, Line, Plan, Planner
from gudgeon.problem import Said, said
from gudgeon.verdicts.shape import Verdict

KEY, NAME = "base_gasket", "base gasket"


def plan(given: Given, earlier: tuple[Plan, ...]) -> Plan:
    """For each cylinder the class that brings squish nearest the middle of its new range, guards kept."""
    known = [v for v in given.judged.of("squish") if v.value is not None]
    if not known:
        words = said(
            "squish is not measured yet: old gasket of the same thickness, solder, four spots over the pin line"
        )
        return Plan(key=KEY, name=NAME, state="waits", reasons=(words,))
    lines: list[Line] = []
    buys: list[Buy] = []
    reasons: list[Said] = []
    states = []
    for verdict in known:
        state, line, buy, why = _one(given, verdict)
        states.append(state)
        lines += [line] if line else []
        buys += [buy] if buy else []
        reasons += why
    worst = next((s for s in ("impossible", "waits", "ready") if s in states), "nothing to do")
    seqs = tuple(sorted({s for v in known for s in v.rests_on}))
    return Plan(key=KEY, name=NAME, state=worst, lines=tuple(lines), buys=tuple(buys), rests_on=seqs,  # type: ignore[arg-type]
                reasons=tuple(reasons))  # fmt: skip


def _one(given: Given, verdict: Verdict) -> tuple[str, Line | None, Buy | None, list[Said]]:
    slot = f"{verdict.place}/base gasket"
    where = say(verdict.place, single=given.state.anatomy.layout.cylinders == 1)
    touching = [v for v in _valves_of(given, verdict) if v.bad and v.fresh]
    if verdict.good and verdict.new_low is not None and verdict.verdict == "as new" and not touching:
        numbers = (("squish_mm", verdict.value), ("thickness_mm", _standing(given, slot)), ("moved", False))
        what = said("squish {squish:.2f} as new: the same thickness again", squish=verdict.value or 0.0)
        return "nothing to do", Line(where=verdict.place, what=what, numbers=numbers), None, [
            said("{where}: squish is as new", where=where)]  # fmt: skip
    now = _standing(given, slot)
    if now is None:
        words = said("{where}: read the notches of the gasket that was in: its thickness is not known", where=where)
        return "waits", None, None, [words]
    classes = [p for p in given.book.parts_in(slot) if p.thickness is not None]
    able = [(p, s) for p in classes if (s := _squish_with(given, verdict, p, now)) is not None]
    if not able:
        cure = said("{where}: no gasket of {n} keeps squish and valve-to-piston clear: measure deck and head again",
                    where=where, n=len(classes))  # fmt: skip
        return "impossible", None, None, [cure]
    middle = _aim(verdict)
    best, squish = min(able, key=lambda one: (abs(one[1] - middle), one[1]))
    return _chosen(given, verdict, best, squish, now)


def _chosen(
    given: Given, verdict: Verdict, best: PartRow, squish: float, now: float
) -> tuple[str, Line, Buy | None, list[Said]]:
    slot, thick = f"{verdict.place}/base gasket", best.thickness.value if best.thickness else now
    moved = abs(thick - now) > 5e-4
    numbers = (
        ("number", best.number),
        ("thickness_mm", thick),
        ("squish_mm", squish),
        ("present_squish_mm", verdict.value),
        ("moved", moved),
    )
    what = said("{name}: squish {squish:.2f}", name=best.name, squish=squish)
    line = Line(where=verdict.place, what=what, numbers=numbers, because=_moves(thick - now))
    if not moved:
        word = (
            "nothing to do"
            if verdict.good and not any(v.bad and v.fresh for v in _valves_of(given, verdict))
            else "impossible"
        )
        return word, line, None, [said("no other class comes nearer: squish {squish:.2f}", squish=squish)]
    buy = Buy(number=best.number, name=best.name, count=1, slots=(slot,), because=said("squish {squish:.2f}", squish=squish),
              price=price_of(given, best.number))  # fmt: skip
    return "ready", line, buy, [said("squish and valve-to-piston are read again with it")]


def _standing(given: Given, slot: str) -> float | None:
    """How thick the gasket is that squish was read with."""
    part = given.state.parts.get(given.state.slots.get(slot) or "")
    row = given.book.part(part.number) if part is not None and part.number else None
    if row is not None and row.thickness is not None:
        return row.thickness.value
    rows = given.book.parts_in(slot)
    return rows[0].thickness.value if len(rows) == 1 and rows[0].thickness is not None else None


def _squish_with(given: Given, verdict: Verdict, row: PartRow, now: float) -> float | None:
    """Squish with another class, if it and valve-to-piston (less by what it is thinner, at most) keep their guards."""
    assert row.thickness is not None
    assert verdict.value is not None
    thinner = now - row.thickness.value
    if verdict.value - thinner <= 0.0:
        return None
    squish = squish_after_cylinder_milled_mm(verdict.value, thinner)
    reach = t_inverse(1.0 - given.rules.risk)
    if verdict.low is not None and squish - reach * (verdict.u or 0.0) < verdict.low:
        return None
    lost = max(0.0, thinner)
    for other in _valves_of(given, verdict):
        if other.value is not None and other.low is not None:
            gain = max(0.0, -thinner) if other.bad else 0.0
            kept = other.value + gain - lost - reach * (other.u or 0.0) >= other.low
            if not kept:
                return None
    return squish


def _valves_of(given: Given, squish: Verdict) -> tuple[Verdict, ...]:
    """Valve to piston at every valve of this cylinder."""
    anatomy = given.state.anatomy
    return tuple(v for v in given.judged.of("valve_to_piston") if anatomy.cylinder(v.place) == squish.place)


def _aim(verdict: Verdict) -> float:
    if verdict.new_low is not None and verdict.new_high is not None:
        return 0.5 * (verdict.new_low + verdict.new_high)
    return (verdict.low or 0.0) + 0.15


def _moves(thicker_mm: float) -> tuple[Said, ...]:
    """What else moves with it."""
    if abs(thicker_mm) < 5e-4:
        return ()
    if thicker_mm > 0:
        return (
            said("thicker: compression falls, chain cams advance, so the intake's valve-to-piston is the one to check"),
        )
    return (
        said("thinner: compression rises, chain cams retard, so the exhaust loses valve-to-piston twice: check it"),
    )


KIND = Planner(key=KEY, name=NAME, plan=plan, scopes=("cylinder", "whole top end"))
