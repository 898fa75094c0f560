"""Pain 4: lash measured or set at the wrong top dead centre."""

from __future__ import annotations

import pytest
from tests.pains.engines import EX, IN, LAYOUTS, SHIMMED, Job

from gudgeon.job.entries import HoldPassed


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_the_condition_stands_beside_every_lash(layout: str) -> None:
    job = Job(layout, "valves")
    seen = job.bench.measure(job.number, "lash", IN)
    assert any("compression TDC" in need for need in seen.needs)


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
@pytest.mark.parametrize("scope", ["cylinder", "head out", "whole top end"])
def test_marks_and_closing_intake_are_asked_before_anything_comes_off(layout: str, scope: str) -> None:
    hold = Job(layout, scope).hold("H2")
    assert hold.state == "open"
    assert any("intake just closed" in ask for ask in hold.asks)


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_two_readings_that_cannot_both_be_right_stop_the_job(layout: str) -> None:
    """On the wrong stroke the cam holds the valve half open; read again at the right one, both stand until one goes."""
    job = Job(layout, "valves")
    job.read("lash", IN, "0.03/0.04")
    job.read("lash", IN, "0.13/0.14")
    job.read("lash", EX, "0.23/0.24")
    assert any("contradict" in p.what for p in job.view.problems)
    assert f"lash@{IN}" in job.refuses(HoldPassed(hold="H10"))
    wrong = next(e.seq for e in job.view.entries if e.fact == "reading")
    job.bench.retract(job.number, wrong, "read at the exhaust's top dead centre", job.hand)
    job.sign("H10")
    assert job.hold("H10").state == "passed"


@pytest.mark.parametrize("layout", SHIMMED)
def test_a_lash_that_shim_and_older_lash_do_not_explain_is_not_believed(layout: str) -> None:
    """Read right, same shim back in, read at the wrong stroke: in its window by luck, and still against the ledger."""
    job = Job(layout, "valves")
    job.read("lash", IN, "0.05/0.06")
    job.read("lash", EX, "0.23/0.24")
    job.cams_out()
    for valve in (IN, EX):
        job.read("shim_thickness", valve, "2.000")
    job.closed_and_proved()
    assert job.at(f"lash@{IN}").verdict == "in setting"
    assert f"lash@{IN}" in job.refuses(HoldPassed(hold="H10"))


@pytest.mark.parametrize("layout", SHIMMED)
def test_no_gap_at_the_wrong_stroke_gives_no_shim(layout: str) -> None:
    job = Job(layout, "valves")
    job.read("lash", IN, "no gap")
    job.read("lash", EX, "0.23/0.24")
    job.cams_out()
    for valve in (IN, EX):
        job.read("shim_thickness", valve, "2.000")
    plan = job.plan("shims")
    assert plan.state == "impossible"
    assert not any(line.numbers.get("moved") for line in plan.lines)
    assert any("no gap gives no number" in why for why in plan.reasons)
