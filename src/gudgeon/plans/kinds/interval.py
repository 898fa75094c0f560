"""Wear over hours says when to look again, before the next reading may lie at the limit; a reading is never overruled by it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from gudgeon.characteristics.own import characteristics
from gudgeon.metrology.parallel import Parallel, parallel_lines
from gudgeon.plans.lives import Life, Read, Visit, family, lives, visits, worn, younger
from gudgeon.plans.shape import Given, Line, Plan, Planner
from gudgeon.problem import Refused, Said, said
from gudgeon.routes.scopes import SCOPES
from gudgeon.verdicts.shape import Verdict

KEY, NAME = "interval", "next look"
#: How sure the next reading is to lie within its limit.
LEVEL = 0.90
#: Fewer readings say nothing of a rate.
LEAST = 3
#: So many are named where too little is known; on a first job that is everything.
NAMED = 6


Walls = tuple[float | None, float | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """When something is measured again: its lives, the lines through them, its wear limits, and by whose wear.

    The life of the part that is in it stands at `which` of the `known`, and of the lines.
    """

    verdict: Verdict
    at: float
    fit: Parallel | None
    known: tuple[Life, ...]
    which: int
    of: str
    because: Said
    walls: Walls


def plan(given: Given, earlier: tuple[Plan, ...]) -> Plan:
    """What is measured again at which hours, the first due first."""
    seen, odd = visits(given)
    due, unknown = dues(given)
    if not due and (not seen or not given.state.earlier):
        few = said("no earlier job of this engine is known: two more at other hours say how fast it wears; until then the "
                   "maker's manual says when")  # fmt: skip
        return Plan(key=KEY, name=NAME, state="nothing to do", reasons=(*odd, *((few,) if seen else ())))
    odd += tuple(_another(v, before, after) for v, before, after in _taken_for_others(given, seen))
    odd += _too_little(given, unknown)
    if not due:
        return Plan(key=KEY, name=NAME, state="nothing to do", reasons=odd)
    now, every = seen[-1].hours, characteristics(given.state.anatomy)
    seqs = tuple(sorted({s for d in due for s in d.verdict.rests_on}))
    lines = tuple(_line(d, now, every[d.verdict.key].name) for d in due)
    return Plan(
        key=KEY, name=NAME, state="nothing to do", lines=lines, rests_on=seqs, reasons=(_head(due[0], now), *odd)
    )


def _too_little(given: Given, unknown: tuple[Verdict, ...]) -> tuple[Said, ...]:
    every = characteristics(given.state.anatomy)
    names = list(dict.fromkeys(every[v.key].name for v in unknown))
    if not names:
        return ()
    more = f" … (+{len(names) - NAMED})" if len(names) > NAMED else ""
    return (said("fewer than {n} readings at different hours, too little to say how fast it wears: {names}; until then the "
                 "maker's manual says when", n=LEAST, names=", ".join(names[:NAMED]) + more),)  # fmt: skip


def _head(first: Due, now: float) -> Said:
    name, at = first.verdict.name, _round(first.at)
    if first.fit is None:
        return said("past its limit as read: {name}", name=name)
    if first.at < now:
        return said("measure now: {name}; it was due by {at:g} h", name=name, at=at)
    return said("measure again by {at:g} h: {name}", at=at, name=name)


def dues(given: Given) -> tuple[tuple[Due, ...], tuple[Verdict, ...]]:
    """Everything that wears and has a limit, where enough is known, the first due first; and what was read too seldom."""
    seen, _odd = visits(given)
    alike: dict[int, list[tuple[Verdict, Walls]]] = {}
    for v, walls in _worn(given) if seen else ():
        alike.setdefault(id(v.row), []).append((v, walls))
    others = family(given) if alike else ()
    found = [one for group in alike.values() for one in _of_one_row(group, seen, others)]
    due = sorted((one for one in found if isinstance(one, Due)), key=lambda due: (due.at, due.verdict.address))
    return tuple(due), tuple(one for one in found if isinstance(one, Verdict))


def _worn(given: Given) -> list[tuple[Verdict, Walls]]:
    """What wears, with its wear limits: a part that is new today is worn out by these, not by its new range."""
    found = [(v, (v.row.least, v.row.most)) for v in worn(given) if v.row is not None]
    return [(v, walls) for v, walls in found if walls != (None, None)]


def _way(walls: Walls) -> float:
    """Whether it grows (+1) or shrinks (-1) as it wears, by the side that has a limit; 0 where both have."""
    least, most = walls
    return float((most is not None) - (least is not None))


def _past(read: Read, walls: Walls) -> bool:
    least, most = walls
    return (least is not None and read.value < least) or (most is not None and read.value > most)


def _of_one_row(alike: list[tuple[Verdict, Walls]], seen: tuple[Visit, ...],
                others: tuple[tuple[Visit, ...], ...]) -> Iterator[Due | Verdict]:  # fmt: skip
    """What one row limits wears alike: at this engine's rate where it has shown some, else at its family's.

    A reading past the limit is due as read; what was read too seldom is given back as it is.
    """
    way = _way(alike[0][1])
    known, which = list[Life](), list[int | None]()
    for v, _ in alike:
        mine = lives(seen, v.address, way)
        known += [life for life in mine if life]
        which.append(len(known) - 1 if mine[-1] else None)
    fit, of = _fit(known), "engine"
    if fit is None and any(n is not None for n in which):
        known += [life for engine in others for v, _ in alike for life in lives(engine, v.address, way) if life]
        fit, of = _fit(known), "family"
    for (v, walls), n in zip(alike, which, strict=True):
        if v.bad or (n is not None and _past(known[n][-1], walls)):
            at = seen[-1].hours if v.bad or n is None else known[n][-1].hours
            words = said("past its limit as read: hours say nothing against a reading")
            yield Due(
                verdict=v, at=at, fit=None, known=tuple(known), which=n or 0, of="reading", because=words, walls=walls
            )
        elif n is not None and fit is not None:
            yield _by(v, walls, fit, tuple(known), n, of)
        elif any(v.address in visit.came or v.address in visit.left for visit in seen):
            yield v


def _fit(known: list[Life]) -> Parallel | None:
    if sum(len(life) for life in known) < LEAST:
        return None
    least = max(read.u for life in known for read in life)
    try:
        return parallel_lines([([r.hours for r in life], [r.value for r in life]) for life in known], least)
    except Refused:
        return None


def _by(v: Verdict, walls: Walls, fit: Parallel, known: tuple[Life, ...], which: int, of: str) -> Due:
    """The first of: the next reading may lie at a limit; as far ahead as was looked back (common practice, no source)."""
    last, back = known[which][-1].hours, max(life[-1].hours - life[0].hours for life in known)
    least, most = walls
    reached = [
        at
        for limit, above in ((most, True), (least, False))
        if limit is not None and (at := fit.may_reach(which, limit, LEVEL, above=above)) is not None
    ]
    soonest = max(last, min(reached)) if reached else None
    if soonest is None or soonest > last + back:
        at, words = last + back, said("no further ahead than was looked back, {back:g} h", back=back)
    else:
        at, words = soonest, said("from then on the next reading may lie past its limit (1 in 20)")
    return Due(verdict=v, at=at, fit=fit, known=known, which=which, of=of, because=words, walls=walls)


def _taken_for_others(given: Given, seen: tuple[Visit, ...]) -> list[tuple[Verdict, Read, Read]]:
    """Where a part that no job of ours renewed came in less worn than it was left."""
    found = list[tuple[Verdict, Read, Read]]()
    for v, walls in _worn(given):
        for before, after in pairwise(visit for visit in seen if v.address in {**visit.came, **visit.left}):
            was = before.left.get(v.address) or (
                before.came.get(v.address) if v.address not in before.renewed else None
            )
            came = after.came.get(v.address) or (after.left.get(v.address) if v.address not in after.renewed else None)
            if was and came and younger(was, came, _way(walls)):
                found.append((v, was, came))
    return found


def _another(v: Verdict, before: Read, after: Read) -> Said:
    return said("{name}: less worn at {now:g} h than at {then:g} h: renewed elsewhere, or a slip? It counts as another part",
                name=v.name, now=after.hours, then=before.hours)  # fmt: skip


def _line(due: Due, now: float, name: str) -> Line:
    v, fit = due.verdict, due.fit
    numbers: tuple[tuple[str, float | str | bool | None], ...] = (("due_h", due.at), ("by", due.of), ("key", v.key))
    if fit is None:
        return Line(where=v.place, what=said("{name}: now", name=name), numbers=numbers, because=(due.because,))
    read, parts = sum(n for n, _, _ in fit.means), len(fit.means)
    least, most = due.walls
    numbers += (("rate_per_100_h", 100.0 * fit.slope), ("u_rate_per_100_h", 100.0 * fit.u_slope), ("readings", read),
                ("lives", parts), ("scatter", fit.s), ("limit_low", least), ("limit_high", most))  # fmt: skip
    what = said("{name} by {at:g} h, {rate} {unit} in 100 h", name=name, at=_round(due.at),
                rate=f"{100.0 * fit.slope:+.{v.places + 1}f}", unit=v.unit)  # fmt: skip
    whose = said("readings of this engine and of its family: {n}, of parts: {parts}", n=read, parts=parts) if (
        due.of == "family") else said("readings of this engine: {n}, of parts: {parts}", n=read, parts=parts)  # fmt: skip
    late = (said("the engine has {now:g} h: overdue", now=now),) if due.at < now else ()
    return Line(where=v.place, what=what, numbers=numbers, because=(whose, due.because, *late))


def _round(hours: float) -> float:
    """Hours as a person keeps them: down to the full hour."""
    return float(int(hours))


KIND = Planner(key=KEY, name=NAME, plan=plan, scopes=tuple(SCOPES))
