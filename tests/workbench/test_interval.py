"""Wear over hours, from job to job: when to look again, by whose wear, and what is left out or never overruled."""

from __future__ import annotations

import pytest

from gudgeon.demo.story import book_text, shelf_text
from gudgeon.job.entries import EarlierPinned, JobOpened, PartFitted, PartReceived, Reading
from gudgeon.problem import Refused
from gudgeon.view.job import PlanView
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.history import open_known, take_earlier, take_family
from gudgeon.workbench.recording import recorded
from workbench.memory import workbench

HAND = Hand(by="k2", bench="b1")
#: Top ring gap, most 0.55 in the book: a reading at each of a row of jobs.
GAP, PLACE = "ring_gap", "c1.ring.top"


@pytest.fixture
def bench() -> Workbench:
    wb = workbench()
    wb.put_shelf(shelf_text())
    wb.add_book(book_text("corrie"), "corrie")
    return wb


def visit(wb: Workbench, number: str, hours: str, *gaps: str, engine: str = "0417", renew: bool = False) -> str:
    """A job at these hours; the gap as it came in, and, renewed, as it was left."""
    sha = wb.add_book(book_text("corrie"), "corrie")
    opened = JobOpened(number=number, engine_number=engine, scope="cylinder", hours=hours)
    open_known(wb, opened, sha, HAND, another_meter=True)
    for n, gap in enumerate(gaps):
        if renew and n == 1:
            part = wb.record(number, [PartReceived(kind="ring")], HAND)[0].id
            wb.record(number, [PartFitted(part=part, slot=f"{PLACE}/ring")], HAND)
        read = Reading(measurand=GAP, where=PLACE, text=gap, unit="mm", gauge="FEEL-1", needs=("clean", "room"))
        wb.record(number, [read], HAND)
    return number


def interval(wb: Workbench, number: str) -> PlanView:
    plan = wb.view(number).plan("interval")
    assert plan is not None
    return plan


def test_three_visits_say_when_to_look_again(bench: Workbench) -> None:
    for number, hours, gap in (("1", "100 h", "0.25"), ("2", "200 h", "0.30"), ("3", "300 h", "0.35")):
        visit(bench, number, hours, gap)
    line = next(x for x in interval(bench, "3").lines if x.numbers["key"] == GAP)
    assert line.numbers["rate_per_100_h"] == pytest.approx(0.05)
    assert (line.numbers["readings"], line.numbers["lives"], line.numbers["by"]) == (3, 1, "engine")
    due = line.numbers["due_h"]
    assert isinstance(due, float) and 300 < due <= 500  # no further ahead than 200 h were looked back
    assert interval(bench, "3").reasons[0].startswith(f"measure again by {int(due)} h: ring gap")


def test_the_first_visits_say_that_they_are_too_few(bench: Workbench) -> None:
    visit(bench, "1", "100 h", "0.25")
    assert "no earlier job" in interval(bench, "1").reasons[0]
    visit(bench, "2", "200 h", "0.30")
    plan = interval(bench, "2")
    assert (plan.state, plan.lines) == ("nothing to do", ())
    assert "too little to say" in plan.reasons[0]


def test_wear_near_the_limit_is_due_before_as_far_as_was_looked_back(bench: Workbench) -> None:
    for number, hours, gap in (("1", "100 h", "0.31"), ("2", "200 h", "0.40"), ("3", "300 h", "0.49")):
        visit(bench, number, hours, gap)
    limit = bench.view("3").at(f"{GAP}@{PLACE}")
    assert limit is not None and limit.high is not None
    due = next(x.numbers["due_h"] for x in interval(bench, "3").lines if x.numbers["key"] == GAP)
    meets = 300.0 + 100.0 * (limit.high - 0.49) / 0.09
    assert isinstance(due, float) and 300.0 <= due < meets


