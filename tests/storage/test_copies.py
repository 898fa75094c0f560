"""Copies: checked before they count, the last ten kept, put back whole."""

from __future__ import annotations

import os
import sqlite3
import threading
import time
from contextlib import closing
from pathlib import Path

import pytest
from django.db import connection
from storage_notes import ledgers_with, note, texts

from gudgeon.problem import Refused
from gudgeon.storage.checking import check
from gudgeon.storage.copies import SqliteCopies
from gudgeon.storage.ledger import SqlLedgers
from gudgeon.workbench.clock import StoryClock


@pytest.fixture
def copies(folder: Path, clock: StoryClock) -> SqliteCopies:
    (folder / "pictures").mkdir()
    return SqliteCopies(folder / "gudgeon.sqlite3", folder / "copies", clock, pictures=folder / "pictures")


def write(ledgers: SqlLedgers, count: int) -> list[str]:
    pairs = tuple(note(n) for n in range(count))
    ledgers.append_all("J-1", pairs, account="bench", on_head=None)
    return [text for text, _ in pairs]


def test_a_copy_put_back_is_what_was_copied_and_the_replaced_is_kept(copies: SqliteCopies, folder: Path) -> None:
    ledgers = ledgers_with()
    first = write(ledgers, 5)
    made = copies.make()
    assert (made.name, made.made_at, made.checked) == ("2026-11-25T08-00-00Z.sqlite3", "2026-11-25T08:00:00Z", True)
    assert made.size == (folder / "copies" / made.name).stat().st_size
    later = write(ledgers, 3)
    copies.restore(made.name)
    assert texts(ledgers) == first
    replaced = copies.all()[0]
    assert (replaced.name, replaced.checked) == ("2026-11-25T08-00-00Z-2.sqlite3", True)
    copies.restore(replaced.name)
    assert texts(ledgers) == first + later
    with connection.cursor() as cursor:
        assert cursor.execute("PRAGMA journal_mode").fetchone()[0] == "wal"
    assert sorted(file.suffix for file in (folder / "copies").iterdir()) == [".sqlite3"] * 3


def test_a_copy_holds_what_another_connection_has_just_written(copies: SqliteCopies) -> None:
    """The write-ahead log is not in the main file yet; a copied file would miss it."""
    ledgers = ledgers_with()
    typed = write(ledgers, 4)
    name = copies.make().name
    with closing(sqlite3.connect(copies._folder / name)) as copy:
        assert copy.execute("SELECT count(*) FROM ledger_row").fetchone()[0] == len(typed)


def test_connections_of_other_threads_see_and_write_to_what_was_put_back(copies: SqliteCopies) -> None:
    ledgers = ledgers_with()
    first = write(ledgers, 2)
    name = copies.make().name
    write(ledgers, 2)
    opened, go_on = threading.Event(), threading.Event()
    seen: list[list[str]] = []

    def other() -> None:
        ledgers.head("J-1")
        opened.set()
        go_on.wait(20)
        seen.append(texts(ledgers))
        text, entry_id = note(77)
        ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=2)
        connection.close()

    thread = threading.Thread(target=other)
    thread.start()
    opened.wait(20)
    copies.restore(name)
    go_on.set()
    thread.join()
    assert seen == [first]
    assert len(texts(ledgers)) == 3


def test_the_last_ten_are_kept_and_the_one_put_back_is_not_lost_on_the_way(
    copies: SqliteCopies, clock: StoryClock
) -> None:
    ledgers = ledgers_with()
    names = []
    for n in range(12):
        names.append(copies.make().name)
        write(ledgers, 1)
        clock.go_on(minutes=1)
        assert len(copies.all()) == min(n + 1, 10)
    assert [copy.name for copy in copies.all()] == names[:1:-1]
    copies.restore(names[2])
    assert len(texts(ledgers)) == 2
    assert len(copies.all()) == 10


def flip(file: Path, old: bytes, new: bytes) -> None:
    data = file.read_bytes()
    assert data.count(old) >= 1
    file.write_bytes(data.replace(old, new))


