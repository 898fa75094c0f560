"""Published wear of marine engine liners, told visit by visit: when the next measurement falls due, and what came of it."""

from __future__ import annotations

import numpy as np
import pytest
import statsmodels.api as sm

from gudgeon.demo.story import book_text, shelf_text
from gudgeon.job.entries import EarlierPinned, JobOpened, Past, Reading
from gudgeon.view.job import LineView, PlanView
from gudgeon.workbench.bench import Hand, Workbench
from workbench.memory import workbench

HAND = Hand(by="k2", bench="b1")
#: Hours and mm, limit 4 mm (Giorgio, Guida and Pulcini, Technometrics; data set `liner` of the R package BCA1SG).
LINER_1 = ((11300, "0.90"), (14680, "1.30"), (31270, "2.85"))
LINER_2 = ((11360, "0.80"), (17200, "1.35"))
LINER_25 = ((12000, "1.95"), (27300, "2.70"), (49500, "3.15"), (56120, "4.05"))
LIMIT = 4.0
AT = "ring_gap@c1.ring.top"

Story = tuple[tuple[int, str], ...]


@pytest.fixture
def bench() -> Workbench:
    """A book whose top ring gap may grow to 4 mm, so that the published numbers can be typed as they stand."""
    wb = workbench()
    wb.put_shelf(shelf_text())
    return wb


def told(wb: Workbench, liner: Story, *families: Story) -> PlanView:
    """The plan at the last visit of a liner, its earlier ones and those of its family taken in."""
    top = 'new = ["0.20 mm", "0.30 mm"]\nmost = "0.60 mm"'
    text = book_text("corrie")
    assert text.count(top) == 1
    sha = wb.add_book(text.replace(top, 'new = ["0.20 mm", "0.30 mm"]\nmost = "4.00 mm"'), "corrie")
    (hours, last), earlier = liner[-1], liner[:-1]
    wb.open_job(JobOpened(number="1", engine_number="1", scope="cylinder", hours=f"{hours} h"), sha, HAND)
    pins = [pin("engine", "1", visit) for visit in earlier]
    pins += [pin("family", f"F{n}", visit) for n, one in enumerate(families) for visit in one]
    wb.record("1", pins, HAND)
    read = Reading(measurand="ring_gap", where="c1.ring.top", text=last, unit="mm", gauge="FEEL-1",
                   needs=("clean", "room"))  # fmt: skip
    wb.record("1", [read], HAND)
    plan = wb.view("1").plan("interval")
    assert plan is not None
    return plan


def pin(of: str, engine: str, visit: tuple[int, str]) -> EarlierPinned:
    hours, text = visit
    return EarlierPinned(job=f"{engine}-{hours}", on=f"{1900 + hours // 1000}-01-01", engine=engine, hours=f"{hours} h",
                         of="engine" if of == "engine" else "family", rows=(Past(address=AT, left=text, u="0.003"),))  # fmt: skip


def due(plan: PlanView) -> tuple[float, LineView]:
    line = next(x for x in plan.lines if x.numbers["key"] == "ring_gap")
    hours = line.numbers["due_h"]
    assert isinstance(hours, float)
    return hours, line


def edge(lives: tuple[Story, ...], which: int, at: float) -> float:
    """The most that the next reading may be, 1 in 20 above it, by another's least squares with a column for each life."""
    rows, sizes = [], []
    for n, life in enumerate(lives):
        for hours, text in life:
            rows.append([hours, *(float(n == k) for k in range(len(lives)))])
            sizes.append(float(text))
    there = [[at, *(float(which == k) for k in range(len(lives)))]]
    fit = sm.OLS(np.array(sizes), np.array(rows)).fit()
    return float(fit.get_prediction(there).conf_int(obs=True, alpha=0.10)[0][1])


@pytest.mark.authority
def test_liner_1_is_due_where_its_next_reading_may_touch_the_limit(bench: Workbench) -> None:
    at, line = due(told(bench, LINER_1))
    assert line.numbers["by"] == "engine"
    assert 31_270.0 < at < 43_140.5  # where its line itself meets 4 mm
    assert edge((LINER_1,), 0, at) == pytest.approx(LIMIT, abs=1e-6)


@pytest.mark.authority
def test_liner_2_has_two_readings_and_borrows_the_slope_of_its_family(bench: Workbench) -> None:
    alone = told(bench, LINER_2)
    assert alone.lines == ()
    assert "too little to say" in alone.reasons[0]


@pytest.mark.authority
def test_liner_2_with_its_family_is_looked_at_no_further_ahead_than_another_was_watched(bench: Workbench) -> None:
    at, line = due(told(bench, LINER_2, LINER_1))
    assert (line.numbers["by"], line.numbers["readings"], line.numbers["lives"]) == ("family", 5, 2)
    assert at == 17_200.0 + (31_270.0 - 11_300.0)
    assert edge((LINER_2, LINER_1), 0, at) < LIMIT


@pytest.mark.authority
def test_liner_25_would_have_been_looked_at_before_it_was_past_its_limit(bench: Workbench) -> None:
    at, _line = due(told(bench, LINER_25[:-1]))
    assert edge((LINER_25[:-1],), 0, 49_500.0) > LIMIT  # so doubtful a line calls at once
    assert at == 49_500.0 < 56_120.0


@pytest.mark.authority
def test_liner_25_past_its_limit_is_due_as_read_though_its_line_reaches_the_limit_5_000_hours_later(
    bench: Workbench,
) -> None:
    plan = told(bench, LINER_25)
    at, line = due(plan)
    assert (at, line.numbers["by"]) == (56_120.0, "reading")
    assert plan.reasons[0].startswith("past its limit as read: ring gap")
