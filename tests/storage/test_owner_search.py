"""A job is found by its owner's name, which no ledger holds; forgotten, it is found no more."""

from __future__ import annotations

from pathlib import Path

from gudgeon.job.entries import JobOpened
from gudgeon.wiring.bench import workbench
from gudgeon.workbench.bench import Hand

BOOK = Path(__file__).resolve().parents[2] / "src/gudgeon/demo/books/corrie.toml"


def test_a_job_is_found_by_the_name_of_its_owner(folder: Path) -> None:
    bench = workbench()
    sha = bench.add_book(BOOK.read_text(encoding="utf-8"))
    for number, owner in (("7", "o-7"), ("8", "o-8"), ("9", "")):
        opened = JobOpened(number=number, engine_number="0500", scope="valves", owner=owner)
        bench.open_job(opened, sha, Hand(by="k3", bench="b2"))
    bench.people.put("o-7", name="Ida Ternhaug")
    bench.people.put("o-8", name="Jon Falk")
    assert [row.number for row in bench.jobs(search="ternhaug")] == ["7"]
    assert [row.number for row in bench.jobs(search="falk 0500")] == ["8"]
    bench.people.forget("o-7")
    assert bench.jobs(search="ternhaug") == ()