@pytest.mark.parametrize("harm", ["entry", "page", "cut", "header", "empty", "head", "tail"])
def test_a_damaged_copy_is_refused_and_changes_nothing(copies: SqliteCopies, folder: Path, harm: str) -> None:
    ledgers = ledgers_with()
    typed = write(ledgers, 40)
    made = copies.make()
    file = folder / "copies" / made.name
    data = file.read_bytes()
    match harm:
        case "entry":
            flip(file, b'"words":"note 7"', b'"words":"note 9"')
        case "page":
            file.write_bytes(data[:8192] + b"\xff" * 4096 + data[12288:])
        case "cut":
            file.write_bytes(data[: len(data) // 2])
        case "header":
            file.write_bytes(b"no database at all, but long enough to look like one" * 100)
        case "empty":
            file.write_bytes(b"")
        case "head":
            with closing(sqlite3.connect(file)) as copy, copy:
                copy.execute("UPDATE ledger_head SET seq = 41")
        case "tail":
            with closing(sqlite3.connect(file)) as copy, copy:
                copy.execute("DELETE FROM ledger_row WHERE seq > 30")
    assert check(file) != ()
    with pytest.raises(Refused) as refused:
        copies.restore(made.name)
    assert all("Traceback" not in str(problem) for problem in refused.value.problems)
    assert texts(ledgers) == typed


def test_what_a_killed_copy_left_is_swept(copies: SqliteCopies, folder: Path) -> None:
    for name, age in (("making-old", 4000), ("making-new", 10)):
        (folder / "copies" / name).mkdir(parents=True)
        (folder / "copies" / name / "copy").write_bytes(b"half")
        then = time.time() - age
        os.utime(folder / "copies" / name, (then, then))
    made = copies.make()
    assert sorted(file.name for file in (folder / "copies").iterdir()) == [made.name, "making-new"]


@pytest.mark.parametrize("name", ["../gudgeon.sqlite3", "", "nil.sqlite3", "2026-11-25T08-00-00Z.sqlite3"])
def test_only_a_copy_of_the_list_is_put_back(copies: SqliteCopies, name: str) -> None:
    with pytest.raises(Refused, match="There is no copy"):
        copies.restore(name)


@pytest.mark.parametrize("harm", ["entry", "header"])
def test_a_damaged_database_makes_no_checked_copy_and_is_healed_by_an_older_one(
    copies: SqliteCopies, folder: Path, clock: StoryClock, harm: str
) -> None:
    ledgers = ledgers_with()
    typed = write(ledgers, 12)
    good = copies.make()
    clock.go_on(minutes=1)
    live = folder / "gudgeon.sqlite3"
    if harm == "entry":
        with connection.cursor() as cursor:
            cursor.execute("UPDATE ledger_row SET line = replace(line, 'note 7', 'note 8')")
        connection.close()
    else:
        connection.close()
        live.write_bytes(b"\0" * 100 + live.read_bytes()[100:])
    with pytest.raises(Refused):
        copies.make()
    assert [(copy.name, copy.checked) for copy in copies.all()] == [
        ("2026-11-25T08-01-00Z-unchecked.sqlite3", False),
        (good.name, True),
    ]
    copies.restore(good.name)
    assert texts(ledgers) == typed
    assert check(live) == ()


def test_the_second_place_gets_the_copy_and_the_pictures(folder: Path, clock: StoryClock, tmp_path: Path) -> None:
    second = tmp_path / "stick"
    pictures = folder / "pictures"
    pictures.mkdir()
    (pictures / ("a" * 64 + ".jpg")).write_bytes(b"picture")
    copies = SqliteCopies(folder / "gudgeon.sqlite3", folder / "copies", clock, pictures=pictures, second=second)
    with pytest.raises(Refused, match="No copy could be put into"):
        copies.make()  # the stick is not plugged in
    assert not second.exists()
    assert [copy.checked for copy in copies.all()] == [True]
    second.mkdir()
    clock.go_on(minutes=1)
    name = copies.make().name
    assert sorted(file.name for file in second.iterdir()) == [name, "pictures"]
    assert check(second / name) == ()
    assert [file.read_bytes() for file in (second / "pictures").iterdir()] == [b"picture"]


def test_a_copy_of_a_later_version_is_refused(copies: SqliteCopies, folder: Path) -> None:
    ledgers = ledgers_with()
    typed = write(ledgers, 2)
    made = copies.make()
    typed += write(ledgers, 1)
    with closing(sqlite3.connect(folder / "copies" / made.name)) as copy, copy:
        copy.execute(
            "INSERT INTO django_migrations (app, name, applied) VALUES ('storage', '9999_later', '2030-01-01')"
        )
    with pytest.raises(Refused, match="later Gudgeon"):
        copies.restore(made.name)
    assert texts(ledgers) == typed
