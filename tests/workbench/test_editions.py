"""Editions of a book: kept, shown with what differs, and a job put on another one by an entry of its own."""

from __future__ import annotations

import pytest
from tests.workbench.shop import BOOK, HAND, JOB, read, shop

from gudgeon.problem import Refused
from gudgeon.workbench.adding import own_of
from gudgeon.workbench.editions import editions, if_pinned, pin, shown

NEWER = BOOK.replace('least = "0.12 mm"', 'least = "0.10 mm"').replace(
    'name = "Brackley 410"', 'name = "Brackley 410"\nedition = "2"'
)


def test_a_job_stays_on_its_edition_until_it_is_pinned() -> None:
    bench = shop("valves")
    bench.record(JOB, [read("lash", "c1.in", "0.10/0.11", "feel")], HAND)
    sha = bench.add_book(NEWER)

    def word() -> str:
        return next(c.verdict for c in bench.view(JOB).characteristics if c.address == "lash@c1.in")

    assert word() == "tight"
    differs = [str(d) for d in if_pinned(bench, JOB, sha)]
    assert differs == ["limit lash in, least: 0.12 mm → 0.10 mm", "book, edition: – → 2"]
    assert word() == "tight", "looking changes nothing"
    landed = pin(bench, JOB, sha, HAND)
    assert word() != "tight"
    assert [(e.edition, e.this) for e in editions(bench.library, NEWER)] == [("2", True), ("1", False)]
    bench.retract(JOB, landed.seq, "the old page is right", HAND)
    assert word() == "tight"


def test_a_book_of_another_engine_or_the_same_edition_is_refused() -> None:
    bench = shop("valves")
    with pytest.raises(Refused, match="on this edition already"):
        pin(bench, JOB, bench.loaded(JOB).book(), HAND)
    single = BOOK.replace("cylinders = 2", "cylinders = 1").replace('"inline"', '"single"')
    with pytest.raises(Refused, match="has no cylinder 2"):
        pin(bench, JOB, bench.add_book(single), HAND)
    with pytest.raises(Refused, match="No book with the digest"):
        pin(bench, JOB, "0" * 64, HAND)


def test_a_book_as_json_says_its_places_in_words() -> None:
    assert shown(BOOK).slots["c2.in/shim"] == "cylinder 2 intake shim"


def test_cells_become_an_own_thing_or_are_refused() -> None:
    cells = {"name": "reed petal gap", "at": "c1/piston", "unit": "mm", "gauge": "feeler", "new": "0.05–0.10",
             "points": "left, right", "setting": "no", "page": ""}  # fmt: skip
    own = own_of("measure", cells)
    assert own.row == {"name": "reed petal gap", "at": "c1/piston", "unit": "mm", "gauge": "feeler",
                       "new": ("0.05 mm", "0.10 mm"), "points": ("left", "right"), "setting": False}  # fmt: skip
    shop("valves").record(JOB, [own], HAND)
    for kind, wrong, said in (
        ("gadget", {}, "is nothing that can be added"),
        ("measure", {"nam": "x"}, "Did you mean name?"),
        ("check", {"holds": "maybe"}, "neither yes nor no"),
    ):
        with pytest.raises(Refused) as refused:
            own_of(kind, wrong)
        assert said in str(refused.value)
