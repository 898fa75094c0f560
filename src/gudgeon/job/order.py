"""Which entries are live, and in which order they happened."""

from __future__ import annotations

from collections.abc import Sequence

from gudgeon.job.entries import FOR_GOOD, Entry, Retraction
from gudgeon.job.freshness import Position
from gudgeon.problem import Problem, said


def retracted_ids(entries: Sequence[Entry]) -> frozenset[str]:
    """The ids that a live retraction names; one pass backwards, since a retraction may itself be retracted."""
    out: set[str] = set()
    at = {e.typed.id: e for e in entries}
    for entry in reversed(entries):
        body = entry.typed.body
        if isinstance(body, Retraction) and entry.typed.id not in out and _can(entry, at.get(body.entry)):
            out.add(body.entry)
    return frozenset(out)


def _can(entry: Entry, target: Entry | None) -> bool:
    """Whether a retraction names an entry before it that is not there for good."""
    return target is not None and target.seq < entry.seq and not isinstance(target.typed.body, FOR_GOOD)


def bad_references(entries: Sequence[Entry], out: frozenset[str]) -> tuple[Problem, ...]:
    """Live retractions that retract nothing, and late entries that name nothing they could have come before."""
    at = {e.typed.id: e for e in entries}
    problems = []
    for entry in entries:
        body = entry.typed.body
        before = getattr(body, "before", "")
        if entry.typed.id in out:
            continue
        if isinstance(body, Retraction) and not _can(entry, at.get(body.entry)):
            what, remedy = (
                said("The retraction names an entry that cannot be retracted."),
                said("Retract this retraction."),
            )
            problems.append(Problem(where=f"entry {entry.seq}", what=what, remedy=remedy))
        if before and not (before in at and at[before].seq < entry.seq):
            what = said("It was done before an entry that is not there: it counts from where it landed.")
            remedy = said("Retract it and name an earlier entry.")
            problems.append(Problem(where=f"entry {entry.seq}", what=what, remedy=remedy))
    return tuple(problems)


def in_order(entries: Sequence[Entry], out: frozenset[str]) -> tuple[tuple[Position, Entry], ...]:
    """Live entries with their positions, in the order in which things happened."""
    at: dict[str, Position] = {}
    for e in entries:
        named = at.get(getattr(e.typed.body, "before", ""))
        at[e.typed.id] = (*named[:-1], 0, e.seq, 1) if named else (e.seq, 1)
    placed = [(at[e.typed.id], e) for e in entries if e.typed.id not in out]
    return tuple(sorted(placed, key=lambda pair: pair[0]))
