"""The digest chain of a ledger: what shows a change before a digest that somebody holds.

It cannot show a tail cut off, or a ledger rewritten whole, unless a digest from a paper or an archive is held against it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable

from gudgeon.problem import Problem, said

#: The digest before the first entry.
START = b"\0" * 32


def link(before: bytes, line: str) -> bytes:
    """SHA-256 of the digest before and the stored line, exactly as stored."""
    return hashlib.sha256(before + line.encode()).digest()


def digests(lines: Iterable[str]) -> list[bytes]:
    """The digest after each line."""
    held, found = START, []
    for line in lines:
        held = link(held, line)
        found.append(held)
    return found


def verify(
    lines: Iterable[str], stored: Iterable[bytes], against: str = "", *, start: bytes = START, first: int = 1
) -> tuple[Problem, ...]:
    """Every entry whose stored digest does not follow from its line; and whether a digest held elsewhere occurs."""
    held, problems, seen = start, [], set()
    for n, (line, kept) in enumerate(zip(lines, stored, strict=True), first):
        if link(held, line) != kept:
            what = said("The stored digest does not follow from the entry: it was changed after it landed.")
            problems.append(
                Problem(where=f"entry {n}", what=what, remedy=said("Restore a copy from before the change."))
            )
        held = kept
        seen.add(kept.hex())
    if against and not any(digest.startswith(against.lower()) for digest in seen):
        what = said("No entry has the digest {digest}: the ledger was rewritten or cut.", digest=against)
        problems.append(
            Problem(where="ledger", what=what, remedy=said("Compare with the archive the digest comes from."))
        )
    return tuple(problems)
