"""Two fresh readings that contradict with no work written between them: something was done and not written.

It is the only defence against the missing entry, and it costs one comparison a reading.
"""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon.anatomy import say
from gudgeon.job.state import JobState
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.problem import Problem, Refused, said
from gudgeon.verdicts.value import Interpreter, Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Contradictions:
    """The problems, and the entries they are about."""

    problems: tuple[Problem, ...]
    entries: frozenset[int]


def contradictions(state: JobState, interpreter: Interpreter) -> Contradictions:
    """Fresh readings of one measurand at one point that differ by more than their joint expanded uncertainty."""
    last: dict[tuple[str, str, str], Value] = {}
    problems: list[Problem] = []
    entries: set[int] = set()
    for taken in state.readings:
        if not taken.counts:
            continue
        fact, kind = taken.fact, MEASURANDS[taken.fact.measurand]
        try:
            value = interpreter.read(taken, kind)
        except Refused as refused:
            problems += refused.problems
            continue
        spot = (fact.measurand, taken.part or fact.where, fact.point)
        before = last.get(spot)
        if before is not None and disagree(before, value):
            entries |= {before.seq, value.seq}
            problems.append(_problem(kind.name, fact.where, fact.point, before, value))
        last[spot] = value
    return Contradictions(problems=tuple(problems), entries=frozenset(entries))


def disagree(one: Value, other: Value) -> bool:
    """Whether two readings of the same thing cannot both be right: beyond U (k = 2) of their difference, or other words."""
    if one.word or other.word:
        return one.word != other.word
    if one.known is None or other.known is None:
        return one.no_gap != other.no_gap and _clear_gap(one, other)
    apart = one.known.plus(other.known, -1.0)
    return abs(apart.value) > 2.0 * apart.u


def _clear_gap(one: Value, other: Value) -> bool:
    """A gap plainly above the doubt against none at all."""
    known = one.known or other.known
    return known is not None and known.value > 2.0 * known.u


def _problem(name: str, where: str, point: str, one: Value, other: Value) -> Problem:
    what = said("Entries {one} and {other} contradict: {name}, with no work written between them.",
                one=one.seq, other=other.seq, name=f"{name} {point}".strip())  # fmt: skip
    remedy = said("Something was done and not written: write it, read again, or retract the wrong one.")
    return Problem(where=say(where), what=what, remedy=remedy)
