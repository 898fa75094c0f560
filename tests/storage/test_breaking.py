"""What an answer promises when the process dies or the disk is full."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from django.db import connection
from storage_notes import START, ledgers_with, note, texts

from gudgeon.problem import Refused
from gudgeon.storage.checking import check
from gudgeon.storage.copies import SqliteCopies
from gudgeon.storage.ledger import SqlLedgers
from gudgeon.workbench.clock import StoryClock

HERE = Path(__file__).parent
APPENDS = """
import os, resource, signal, sys
sys.path.insert(0, os.environ["NOTES"])
import django
django.setup()
from django.db import connection
from storage_notes import START, note
from gudgeon.problem import Refused
from gudgeon.storage.ledger import SqlLedgers
from gudgeon.workbench.clock import StoryClock
connection.settings_dict["NAME"] = sys.argv[1]
ledgers, limit = SqlLedgers(StoryClock(START)), int(sys.argv[2])
if limit:
    ledgers.head("J-1")
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
for n in range(1, 5000):
    text, entry_id = note(n, words=f"note {n} " + "x" * 400)
    try:
        ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=None)
    except Refused as refused:
        print("REFUSED", refused, flush=True)
        break
    print(entry_id, flush=True)
"""


RESTORES = """
import os, sys, pathlib
import django
django.setup()
from django.db import connection
from gudgeon.storage.copies import SqliteCopies
from gudgeon.workbench.clock import StoryClock
folder = pathlib.Path(sys.argv[1])
connection.settings_dict["NAME"] = folder / "gudgeon.sqlite3"
copies = SqliteCopies(folder / "gudgeon.sqlite3", folder / "copies", StoryClock(sys.argv[2]), pictures=folder)
print("go", flush=True)
while True:
    copies.restore(sys.argv[3])
    copies.restore(sys.argv[4])
"""


def appending(file: Path, limit: int = 0) -> subprocess.Popen[str]:
    """A process that appends, says each id once it has its answer, and goes on until stopped or refused."""
    seen = {**os.environ, "NOTES": str(HERE), "DJANGO_SETTINGS_MODULE": "gudgeon.wiring.settings"}
    command = [sys.executable, "-c", APPENDS, str(file), str(limit)]
    return subprocess.Popen(command, env=seen, stdout=subprocess.PIPE, text=True)


@pytest.mark.parametrize("after", [1, 40, 93])
def test_what_was_answered_survives_kill_9(folder: Path, after: int) -> None:
    ledgers = ledgers_with()
    connection.close()
    child = appending(folder / "gudgeon.sqlite3")
    assert child.stdout is not None
    answered = [child.stdout.readline().strip() for _ in range(after)]
    os.kill(child.pid, signal.SIGKILL)
    answered += child.stdout.read().split()
    assert child.wait() == -signal.SIGKILL
    kept = texts(ledgers)
    assert len(answered) >= after
    assert len(answered) <= len(kept) <= len(answered) + 1
    assert all(entry_id in text for entry_id, text in zip(answered, kept, strict=False))
    text, entry_id = note(1)
    assert ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=None).seq == len(kept) + 1
    connection.close()
    assert check(folder / "gudgeon.sqlite3") == ()


@pytest.mark.parametrize("wait", [0.02, 0.05, 0.11, 0.17])
def test_a_copy_put_back_and_killed_half_way_is_one_or_the_other(folder: Path, wait: float) -> None:
    ledgers = ledgers_with()
    copies = SqliteCopies(folder / "gudgeon.sqlite3", folder / "copies", StoryClock(START), pictures=folder)
    ledgers.append_all("J-1", tuple(note(n, words="x" * 900) for n in range(200)), account="bench", on_head=None)
    short = copies.make().name
    ledgers.append_all("J-1", tuple(note(n, words="y" * 900) for n in range(200)), account="bench", on_head=None)
    long = copies.make().name
    connection.close()
    seen = {**os.environ, "DJANGO_SETTINGS_MODULE": "gudgeon.wiring.settings"}
    command = [sys.executable, "-c", RESTORES, str(folder), "2026-11-25T09:00:00Z", short, long]
    child = subprocess.Popen(command, env=seen, stdout=subprocess.PIPE, text=True)
    assert child.stdout is not None
    assert child.stdout.readline() == "go\n"
    time.sleep(wait)
    child.kill()
    child.communicate()
    assert len(texts(ledgers)) in (200, 400)
    connection.close()
    assert check(folder / "gudgeon.sqlite3") == ()
    copies.restore(short)
    assert len(texts(ledgers)) == 200


@pytest.mark.skipif(sys.platform == "win32", reason="RLIMIT_FSIZE is POSIX")
def test_a_full_disk_is_said_and_nothing_is_half_written(folder: Path) -> None:
    ledgers = ledgers_with()
    connection.close()
    child = appending(folder / "gudgeon.sqlite3", limit=600_000)
    said, _ = child.communicate(timeout=60)
    *answered, last = said.splitlines()
    assert child.returncode == 0
    assert last.startswith("REFUSED job J-1: The disk")
    assert "nothing was written" in last
    kept = texts(ledgers)
    assert len(answered) == len(kept) > 20
    connection.close()
    assert check(folder / "gudgeon.sqlite3") == ()


def test_a_database_that_may_not_grow_refuses_and_goes_on_when_it_may(folder: Path) -> None:
    ledgers = ledgers_with()
    with connection.cursor() as cursor:
        pages = cursor.execute("PRAGMA page_count").fetchone()[0]
        cursor.execute(f"PRAGMA max_page_count = {pages}")
    landed = 0
    batch = tuple(note(n, words="x" * 2000) for n in range(20))
    with pytest.raises(Refused, match=r"The disk is full: .*; nothing was written"):
        ledgers.append_all("J-1", batch, account="bench", on_head=None)
    assert len(texts(ledgers)) == landed
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA max_page_count = 100000")
    ledgers.append_all("J-1", batch, account="bench", on_head=0)
    assert texts(ledgers) == [text for text, _ in batch]


def test_a_missing_folder_is_said(folder: Path) -> None:
    from django.db import connections

    connection.close()
    connections.databases["default"]["NAME"] = folder / "nowhere" / "gudgeon.sqlite3"
    connection.settings_dict["NAME"] = folder / "nowhere" / "gudgeon.sqlite3"
    text, entry_id = note()
    with pytest.raises(Refused, match="cannot be opened"):
        SqlLedgers(StoryClock(START)).append("J-1", text, entry_id=entry_id, account="bench", on_head=None)


def test_a_connection_closed_under_it_is_said_and_the_next_append_lands(folder: Path) -> None:
    ledgers = ledgers_with()
    connection.ensure_connection()
    connection.connection.close()
    text, entry_id = note()
    with pytest.raises(Refused, match="does not answer: Cannot operate on a closed database"):
        ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=None)
    assert ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=None).seq == 1


def test_another_program_that_holds_the_database_is_said(folder: Path) -> None:
    import sqlite3

    ledgers = ledgers_with()
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA busy_timeout = 50")
    holder = sqlite3.connect(folder / "gudgeon.sqlite3", isolation_level=None)
    holder.execute("BEGIN IMMEDIATE")
    text, entry_id = note()
    with pytest.raises(Refused, match="in use by another program"):
        ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=None)
    holder.execute("ROLLBACK")
    holder.close()
    assert ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=None).seq == 1
