"""What was not as it must be when a reading was taken: it is kept, says so, and neither releases nor condemns."""

from __future__ import annotations

import pytest

from gudgeon.demo.story import book_text, shelf_text
from gudgeon.job.entries import GoNoGo, JobOpened, Reading
from gudgeon.problem import Refused
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.heard_at import listening_at
from workbench.memory import workbench

HAND = Hand(by="k2", bench="b1")


@pytest.fixture
def bench() -> Workbench:
    wb = workbench()
    wb.put_shelf(shelf_text())
    sha = wb.add_book(book_text("corrie"), "corrie")
    wb.open_job(JobOpened(number="1", engine_number="1", scope="valves"), sha, HAND)
    return wb


def lash(*needs: str, text: str = "0.20/0.21") -> Reading:
    return Reading(measurand="lash", where="c1.ex.left", text=text, unit="mm", gauge="FEEL-1", needs=needs)


def test_a_lash_read_off_tdc_is_kept_says_so_and_is_asked_again(bench: Workbench) -> None:
    bench.record("1", [lash("cold", "not tdc", "holder")], HAND)
    seen = bench.measure("1", "lash", "c1.ex.left")
    (judged,) = (c for c in seen.judged if c.key == "lash")
    assert judged.verdict == "not measured"
    assert any("compression TDC" in note for note in judged.notes)
    assert ("lash", "c1.ex.left") in {(a.measurand, a.place) for a in seen.asks}
    bench.record("1", [lash("cold", "tdc", "holder")], HAND)
    (judged,) = (c for c in bench.measure("1", "lash", "c1.ex.left").judged if c.key == "lash")
    assert judged.value is not None
    assert not any("TDC" in note for note in judged.notes)


def test_a_condition_nobody_knows_is_refused(bench: Workbench) -> None:
    with pytest.raises(Refused, match="Nobody knows the condition warmish"):
        bench.record("1", [lash("warmish")], HAND)


def test_a_leaf_that_enters_is_a_lower_bound_and_one_that_does_not_an_upper(bench: Workbench) -> None:
    for size, enters in (("0.20", True), ("0.25", False)):
        body = GoNoGo(measurand="lash", where="c1.ex.left", gauge="FEEL-1", size=size, unit="mm", enters=enters)
        bench.record("1", [body], HAND)
    figures = [f.figure for f in bench.measure("1", "lash", "c1.ex.left").figures if f.state == "wanted"]
    assert figures == ["< 0.25"]
    assert bench.measure("1", "lash", "c1.ex.left").enters == ()


def test_a_place_where_air_is_heard_is_one_tap_and_stays_pressed(bench: Workbench) -> None:
    before = listening_at(bench, "1", "c1")
    assert [p.words for p in before][:3] == ["carburettor or intake", "exhaust", "oil filler or breather"]
    assert not any(p.heard for p in before)
    bench.record("1", [before[1].finding("c1")], HAND)
    assert [p.words for p in listening_at(bench, "1", "c1") if p.heard] == ["exhaust"]
