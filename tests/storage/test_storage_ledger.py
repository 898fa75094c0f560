"""Appending: whole, once, in order, on the head that was seen, or not at all."""

from __future__ import annotations

import threading
from collections.abc import Callable
from pathlib import Path

import pytest
from django.db import connection
from storage_notes import START, ledgers_with, note, texts

from gudgeon.job.codec import decode
from gudgeon.problem import Refused
from gudgeon.storage.ledger import SqlLedgers
from gudgeon.workbench.clock import StoryClock
from gudgeon.workbench.ports import Head, JobRow, OldHead, Row


def test_the_database_has_the_settings_that_keep_a_promise(folder: Path) -> None:
    with connection.cursor() as cursor:
        found = {}
        for pragma in ("journal_mode", "synchronous", "foreign_keys", "busy_timeout"):
            found[pragma] = cursor.execute(f"PRAGMA {pragma}").fetchone()[0]
    assert found == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "busy_timeout": 20_000}


def test_what_was_typed_is_kept_byte_for_byte(folder: Path) -> None:
    clock = StoryClock(START)
    ledgers = ledgers_with(clock=clock)
    text, entry_id = note(words="½ turn, 0,15 “tight”")
    spaced = text.replace('"nth":1', '"nth" : 1').replace("½", "\\u00bd")
    clock.go_on(seconds=2)
    landed = ledgers.append("J-1", spaced, entry_id=entry_id, account="bench", on_head=None)
    assert (landed.id, landed.seq, landed.again) == (entry_id, 1, False)
    assert texts(ledgers) == [spaced]
    (row,) = ledgers.rows("J-1")
    entry = decode(row.line)
    assert (entry.seq, entry.account, entry.landed_at, entry.typed.id) == (1, "bench", "2026-11-25T08:00:02Z", entry_id)
    assert landed.digest == row.digest


def test_eight_threads_lose_and_reorder_nothing(folder: Path) -> None:
    ledgers = ledgers_with()
    sent = {bench: [note(n, bench=f"b{bench}") for n in range(50)] for bench in range(8)}
    failures: list[BaseException] = []

    def work(bench: int) -> None:
        try:
            for text, entry_id in sent[bench]:
                ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=None)
        except BaseException as failure:
            failures.append(failure)
        finally:
            connection.close()

    threads = [threading.Thread(target=work, args=(bench,)) for bench in sent]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failures == []
    kept = texts(ledgers)
    assert len(kept) == 400
    for bench, typed in sent.items():
        assert [text for text in kept if f'"bench":"b{bench}"' in text] == [text for text, _ in typed]


def test_the_same_bytes_land_once(folder: Path) -> None:
    ledgers = ledgers_with()
    text, entry_id = note()
    first = ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=None)
    other, other_id = note(2)
    ledgers.append("J-1", other, entry_id=other_id, account="bench", on_head=None)
    # also as a decision on a head that has moved since: it had landed
    again = ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=0)
    assert (again.seq, again.digest, again.again) == (first.seq, first.digest, True)
    assert texts(ledgers) == [text, other]


@pytest.mark.parametrize("number", ["J-1", "J-2"])
def test_the_same_id_with_other_content_is_refused(folder: Path, number: str) -> None:
    ledgers = ledgers_with()
    ledgers.open("J-2", title="Other", engine_number="E8", scope="valves", opened_at=START)
    text, entry_id = note()
    ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=None)
    other, _ = note(words="something else", entry_id=entry_id)
    with pytest.raises(Refused, match="landed before as entry 1 of job J-1"):
        ledgers.append(number, other if number == "J-1" else text, entry_id=entry_id, account="bench", on_head=None)
    assert texts(ledgers) == [text]
    assert texts(ledgers, "J-2") == []


def test_a_decision_lands_only_on_the_head_that_was_seen(folder: Path) -> None:
    ledgers = ledgers_with()
    for n in range(1, 9):
        text, entry_id = note(n)
        ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=n - 1)
    text, entry_id = note(9)
    with pytest.raises(OldHead, match="5 note") as old:
        ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=4)
    assert old.value.head == 8
    assert [problem.where for problem in old.value.problems] == ["head"]
    with pytest.raises(OldHead, match="a copy was put back"):
        ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=40)
    assert len(texts(ledgers)) == 8


def test_all_or_nothing(folder: Path) -> None:
    ledgers = ledgers_with()
    first, first_id = note()
    ledgers.append("J-1", first, entry_id=first_id, account="bench", on_head=None)
    batch = [note(n) for n in range(2, 12)]
    with pytest.raises(Refused, match="other content"):
        ledgers.append_all("J-1", (*batch, note(99, entry_id=first_id)), account="bench", on_head=1)
    with pytest.raises(Refused, match="no id of an entry"):
        ledgers.append_all("J-1", (*batch, ("{}", "17")), account="bench", on_head=1)
    assert texts(ledgers) == [first]
    landed = ledgers.append_all("J-1", tuple(batch), account="bench", on_head=1)
    assert [one.seq for one in landed] == list(range(2, 12))
    assert texts(ledgers) == [first, *(text for text, _ in batch)]
    assert all(one.again for one in ledgers.append_all("J-1", tuple(batch), account="bench", on_head=1))


