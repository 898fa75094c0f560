"""Two fresh readings that contradict with no work written between them: something was done and not written.

It is the only defence against the missing entry, and it costs one comparison a reading.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from gudgeon.anatomy import say
from gudgeon.job.state import JobState
from gudgeon.measurands.own import measurands
from gudgeon.problem import Problem, Refused, said
from gudgeon.verdicts.value import Interpreter, Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Contradictions:
    """The problems, and the pairs of entries that contradict."""

    problems: tuple[Problem, ...]
    pairs: tuple[tuple[int, int], ...]

    def of(self, rests_on: tuple[int, ...]) -> tuple[int, ...]:
        """The entries that contradict where one of these has a part in it."""
        return tuple(sorted({seq for pair in self.pairs if not set(pair).isdisjoint(rests_on) for seq in pair}))


Spot = tuple[str, str, str, str]


def contradictions(state: JobState, interpreter: Interpreter) -> Contradictions:
    """Fresh readings of one measurand at one point that differ by more than their joint expanded uncertainty."""
    kept: dict[Spot, tuple[Value, ...]] = {}
    clashes: dict[Spot, Problem] = {}
    unreadable: list[Problem] = []
    pairs: list[tuple[int, int]] = []
    for taken in state.readings:
        if not taken.counts:
            continue
        fact = taken.fact
        kind = measurands(state.anatomy)[fact.measurand]
        try:
            value = interpreter.read(taken, kind)
        except Refused as refused:
            unreadable += refused.problems
            continue
        spot = (fact.measurand, taken.part or fact.where, fact.point, _method(value))
        clash = next((v for v in kept.get(spot, ()) if disagree(v, value)), None)
        if clash is not None:
            pairs.append((clash.seq, value.seq))
            clashes[spot] = _problem(kind.name, fact.where, fact.point, clash, value)
        kept[spot] = _telling((*kept.get(spot, ()), value))
    return Contradictions(problems=(*unreadable, *clashes.values()), pairs=tuple(pairs))


def _method(value: Value) -> str:
    """A dial grid sees a whole face and a straightedge one line of it: two things, which may differ."""
    return value.kind if value.kind == "dial grid" else ""


def _telling(values: tuple[Value, ...]) -> tuple[Value, ...]:
    """The readings that any later one must agree with: the last, both extremes, the closest bounds."""
    sized = [v for v in values if v.sized]
    found = [values[-1]]
    found += [pick(sized, key=lambda v: v.sized.value if v.sized else 0.0) for pick in (min, max) if sized]
    found += [max(over, key=lambda v: v.above or 0.0)] if (over := [v for v in values if v.above is not None]) else []
    found += [min(under, key=_under)] if (under := [v for v in values if v.below is not None or v.no_gap]) else []
    return tuple({v.seq: v for v in found}.values())


def _under(value: Value) -> float:
    """What the value is under; a gap that no leaf enters is none at all where nobody knows the thinnest leaf."""
    return (value.below or 0.0) if value.no_gap or value.below is not None else inf


def since_contradicted(values: tuple[Value, ...]) -> tuple[Value, ...]:
    """The last readings that agree with the last one, in their order."""
    if len(values) < 2 or _all_agree(values):
        return values
    *before, last = sorted(values, key=lambda v: v.seq)
    kept = [last]
    for value in reversed(before):
        if disagree(value, last):
            break
        kept.append(value)
    return tuple(reversed(kept))


def _all_agree(values: tuple[Value, ...]) -> bool:
    """Whether even the smallest and the largest agree, where all are sizes: then nobody needs to look at each."""
    if any(v.sized is None for v in values):
        return False
    low, high = (pick(values, key=lambda v: v.sized.value if v.sized else 0.0) for pick in (min, max))
    return not disagree(low, high)


def disagree(one: Value, other: Value) -> bool:
    """Whether two readings of the same thing cannot both be right: beyond U (k = 2) of their difference, or other words."""
    if one.word or other.word:
        return one.word != other.word
    if one.sized is not None and other.sized is not None:
        apart = one.sized.plus(other.sized, -1.0)
        return abs(apart.value) > 2.0 * apart.u
    return _beyond(one, other) or _beyond(other, one)


def _beyond(one: Value, other: Value) -> bool:
    """Whether one is surely over what the other is under."""
    if one.sized is not None:
        return one.sized.value - 2.0 * one.sized.u > _under(other)
    if one.above is None:
        return False
    ceiling = other.sized.value + 2.0 * other.sized.u if other.sized is not None else _under(other)
    return one.above >= ceiling


def _problem(name: str, where: str, point: str, one: Value, other: Value) -> Problem:
    what = said("Entries {one} and {other} contradict: {name}, with no work written between them.",
                one=one.seq, other=other.seq, name=f"{name} {point}".strip())  # fmt: skip
    remedy = said("Something was done and not written: write it, read again, or retract the wrong one.")
    return Problem(where=say(where), what=what, remedy=remedy)
