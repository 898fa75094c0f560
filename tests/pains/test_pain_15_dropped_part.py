"""Pain 15: a keeper in the chain tunnel, or grit of the lapping, and the engine is turned."""

from __future__ import annotations

import pytest
from tests.pains.engines import IN, LAYOUTS, Job

from gudgeon.job.entries import HoldPassed, OperationDone

TURN = OperationDone(operation="turn_forwards", where="engine", detail={"turns": "2"})


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_nothing_turns_and_nothing_else_comes_next_until_it_is_found(layout: str) -> None:
    job = Job(layout)
    job.do("dropped_in", what="one keeper")
    assert "dropped into the engine" in job.refuses(TURN)
    assert job.view.next.address == "H0b"
    for hold in ("H0b", "H7b", "H10", "H12"):
        assert "dropped into the engine" in job.refuses(HoldPassed(hold=hold))
    job.do("found", what="one keeper, whole")
    job.write(TURN)
    job.sign("H0b")
    assert job.hold("H0b").state == "passed"


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_two_that_fell_in_are_two_that_are_found(layout: str) -> None:
    job = Job(layout)
    job.do("dropped_in", what="keeper")
    job.do("dropped_in", what="keeper")
    job.do("found", what="keeper")
    assert "dropped into the engine" in job.refuses(TURN)


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_rags_are_counted_out_before_the_barrel_goes_on(layout: str) -> None:
    job = Job(layout)
    job.do("rag_in", count="2")
    job.do("rag_out", count="1")
    assert "rags still counted inside" in job.refuses(HoldPassed(hold="H7b"))
    job.do("rag_out", count="1")
    assert not any("rags" in need for need in job.hold("H7b").needs)


@pytest.mark.parametrize("work", ["cut_seat", "lap_valve", "ream_guide"])
@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_grit_of_the_shop_is_washed_off_after_the_last_cut(layout: str, work: str) -> None:
    job = Job(layout)
    job.do("wash")
    job.do(work, IN)
    assert any(need.startswith("not washed since") for need in job.hold("H6").needs), "washed before is not washed"
    job.do("wash")
    assert not any(need.startswith("not washed since") for need in job.hold("H6").needs)


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_honed_bore_is_washed_before_its_piston_goes_in(layout: str) -> None:
    job = Job(layout)
    job.do("hone", "c1")
    assert any(need.startswith("not washed since") for need in job.hold("H7a").needs)