def test_an_unknown_job_is_refused(folder: Path) -> None:
    ledgers = SqlLedgers(StoryClock(START))
    text, entry_id = note()
    for ask in (
        lambda: ledgers.append("nil", text, entry_id=entry_id, account="bench", on_head=None),
        lambda: ledgers.rows("nil"),
        lambda: ledgers.head("nil"),
        lambda: ledgers.note_summary("nil", state="open", scope="valves", summary="", at=1),
    ):
        with pytest.raises(Refused, match="no job nil"):
            ask()
    assert ledgers.job("nil") is None


@pytest.mark.parametrize("number", ["", " J", "J\n2", "x" * 41, "a\x00b", "../J"])
def test_a_number_that_nobody_can_read_is_refused(folder: Path, number: str) -> None:
    with pytest.raises(Refused, match="no number of a job"):
        SqlLedgers(StoryClock(START)).open(number, title="", engine_number="", scope="valves", opened_at=START)


def test_a_number_is_given_once(folder: Path) -> None:
    ledgers = ledgers_with()
    with pytest.raises(Refused, match="a job J-1 already"):
        ledgers.open("J-1", title="", engine_number="", scope="valves", opened_at=START)


def test_a_job_opens_with_its_first_entries_or_not_at_all(folder: Path) -> None:
    ledgers = ledgers_with()
    first = (note(1), note(2))
    about = {"title": "", "engine_number": "", "scope": "valves", "opened_at": START}
    ledgers.open("J-2", **about, typed=first, account="bench")
    assert texts(ledgers, "J-2") == [text for text, _ in first]
    with pytest.raises(Refused, match="landed before as entry 1 of job J-2"):
        ledgers.open("J-3", **about, typed=(note(3), first[0]), account="bench")
    assert ledgers.job("J-3") is None


def test_the_list_of_jobs_comes_in_pages_the_newest_first(folder: Path) -> None:
    ledgers = SqlLedgers(StoryClock(START))
    for n in range(5):
        opened_at = f"2026-11-25T0{n // 2}:00:00Z"
        ledgers.open(f"J-{n}", title=f"Engine {n}", engine_number=f"E{n}", scope="valves", opened_at=opened_at)
    ledgers.note_summary("J-3", state="closed", scope="cylinder", summary="done", at=7)
    ledgers.note_summary("J-3", state="open", scope="cylinder", summary="older", at=6)

    def numbers(**asked: str | int) -> list[str]:
        return [job.number for job in ledgers.jobs(**asked)]  # type: ignore[arg-type]

    assert numbers() == ["J-4", "J-3", "J-2", "J-1", "J-0"]
    assert numbers(limit=2) == ["J-4", "J-3"]
    assert numbers(limit=2, after="J-3") == ["J-2", "J-1"]
    assert numbers(search="engine 2") == ["J-2"]
    assert numbers(search="e1") == ["J-1"]
    assert numbers(state="closed") == ["J-3"]
    shown = ledgers.job("J-3")
    assert shown is not None
    assert (shown.state, shown.scope, shown.summary, shown.summary_at) == ("closed", "cylinder", "done", 7)


def _archive(ledgers: SqlLedgers) -> tuple[JobRow, tuple[Row, ...]]:
    job = ledgers.job("J-1")
    assert job is not None
    return job, ledgers.rows("J-1")


def test_a_ledger_is_taken_in_whole_and_goes_on(folder: Path, empty_file: Path, point: Callable[[Path], None]) -> None:
    ledgers = ledgers_with()
    ledgers.append_all("J-1", tuple(note(n) for n in range(3)), account="bench", on_head=0)
    job, rows = _archive(ledgers)
    with pytest.raises(Refused, match="a job J-1 already"):
        ledgers.adopt(job, rows)
    renamed = JobRow(**{name: getattr(job, name) for name in job.__slots__} | {"number": "J-7"})
    with pytest.raises(Refused, match="stands in another job already"):
        ledgers.adopt(renamed, rows)
    assert ledgers.job("J-7") is None
    elsewhere = folder / "elsewhere.sqlite3"
    elsewhere.write_bytes(empty_file.read_bytes())
    point(elsewhere)
    bent = (rows[0], Row(seq=2, line=rows[1].line.replace("note", "nose"), digest=rows[1].digest), rows[2])
    with pytest.raises(Refused, match="changed after it landed"):
        ledgers.adopt(job, bent)
    with pytest.raises(Refused, match="not numbered"):
        ledgers.adopt(job, (Row(seq=4, line=rows[0].line, digest=rows[0].digest),))
    assert ledgers.jobs() == ()
    ledgers.adopt(job, rows)
    assert _archive(ledgers) == (job, rows)
    text, entry_id = note(4)
    ledgers.append("J-1", text, entry_id=entry_id, account="bench", on_head=3)
    assert len(texts(ledgers)) == 4


def test_an_empty_ledger_has_an_empty_head(folder: Path) -> None:
    assert ledgers_with().head("J-1") == Head(seq=0, digest=bytes(32))
