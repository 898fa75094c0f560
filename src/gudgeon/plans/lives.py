"""The lives of the parts of an engine: what was read of each at which hours, from one renewal to the next."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import hypot, isfinite

from gudgeon import units
from gudgeon.characteristics.own import characteristics
from gudgeon.job.entries import EarlierPinned
from gudgeon.plans.shape import Given
from gudgeon.problem import Refused, Said, said
from gudgeon.verdicts.shape import Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """One size at the hours of its engine."""

    hours: float
    value: float
    u: float


Life = tuple[Read, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """What one job found and left: sizes by address, and which of them were a new part's when it ended."""

    hours: float
    came: dict[str, Read]
    left: dict[str, Read]
    renewed: frozenset[str]


def worn(given: Given) -> Iterator[Verdict]:
    """What is judged by a wear limit; compression is, but follows battery, temperature and height as much as wear."""
    every = characteristics(given.state.anatomy)
    return (v for v in given.judged.verdicts if every[v.key].rule == "wear" and v.key != "compression")


def hours_of(given: Given) -> float | None:
    """The engine's hours when the job was opened."""
    return read_hours(given.state.opened.hours if given.state.opened else "")


def read_hours(text: str) -> float | None:
    """Hours as typed; none where there are none, or none that can be read."""
    try:
        return units.read(text, "time", unit="h").value if text else None
    except Refused:
        return None


def plain(engine: str) -> str:
    """An engine's number without what hands add to it."""
    return "".join(c for c in engine.casefold() if c.isalnum())


def _when(past: EarlierPinned) -> tuple[str, float]:
    """Two jobs opened at one moment come in the order of their hours."""
    return past.on, read_hours(past.hours) or 0.0


def visits(given: Given) -> tuple[tuple[Visit, ...], tuple[Said, ...]]:
    """The jobs of this engine, oldest first, this one last; and what is left out because its hours run backwards."""
    now = hours_of(given)
    if now is None:
        return (), (said("the engine's hours were not written down: without them there is no wear over hours"),)
    mine = sorted((past for past in given.state.earlier.values() if past.of == "engine"), key=_when)
    kept, odd, least = [_this(given, now)], list[Said](), now
    for past in reversed(mine):
        hours = read_hours(past.hours)
        if hours is None:
            continue
        if hours > least:
            odd.append(said("job {job} had {then:g} h and a later one {now:g} h: another meter, or a slip? What was read up "
                            "to then is left out", job=past.job, then=hours, now=least))  # fmt: skip
            break
        kept.append(_visit(past, hours))
        least = hours
    return tuple(reversed(kept)), tuple(odd)


def family(given: Given) -> tuple[tuple[Visit, ...], ...]:
    """The visits of each other engine of the family, oldest first."""
    engines: dict[str, list[Visit]] = {}
    for past in sorted(given.state.earlier.values(), key=_when):
        hours = read_hours(past.hours)
        if past.of == "family" and hours is not None:
            engines.setdefault(plain(past.engine), []).append(_visit(past, hours))
    rising = (found for found in engines.values() if all(a.hours <= b.hours for a, b in pairwise(found)))
    return tuple(tuple(found) for found in rising)


def lives(seen: Iterable[Visit], address: str, way: float = 0.0) -> tuple[Life, ...]:
    """What was read at an address, a part at a time; the last is that of the part that is in it now.

    A part that was renewed before its limit keeps its readings: how fast it wore is known, how far it would have gone is not.
    `way` is +1 for a size that grows as it wears, -1 for one that shrinks, 0 where it may go either way.
    """
    found: list[list[Read]] = [[]]
    for visit in seen:
        came, left = visit.came.get(address), visit.left.get(address)
        worked = address in visit.renewed or (came and left and abs(left.value - came.value) > _doubt(came, left))
        before = came if worked else left or came
        if before and found[-1] and younger(found[-1][-1], before, way):
            found.append([])
        if before:
            found[-1].append(before)
        if worked:
            found.append([left] if left else [])
    return tuple(tuple(life) for n, life in enumerate(found) if life or n == len(found) - 1)


def younger(before: Read, after: Read, way: float) -> bool:
    """Less worn than before by more than the doubt of both readings: another part, nothing wears backwards."""
    return way * (before.value - after.value) > _doubt(before, after)


def _doubt(one: Read, other: Read) -> float:
    """How far two readings of one size may lie apart, at 95 %."""
    return 2.0 * hypot(one.u, other.u)


def _visit(past: EarlierPinned, hours: float) -> Visit:
    came, left = dict[str, Read](), dict[str, Read]()
    for row in past.rows:
        for into, text in ((came, row.came), (left, row.left)):
            value, u = _number(text), _number(row.u)
            if value is not None:
                into[row.address] = Read(hours=hours, value=value, u=u or 0.0)
    return Visit(hours=hours, came=came, left=left, renewed=frozenset(r.address for r in past.rows if r.renewed))


def _number(text: str) -> float | None:
    try:
        value = float(text)
    except ValueError:
        return None
    return value if isfinite(value) else None


def _this(given: Given, hours: float) -> Visit:
    came, left = dict[str, Read](), dict[str, Read]()
    for v in worn(given):
        if v.as_found is not None and v.as_found.value is not None:
            came[v.address] = Read(hours=hours, value=v.as_found.value, u=v.as_found.u or 0.0)
        if v.fresh and v.value is not None:
            left[v.address] = Read(hours=hours, value=v.value, u=v.u or 0.0)
    renewed = frozenset(v.address for v in given.judged.verdicts if v.judged_new)
    return Visit(hours=hours, came=came, left=left, renewed=renewed)