def test_a_renewed_ring_starts_anew_and_lends_its_rate(bench: Workbench) -> None:
    visit(bench, "1", "100 h", "0.25")
    visit(bench, "2", "300 h", "0.35", "0.25", renew=True)
    visit(bench, "3", "400 h", "0.30")
    line = next(x for x in interval(bench, "3").lines if x.numbers["key"] == GAP)
    assert line.numbers["rate_per_100_h"] == pytest.approx(0.05)
    assert (line.numbers["readings"], line.numbers["lives"]) == (4, 2)


def test_a_measured_breach_is_due_now_whatever_a_line_says(bench: Workbench) -> None:
    for number, hours, gap in (("1", "100 h", "0.25"), ("2", "200 h", "0.26"), ("3", "300 h", "0.90")):
        visit(bench, number, hours, gap)
    line = next(x for x in interval(bench, "3").lines if x.numbers["key"] == GAP)
    assert (line.numbers["due_h"], line.numbers["by"]) == (300.0, "reading")
    assert "hours say nothing against a reading" in line.because[0]


def test_hours_that_run_backwards_leave_out_what_was_before(bench: Workbench) -> None:
    for number, hours, gap in (("1", "900 h", "0.25"), ("2", "200 h", "0.30"), ("3", "300 h", "0.35")):
        visit(bench, number, hours, gap)
    plan = interval(bench, "3")
    assert plan.lines == ()
    assert any("job 1 had 900 h and a later one 200 h" in reason for reason in plan.reasons)


def test_without_hours_there_is_no_wear_over_them(bench: Workbench) -> None:
    visit(bench, "1", "", "0.25")
    assert "hours were not written down" in interval(bench, "1").reasons[0]


def test_the_family_is_asked_only_where_the_engine_says_too_little(bench: Workbench) -> None:
    for engine in ("A", "B"):
        for n, (hours, gap) in enumerate((("100 h", "0.25"), ("200 h", "0.30"), ("300 h", "0.36"))):
            visit(bench, f"{engine}{n}", hours, gap, engine=engine)
    visit(bench, "9", "150 h", "0.28")
    assert interval(bench, "9").lines == ()
    assert take_family(bench, "9", HAND) == 6
    line = next(x for x in interval(bench, "9").lines if x.numbers["key"] == GAP)
    assert (line.numbers["by"], line.numbers["lives"]) == ("family", 3)
    assert line.numbers["rate_per_100_h"] == pytest.approx(0.055)
    assert "of its family" in line.because[0]


def test_the_same_engine_is_known_however_its_number_is_written(bench: Workbench) -> None:
    visit(bench, "1", "100 h", "0.25", engine="AB-12")
    sha = bench.add_book(book_text("corrie"), "corrie")
    open_known(bench, JobOpened(number="2", engine_number="ab 12", scope="cylinder", hours="200 h"), sha, HAND)
    assert [fact.job for fact in bench.worked("2").given.state.earlier.values()] == ["1"]


def test_taken_twice_it_stands_once_and_a_job_alone_has_no_family(bench: Workbench) -> None:
    visit(bench, "1", "100 h", "0.25")
    visit(bench, "2", "200 h", "0.30")
    head = bench.ledgers.head("2").seq
    take_earlier(bench, "2", HAND)
    assert bench.ledgers.head("2").seq == head
    assert sum(isinstance(e.typed.body, EarlierPinned) for e in bench.loaded("2").entries) == 1
    with pytest.raises(Refused, match="No other engine of Corrie 371"):
        take_family(bench, "2", HAND)


def test_record_and_papers_draw_it(bench: Workbench) -> None:
    for number, hours, gap in (("1", "100 h", "0.25"), ("2", "200 h", "0.30"), ("3", "300 h", "0.35")):
        visit(bench, number, hours, gap)
    wear = recorded(bench.worked("3")).record.wear
    assert [w.address for w in wear] == [f"{GAP}@{PLACE}"]
    assert [h for h, _ in wear[0].drawn.now] == [100.0, 200.0, 300.0]
    assert wear[0].drawn.line[-1][0] >= wear[0].due
