"""An append is four statements in one transaction, or nothing.

They go to the driver itself: the ORM costs ten times as much, and Django's cursor a fifth of the whole. The process-wide lock
is held around the transaction because eight threads that wait for SQLite's own lock wait ten times as long as for ours.
"""

from __future__ import annotations

import threading
import uuid
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import msgspec
from django.db import DEFAULT_DB_ALIAS, connection, connections, transaction

from gudgeon.job import chain
from gudgeon.job.codec import landed_line, typed_text
from gudgeon.problem import Problem, Refused, refuse, said
from gudgeon.storage.trouble import told
from gudgeon.workbench.ports import Head, Landed, OldHead

Run = Callable[[str, tuple[object, ...]], Any]

#: Held around every write to a ledger, and while a copy is put back.
WRITING = threading.RLock()

_HEAD = "SELECT seq, digest FROM ledger_head WHERE job_id = %s"
_THERE = "SELECT job_id, seq, line, digest FROM ledger_row WHERE entry = %s"
_INSERT = "INSERT INTO ledger_row (job_id, seq, entry, line, digest) VALUES (%s, %s, %s, %s, %s)"
_MOVE = "UPDATE ledger_head SET seq = %s, digest = %s WHERE job_id = %s"
_SINCE = "SELECT seq, line FROM ledger_row WHERE job_id = %s AND seq > %s ORDER BY seq"

#: So many of the entries that arrived since are named; the rest is counted.
_NAMED = 5


@contextmanager
def written(where: str) -> Iterator[None]:
    """One writer of this process at a time, one transaction, and what the database refuses in words."""
    with WRITING, told(where), transaction.atomic():
        yield


def land(
    number: str, typed: tuple[tuple[str, str], ...], *, account: str, on_head: int | None, now: str
) -> tuple[Landed, ...]:
    """Land pairs of (typed text, entry id), all or none; inside :func:`written`."""
    landed: list[Landed] = []
    with connection.wrap_database_errors:
        run = _driver()
        head = seen = _locked_head(run, number)
        for text, entry_id in typed:
            key = key_of(entry_id)
            there = _already(run, number, key, text, entry_id)
            if there is not None:
                landed.append(there)
                continue
            if on_head is not None and on_head != seen.seq:
                raise _gone_on(run, number, on_head, seen.seq)
            line = landed_line(text, seq=head.seq + 1, landed_at=now, account=account)
            head = Head(seq=head.seq + 1, digest=chain.link(head.digest, line))
            run(_INSERT, (number, head.seq, key, line, head.digest))
            run(_MOVE, (head.seq, head.digest, number))
            landed.append(Landed(id=entry_id, seq=head.seq, digest=head.digest, again=False))
    return tuple(landed)


def _driver() -> Run:
    """What runs a statement: both drivers give a cursor, and differ in how a value is marked."""
    held = connections[DEFAULT_DB_ALIAS]
    execute: Run = held.connection.execute
    if held.vendor == "sqlite":
        return lambda statement, values: execute(statement.replace("%s", "?"), values)
    return execute


def _locked_head(run: Run, number: str) -> Head:
    """The head, held until the transaction ends; SQLite holds the whole file anyway."""
    lock = " FOR UPDATE" if connection.features.has_select_for_update else ""
    found = run(_HEAD + lock, (number,)).fetchone()
    if found is None:
        raise unknown(number)
    return Head(seq=found[0], digest=bytes(found[1]))


def unknown(number: str) -> Refused:
    """There is no such job."""
    return refuse("job", "There is no job {number}.", "Choose one from the list of jobs.", number=number)


def key_of(entry_id: str) -> str:
    """An entry's id as its column holds it."""
    try:
        return uuid.UUID(entry_id).hex
    except (ValueError, AttributeError, TypeError):
        raise refuse(
            "id", "{given} is no id of an entry.", "Send a UUID made when Return was pressed.", given=str(entry_id)[:80]
        ) from None


def _already(run: Run, number: str, key: str, text: str, entry_id: str) -> Landed | None:
    """The entry that is there under this id with these very bytes; with other bytes the id is refused."""
    found = run(_THERE, (key,)).fetchone()
    if found is None:
        return None
    job, seq, line, digest = found
    if job == number and typed_text(line) == text:
        return Landed(id=entry_id, seq=seq, digest=bytes(digest), again=True)
    raise refuse(
        f"entry {entry_id}",
        "This id landed before as entry {seq} of job {job}, with other content.",
        "Compare the two; if both are meant, type the second one anew.",
        seq=seq,
        job=job,
    )


def _gone_on(run: Run, number: str, on_head: int, head: int) -> OldHead:
    remedy = said("Look at what changed and decide again.")
    if on_head > head:
        what = said(
            "The job stands at entry {head}, before entry {seen}: a copy was put back.", head=head, seen=on_head
        )
        return OldHead(Problem(where="head", what=what, remedy=remedy), head=head)
    since = run(_SINCE, (number, on_head)).fetchall()
    named = [f"{seq} {_fact(line)}" for seq, line in since[:_NAMED]]
    named += [f"… {head}"] if len(since) > _NAMED else []
    what = said(
        "Since entry {seen} the job has gone on to entry {head}: {arrived}.",
        seen=on_head,
        head=head,
        arrived=", ".join(named),
    )
    return OldHead(Problem(where="head", what=what, remedy=remedy), head=head)


def _fact(line: str) -> str:
    """What kind of entry a stored line holds, whatever version wrote it."""
    try:
        tag = str(msgspec.json.decode(line)["typed"]["body"]["fact"])
    except (msgspec.DecodeError, KeyError, TypeError):
        return "?"
    return tag.partition("/")[0].replace("_", " ")
