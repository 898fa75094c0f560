"""From stored rows to entries: verify, decode, and name what cannot be read, without losing the rest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.job import chain, codec
from gudgeon.job.entries import BookPinned, Entry
from gudgeon.job.order import retracted_ids
from gudgeon.problem import Problem, Refused
from gudgeon.workbench.ports import Row


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """A ledger as read: its entries, what could not be read, whether its digests hold; `number` is what it is kept under here."""

    rows: tuple[Row, ...]
    entries: tuple[Entry, ...]
    problems: tuple[Problem, ...]
    verified: bool
    number: str = ""

    @property
    def head(self) -> int:
        """The number of the last entry."""
        return self.rows[-1].seq if self.rows else 0

    @property
    def digest(self) -> str:
        """The digest after the last entry."""
        return self.rows[-1].digest.hex() if self.rows else chain.START.hex()

    def book(self) -> str:
        """The digest of the book that is pinned now, or an empty text."""
        out = retracted_ids(self.entries)
        pins = [e.typed.body for e in self.entries if e.typed.id not in out]
        last = next((b for b in reversed(pins) if isinstance(b, BookPinned)), None)
        return last.sha256 if last else ""


def load(rows: Sequence[Row], before: Loaded | None = None) -> Loaded:
    """Decode every line that can be; the others are problems at their numbers. `before` is what was read already."""
    start = before.rows[-1].digest if before and before.rows else chain.START
    broken = chain.verify(
        (r.line for r in rows), (r.digest for r in rows), start=start, first=rows[0].seq if rows else 1
    )
    entries: list[Entry] = []
    problems: list[Problem] = list(broken)
    for row in rows:
        try:
            entries.append(codec.decode(row.line, where=f"entry {row.seq}"))
        except Refused as refused:
            problems += refused.problems
    if before is None:
        return Loaded(rows=tuple(rows), entries=tuple(entries), problems=tuple(problems), verified=not broken)
    return Loaded(
        rows=(*before.rows, *rows),
        entries=(*before.entries, *entries),
        problems=(*before.problems, *problems),
        verified=before.verified and not broken,
    )
