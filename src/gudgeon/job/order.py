"""Which entries are live, and in which order they happened."""

from __future__ import annotations

from collections.abc import Sequence

from gudgeon.job.entries import FOR_GOOD, Entry, Retraction
from gudgeon.job.freshness import Position
from gudgeon.problem import Problem, said


def retracted_ids(entries: Sequence[Entry]) -> frozenset[str]:
    """The ids that a live retraction names; one pass backwards, since a retraction may itself be retracted."""
    out: set[str] = set()
    bodies = {e.typed.id: e.typed.body for e in entries}
    for entry in reversed(entries):
        body = entry.typed.body
        if (
            isinstance(body, Retraction)
            and entry.typed.id not in out
            and not isinstance(bodies.get(body.entry), FOR_GOOD)
        ):
            out.add(body.entry)
    return frozenset(out & bodies.keys())


def bad_retractions(entries: Sequence[Entry]) -> tuple[Problem, ...]:
    """Retractions that name nothing, something later, or what can never be retracted."""
    at = {e.typed.id: e for e in entries}
    problems = []
    for entry in entries:
        body = entry.typed.body
        if not isinstance(body, Retraction):
            continue
        target = at.get(body.entry)
        if target is None or target.seq >= entry.seq or isinstance(target.typed.body, FOR_GOOD):
            what = said("The retraction names an entry that cannot be retracted.")
            problems.append(Problem(where=f"entry {entry.seq}", what=what, remedy=said("Retract this retraction.")))
    return tuple(problems)


def in_order(entries: Sequence[Entry], out: frozenset[str]) -> tuple[tuple[Position, Entry], ...]:
    """Live entries with their positions, in the order in which things happened."""
    at = {e.typed.id: e.seq for e in entries}
    placed = [(_position(e, at), e) for e in entries if e.typed.id not in out]
    return tuple(sorted(placed, key=lambda pair: pair[0]))


def _position(entry: Entry, at: dict[str, int]) -> Position:
    before = getattr(entry.typed.body, "before", "")
    named = at.get(before, 0) if before else 0
    return (named, 0, entry.seq) if 0 < named < entry.seq else (entry.seq, 1, 0)
