"""What an append costs beside the disk's own price: the same lines written to the same kind of file, one by one."""

from __future__ import annotations

import itertools
import os
import sqlite3
import statistics
import tempfile
import threading
import time
import uuid
from collections.abc import Callable, Iterator
from pathlib import Path

COUNT = 25
ROUNDS = 40
START = "2026-11-25T08:00:00Z"
PRAGMAS = "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;"


def rows() -> Iterator[tuple[str, float, float | None]]:
    """In short turns, so that a disk or a neighbour that slows down slows all; the middle of many turns."""
    with tempfile.TemporaryDirectory() as name:
        append, head = _whole(Path(name))
        bare, one_row = _bare(Path(name) / "bare.sqlite3"), _one_row(Path(name) / "row.sqlite3")
        turns = [(_timed(append), _timed(bare), _timed(one_row)) for _ in range(ROUNDS)]
        yield "append / same statements by the bare driver", statistics.median(a / b for a, b, _ in turns), 1.6
        yield "append / one row by the bare driver", statistics.median(a / c for a, _, c in turns), None
        alone = statistics.median(a for a, _, _ in turns)
        yield "append, ms", alone * 1000 / COUNT, None
        before = head()
        yield "append by 8 threads at once / alone", _timed(lambda: _eight(append)) / alone / 8, None
        assert head() == before + 8 * COUNT


def _timed(many: Callable[[], None]) -> float:
    began = time.perf_counter()
    many()
    return time.perf_counter() - began


def _lines() -> Iterator[tuple[str, str]]:
    """Texts of the usual size, as a bench types them."""
    for n in range(COUNT):
        entry_id = str(uuid.uuid4())
        yield (
            f'{{"id":"{entry_id}","typed_at":"{START}","by":"k1","bench":"b1","nth":{n},"seen":{n},"body":{{"fact":'
            f'"reading/1","measurand":"bore_diameter","where":"c1","point":"middle y","text":"71.93","unit":"mm","gauge":"BG-2"}}}}',
            entry_id,
        )


def _bare(file: Path) -> Callable[[], None]:
    """Look at the head and for the id, insert, move the head: the four statements, and nothing around them."""
    database = _opened(file)
    database.execute("CREATE TABLE head (job TEXT PRIMARY KEY, seq INTEGER, digest BLOB)")
    database.execute("INSERT INTO head VALUES ('J', 0, zeroblob(32))")

    def many() -> None:
        for text, entry_id in _lines():
            database.execute("BEGIN IMMEDIATE")
            seq, digest = database.execute("SELECT seq, digest FROM head WHERE job = ?", ("J",)).fetchone()
            database.execute("SELECT seq, line FROM line WHERE entry = ?", (entry_id,)).fetchone()
            database.execute("INSERT INTO line VALUES (?, ?, ?, ?, ?)", ("J", seq + 1, entry_id, text, digest))
            database.execute("UPDATE head SET seq = ?, digest = ? WHERE job = ?", (seq + 1, digest, "J"))
            database.execute("COMMIT")

    return many


def _one_row(file: Path) -> Callable[[], None]:
    """One row a transaction: what the disk's promise costs without a ledger."""
    database = _opened(file)
    count = itertools.count()

    def many() -> None:
        for text, entry_id in _lines():
            database.execute("BEGIN IMMEDIATE")
            database.execute("INSERT INTO line VALUES (?, ?, ?, ?, ?)", ("J", next(count), entry_id, text, bytes(32)))
            database.execute("COMMIT")

    return many


def _opened(file: Path) -> sqlite3.Connection:
    database = sqlite3.connect(file, isolation_level=None)
    database.executescript(PRAGMAS)
    database.execute(
        "CREATE TABLE line (job TEXT, seq INTEGER, entry TEXT UNIQUE, line TEXT, digest BLOB, PRIMARY KEY (job, seq))"
    )
    return database


def _whole(folder: Path) -> tuple[Callable[[], None], Callable[[], int]]:
    """The ledger as the bench uses it, in a data folder of its own."""
    os.environ["GUDGEON_DATA"] = str(folder / "data")
    from gudgeon.wiring.bench import open_database

    open_database()
    from gudgeon.storage.clock import SystemClock
    from gudgeon.storage.ledger import SqlLedgers

    ledgers = SqlLedgers(SystemClock())
    ledgers.open("J", title="Engine", engine_number="E", scope="valves", opened_at=START)

    def many() -> None:
        for text, entry_id in _lines():
            ledgers.append("J", text, entry_id=entry_id, account="bench", on_head=None)

    return many, lambda: ledgers.head("J").seq


def _eight(append: Callable[[], None]) -> None:
    def one() -> None:
        append()
        from django.db import connection

        connection.close()

    threads = [threading.Thread(target=one) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
