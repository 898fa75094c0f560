"""When to look again in the awkward cases: renewed here or elsewhere, judged by a pin, overdue, or known too little."""

from __future__ import annotations

import pytest

from gudgeon.demo.story import book_text, shelf_text
from gudgeon.job.entries import GoNoGo, JobOpened, PartFitted, PartReceived, Reading
from gudgeon.papers.blocks import Figure, Together
from gudgeon.papers.kinds import technical_record
from gudgeon.papers.owner import next_due
from gudgeon.problem import Refused
from gudgeon.view.job import LineView, PlanView
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.history import open_known
from gudgeon.workbench.recording import recorded
from workbench.memory import workbench

HAND = Hand(by="k2", bench="b1")
#: Top ring gap: new 0.20 to 0.30, most 0.60 in the book.
TOP, SECOND = "c1.ring.top", "c1.ring.second"


@pytest.fixture
def bench() -> Workbench:
    wb = workbench()
    wb.put_shelf(shelf_text())
    return wb


def opened(wb: Workbench, number: str, hours: str) -> str:
    sha = wb.add_book(book_text("corrie"), "corrie")
    return open_known(wb, JobOpened(number=number, engine_number="0417", scope="cylinder", hours=hours), sha, HAND)


def read(wb: Workbench, number: str, text: str, where: str = TOP) -> None:
    wb.record(number, [Reading(measurand="ring_gap", where=where, text=text, unit="mm", gauge="FEEL-1",
                               needs=("clean", "room"))], HAND)  # fmt: skip


def renew(wb: Workbench, number: str, where: str = TOP) -> None:
    part = wb.record(number, [PartReceived(kind="ring")], HAND)[0].id
    wb.record(number, [PartFitted(part=part, slot=f"{where}/ring")], HAND)


def visits(wb: Workbench, *gaps: str) -> None:
    for n, gap in enumerate(gaps, 1):
        opened(wb, str(n), f"{n}00 h")
        read(wb, str(n), gap)


def interval(wb: Workbench, number: str) -> PlanView:
    plan = wb.view(number).plan("interval")
    assert plan is not None
    return plan


def line(plan: PlanView, where: str = TOP) -> LineView:
    return next(x for x in plan.lines if x.where == where and x.numbers["key"] == "ring_gap")


def test_a_part_renewed_today_runs_to_the_wear_limit_not_to_the_end_of_its_new_range(bench: Workbench) -> None:
    visits(bench, "0.25", "0.30", "0.35")
    opened(bench, "4", "400 h")
    read(bench, "4", "0.42")
    renew(bench, "4")
    read(bench, "4", "0.25")
    found = line(interval(bench, "4"))
    assert (found.numbers["limit_low"], found.numbers["limit_high"]) == (None, 0.60)
    assert found.numbers["due_h"] == 700.0  # as far ahead as the old ring was watched
    wear = recorded(bench.worked("4")).record.wear
    assert (wear[0].drawn.low, wear[0].drawn.high) == (None, 0.60)


def test_a_breach_shown_by_a_pin_is_due_now_at_the_hours_of_today(bench: Workbench) -> None:
    visits(bench, "0.25", "0.30", "0.35")
    opened(bench, "4", "400 h")
    bench.record(
        "4", [GoNoGo(measurand="ring_gap", where=TOP, gauge="FEEL-1", size="0.65", unit="mm", enters=True)], HAND
    )
    found = line(interval(bench, "4"))
    assert (found.numbers["due_h"], found.numbers["by"]) == (400.0, "reading")


def test_a_breach_in_a_first_job_needs_no_hours_to_be_due(bench: Workbench) -> None:
    opened(bench, "1", "100 h")
    read(bench, "1", "0.90")
    plan = interval(bench, "1")
    assert plan.reasons[0] == "past its limit as read: ring gap, ring top"
    assert line(plan).numbers["due_h"] == 100.0


def test_a_breach_left_by_the_job_before_stays_one_until_something_else_is_read(bench: Workbench) -> None:
    visits(bench, "0.25", "0.26", "0.27", "0.28", "0.29", "0.61")
    opened(bench, "7", "650 h")
    found = line(interval(bench, "7"))
    assert (found.numbers["due_h"], found.numbers["by"]) == (600.0, "reading")


