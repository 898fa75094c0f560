"""Wear over hours says when to look again, before the next reading may lie at the limit; a reading is never overruled by it."""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon.characteristics.own import characteristics
from gudgeon.metrology.parallel import Parallel, parallel_lines
from gudgeon.plans.lives import Life, Visit, family, lives, visits
from gudgeon.plans.shape import Given, Line, Plan, Planner
from gudgeon.problem import Refused, Said, said
from gudgeon.routes.scopes import SCOPES
from gudgeon.verdicts.shape import Verdict

KEY, NAME = "interval", "next measurement"
#: How sure the next reading is to lie within its limit.
LEVEL = 0.90
#: Fewer readings say nothing of a rate.
LEAST = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """When something is measured again: its lives, the lines through them, and by whose wear."""

    verdict: Verdict
    at: float
    life: Life
    fit: Parallel | None
    known: tuple[Life, ...]
    of: str
    because: Said


def plan(given: Given, earlier: tuple[Plan, ...]) -> Plan:
    """What is measured again at which hours, the first due first."""
    seen, odd = visits(given)
    if not seen or len(seen) + len(family(given)) < 2:
        few = said("no earlier job of this engine is known: two more at other hours say how fast it wears")
        return Plan(key=KEY, name=NAME, state="nothing to do", reasons=(*odd, *((few,) if seen else ())))
    due = dues(given)
    if not due:
        few = said("fewer than {n} readings of a part at different hours: too little to say how fast it wears", n=LEAST)
        return Plan(key=KEY, name=NAME, state="nothing to do", reasons=(*odd, few))
    first = due[0]
    head = said("measure again by {at:g} h: {name}", at=_round(first.at), name=first.verdict.name)
    seqs = tuple(sorted({s for d in due for s in d.verdict.rests_on}))
    return Plan(key=KEY, name=NAME, state="nothing to do", lines=tuple(_line(d) for d in due), rests_on=seqs,
                reasons=(head, *odd))  # fmt: skip


def dues(given: Given) -> tuple[Due, ...]:
    """Everything that wears and has a limit, where enough is known, the first due first."""
    seen, _odd = visits(given)
    others, every = family(given), characteristics(given.state.anatomy)
    worn = [v for v in given.judged.verdicts if every[v.key].rule == "wear" and v.row is not None and _limited(v)]
    found = [due for v in worn if (due := _due(v, worn, seen, others))]
    return tuple(sorted(found, key=lambda due: (due.at, due.verdict.address)))


def _limited(v: Verdict) -> bool:
    return v.low is not None or v.high is not None


def _due(v: Verdict, worn: list[Verdict], seen: tuple[Visit, ...], others: tuple[tuple[Visit, ...], ...]) -> Due | None:
    """By the wear of this engine where it has shown some; else by that of its family."""
    mine = lives(seen, v.address)
    now = mine[-1] if mine else ()
    if not now:
        return None
    if v.bad:
        words = said("past its limit as read: hours say nothing against a reading")
        return Due(verdict=v, at=now[-1].hours, life=now, fit=None, known=(now,), of="reading", because=words)
    alike = [o.address for o in worn if o.row is v.row and o.address != v.address]
    own = [now, *mine[:-1], *(life for address in alike for life in lives(seen, address))]
    theirs = [life for engine in others for a in (v.address, *alike) for life in lives(engine, a)]
    for known, of in ((own, "engine"), (own + theirs, "family")):
        fit = _fit([life for life in known if life])
        if fit is not None:
            return _by(v, now, fit, [life for life in known if life], of)
    return None


def _fit(known: list[Life]) -> Parallel | None:
    if sum(len(life) for life in known) < LEAST:
        return None
    least = max(read.u for life in known for read in life)
    try:
        return parallel_lines([([r.hours for r in life], [r.value for r in life]) for life in known], least)
    except Refused:
        return None


def _by(v: Verdict, now: Life, fit: Parallel, known: list[Life], of: str) -> Due:
    """The first of: the next reading may lie at a limit; as far ahead as was looked back (common practice, no source)."""
    last, back = now[-1].hours, max(life[-1].hours - life[0].hours for life in known)
    walls = [(v.high, True), (v.low, False)]
    reached = [
        at
        for limit, above in walls
        if limit is not None and (at := fit.may_reach(0, limit, LEVEL, above=above)) is not None
    ]
    soonest = max(last, min(reached)) if reached else None
    if soonest is None or soonest > last + back:
        words = said("no further ahead than was looked back, {back:g} h", back=back)
        return Due(verdict=v, at=last + back, life=now, fit=fit, known=tuple(known), of=of, because=words)
    words = said("from then on the next reading may lie past its limit (1 in 20)")
    return Due(verdict=v, at=soonest, life=now, fit=fit, known=tuple(known), of=of, because=words)


def _line(due: Due) -> Line:
    v, fit = due.verdict, due.fit
    numbers: tuple[tuple[str, float | str | bool | None], ...] = (("due_h", due.at), ("by", due.of), ("key", v.key))
    if fit is None:
        return Line(where=v.place, what=said("{name}: now", name=v.name), numbers=numbers, because=(due.because,))
    read, parts = sum(n for n, _, _ in fit.means), len(fit.means)
    numbers += (("rate_per_100_h", 100.0 * fit.slope), ("u_rate_per_100_h", 100.0 * fit.u_slope), ("readings", read),
                ("lives", parts), ("scatter", fit.s), ("limit_low", v.low), ("limit_high", v.high))  # fmt: skip
    what = said("{name}: by {at:g} h, {rate} {unit} in 100 h", name=v.name, at=_round(due.at),
                rate=f"{100.0 * fit.slope:+.{v.places + 1}f}", unit=v.unit)  # fmt: skip
    whose = said("{n} readings of {parts} parts of its family", n=read, parts=parts) if due.of == "family" else said(
        "{n} readings of {parts} parts of this engine", n=read, parts=parts)  # fmt: skip
    return Line(where=v.place, what=what, numbers=numbers, because=(whose, due.because))


def _round(hours: float) -> float:
    """Hours as a person keeps them: down to the full hour."""
    return float(int(hours))


KIND = Planner(key=KEY, name=NAME, plan=plan, scopes=tuple(SCOPES))
