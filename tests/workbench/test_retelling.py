"""A crash between an entry and its line in the list: the next listing tells that line anew."""

from __future__ import annotations

from pathlib import Path

import pytest

from gudgeon.job.entries import JobClosed, JobOpened, Note
from gudgeon.problem import refuse
from gudgeon.workbench.bench import RETOLD_AT_ONCE, Hand, Workbench
from workbench.memory import workbench

BOOK = Path(__file__).resolve().parents[2] / "src/gudgeon/demo/books/corrie.toml"
HAND = Hand(by="k3", bench="b2")
NUMBERS = tuple(str(n) for n in range(1, RETOLD_AT_ONCE + 3))


@pytest.fixture
def bench() -> Workbench:
    wb = workbench()
    sha = wb.add_book(BOOK.read_text(encoding="utf-8"))
    for number in NUMBERS:
        wb.open_job(JobOpened(number=number, engine_number="0500", scope="valves"), sha, HAND)
    return wb


def leave_untold(bench: Workbench, number: str, body: Note | JobClosed) -> None:
    """The power fails after the append: the entry stands, its line in the list is the one before."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(bench, "summarise", lambda number: None)
        bench.record(number, (body,), HAND)


def untold(bench: Workbench) -> list[str]:
    return [row.number for row in bench.ledgers.jobs() if row.summary_at < row.head]


def test_the_list_tells_what_was_left_untold(bench: Workbench) -> None:
    leave_untold(bench, "1", JobClosed(outcome="stopped", reason="the owner sold it"))
    assert untold(bench) == ["1"]
    row = next(r for r in bench.jobs() if r.number == "1")
    assert (row.state, row.summary_at) == (bench.view("1").job.state, row.head)
    assert row.state != "open"
    assert untold(bench) == []


def test_a_few_at_once_and_the_rest_at_the_next_listing(bench: Workbench) -> None:
    for number in NUMBERS:
        leave_untold(bench, number, Note(words="cold"))
    bench.jobs()
    assert len(untold(bench)) == len(NUMBERS) - RETOLD_AT_ONCE
    bench.jobs()
    assert untold(bench) == []


def test_a_told_list_replays_nothing_and_a_job_that_cannot_be_read_is_still_listed(
    bench: Workbench, monkeypatch: pytest.MonkeyPatch
) -> None:
    leave_untold(bench, "2", Note(words="cold"))

    def broken(number: str) -> None:
        raise refuse(f"job {number}", "Its book is gone.", "Add the book.")

    asked: list[str] = []
    with monkeypatch.context() as patch:
        patch.setattr(bench, "summarise", broken)
        assert len(bench.jobs()) == len(NUMBERS)
    bench.jobs()
    monkeypatch.setattr(bench, "summarise", asked.append)
    bench.jobs()
    assert asked == []