def test_what_was_renewed_elsewhere_counts_as_another_part_and_is_named(bench: Workbench) -> None:
    visits(bench, "0.25", "0.35", "0.25", "0.34")
    plan = interval(bench, "4")
    assert line(plan).numbers["lives"] == 2
    assert line(plan).numbers["rate_per_100_h"] == pytest.approx(0.095)
    assert any("less worn at 300 h than at 200 h" in reason for reason in plan.reasons)


def test_what_this_workshop_renewed_is_not_taken_for_another_part(bench: Workbench) -> None:
    opened(bench, "1", "100 h")
    read(bench, "1", "0.45")
    opened(bench, "2", "200 h")
    read(bench, "2", "0.55")
    renew(bench, "2")
    read(bench, "2", "0.25")
    opened(bench, "3", "300 h")
    read(bench, "3", "0.35")
    plan = interval(bench, "3")
    assert line(plan).numbers["rate_per_100_h"] == pytest.approx(0.10)
    assert not any("renewed elsewhere" in reason for reason in plan.reasons)


def test_an_engine_that_came_too_late_is_told_so(bench: Workbench) -> None:
    visits(bench, "0.31", "0.40", "0.49")
    opened(bench, "4", "900 h")
    plan = interval(bench, "4")
    at = line(plan).numbers["due_h"]
    assert isinstance(at, float) and 300.0 < at < 900.0
    assert plan.reasons[0] == f"measure now: ring gap, ring top; it was due by {int(at)} h"
    assert "overdue" in line(plan).because[-1]


def test_what_is_known_too_little_is_named_beside_what_is_known(bench: Workbench) -> None:
    visits(bench, "0.25", "0.30", "0.35")
    bench.record("3", [Reading(measurand="side_clearance", where=TOP, text="0.05", unit="mm", gauge="FEEL-1",
                               needs=("clean",))], HAND)  # fmt: skip
    reasons = interval(bench, "3").reasons
    assert any("too little to say" in reason and "side clearance" in reason for reason in reasons)
    assert any("maker's manual" in reason for reason in reasons)


def test_cylinders_and_rings_that_share_a_limit_share_their_wear_and_no_others_do(bench: Workbench) -> None:
    """The second ring has a row of its own: the top ring's three visits say nothing of it."""
    visits(bench, "0.25", "0.30", "0.35")
    read(bench, "3", "0.40", SECOND)
    plan = interval(bench, "3")
    assert all(found.where != SECOND for found in plan.lines)


def test_fewer_hours_than_the_job_before_are_asked_back_and_open_nothing(bench: Workbench) -> None:
    visits(bench, "0.25", "0.30")
    with pytest.raises(Refused) as refused:
        opened(bench, "3", "30 h")
    (problem,) = refused.value.problems
    assert problem.where == "hours"
    assert problem.what.words() == "30 h are fewer than the 200 h that this engine had in job 2."
    assert "another meter" in problem.remedy.words()
    assert bench.ledgers.job("3") is None
    opened(bench, "3", "200 h")
    opened(bench, "4", "")


def test_another_meter_is_believed_and_nothing_of_the_first_one_is_joined_to_it(bench: Workbench) -> None:
    visits(bench, "0.25", "0.30", "0.35")
    sha = bench.add_book(book_text("corrie"), "corrie")
    again = JobOpened(number="4", engine_number="0417", scope="cylinder", hours="5 h")
    open_known(bench, again, sha, HAND, another_meter=True)
    read(bench, "4", "0.36")
    plan = interval(bench, "4")
    assert plan.lines == ()
    assert any("another meter" in reason for reason in plan.reasons)


def test_the_papers_say_when_to_look_again_and_draw_why(bench: Workbench) -> None:
    visits(bench, "0.25", "0.30", "0.35")
    view = recorded(bench.worked("3"))
    (first,) = [words for words in next_due(view) if "wear" in words]
    assert first.startswith("By its wear so far: measure again by 500 h: ring gap")
    drawn = [b for b in technical_record.blocks(view) if isinstance(b, Together) and isinstance(b.blocks[0], Figure)]
    figure = next(b.blocks[0] for b in drawn if isinstance(b.blocks[0], Figure) and "ring gap" in b.blocks[0].alt)
    assert "due by 500 h" in figure.alt and "500 h" in figure.svg
