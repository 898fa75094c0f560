"""Entries for tests: a note as a bench would send it."""

from __future__ import annotations

import uuid

from gudgeon.job import chain
from gudgeon.job.codec import encode, typed_text
from gudgeon.job.entries import Note, Typed
from gudgeon.storage.ledger import SqlLedgers
from gudgeon.workbench.clock import StoryClock

START = "2026-11-25T08:00:00Z"


def note(n: int = 1, *, bench: str = "b1", words: str = "", entry_id: str = "") -> tuple[str, str]:
    """(typed text, id)"""
    entry_id = entry_id or str(uuid.uuid4())
    body = Note(words=words or f"note {n}")
    return encode(Typed(id=entry_id, typed_at=START, by="k1", bench=bench, nth=n, seen=0, body=body)), entry_id


def ledgers_with(number: str = "J-1", clock: StoryClock | None = None) -> SqlLedgers:
    """The ledgers of the database at hand, with one job opened."""
    ledgers = SqlLedgers(clock or StoryClock(START))
    ledgers.open(number, title="Engine", engine_number="E9", scope="valves", opened_at=START)
    return ledgers


def texts(ledgers: SqlLedgers, number: str = "J-1") -> list[str]:
    """What was typed, out of a ledger that verifies and has no gap."""
    rows = ledgers.rows(number)
    assert [row.seq for row in rows] == list(range(1, len(rows) + 1))
    assert chain.verify([row.line for row in rows], [row.digest for row in rows]) == ()
    head = ledgers.head(number)
    assert (head.seq, head.digest) == ((len(rows), rows[-1].digest) if rows else (0, chain.START))
    return [typed_text(row.line) for row in rows]
