"""Pain 9: a vague order to the machine shop, and a head that comes back with its tips too high."""

from __future__ import annotations

import pytest
from tests.pains.engines import EX, IN, LAYOUTS, SHIMMED, Job

from gudgeon.job.entries import Disposition, HoldPassed, Ordered


def stripped(layout: str, **engine: str) -> Job:
    """Lash, shims, tips and heights read, the intake seat to be cut."""
    job = Job(layout, "head out", **engine)
    job.read("lash", IN, "0.13/0.14")
    job.read("lash", EX, "0.23/0.24")
    job.cams_out()
    job.do("loosen_head", "head")
    for valve in (IN, EX):
        if layout in SHIMMED:
            job.read("shim_thickness", valve, "2.000")
        job.read("tip_height", valve, "40.000")
        job.read("installed_height", valve, "28.00")
    job.write(Disposition(part=f"orig:{IN}/seat", what="machine", reason="1.6 wide"))
    return job


@pytest.mark.parametrize("layout", SHIMMED)
def test_the_bounds_have_two_sides_in_what_the_machinist_can_measure(layout: str) -> None:
    """H = i·0.135 + 40 + 2: thickest 2.60 at 0.16 below, thinnest 1.50 at 0.10 above; the height allows 40.30 of a fresh cut."""
    ratio = LAYOUTS[layout][3]
    cut = stripped(layout).plan("machining").machines[0]
    stack = ratio * 0.135 + 42.0
    assert cut.low_mm == pytest.approx(stack - ratio * 0.16 - 2.60, abs=0.006)
    assert cut.never_over_mm is not None and cut.never_over_mm < stack - ratio * 0.10 - 1.50
    assert cut.high_mm == pytest.approx(40.30)
    assert any("tip 3" in line and "never over 40" in line for line in cut.because)


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_the_order_says_what_to_reach_what_goes_along_and_what_comes_back(layout: str) -> None:
    cut = stripped(layout, coated="true").plan("machining").machines[0]
    assert cut.high_mm is not None
    assert any("width" in line for line in cut.to_reach)
    assert any("no spacers of yours" in line for line in cut.to_reach)
    assert any("coated" in line for line in cut.forbidden)
    assert any("untouched" in line for line in cut.forbidden)
    assert any(line.startswith("valve, marked") for line in cut.encloses)
    assert {"tip_height", "seat_width"} <= set(cut.measures)


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_seat_without_readings_gets_no_bounds_and_says_which_are_missing(layout: str) -> None:
    job = Job(layout, "head out")
    job.write(Disposition(part=f"orig:{IN}/seat", what="machine", reason="wide"))
    plan = job.plan("machining")
    assert plan.state == "waits"
    assert f"tip_height@{IN}" in plan.needs


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_tip_over_what_was_agreed_does_not_pass_the_incoming_check(layout: str) -> None:
    """40.45 is under the book's 40.90 and over the agreed 40.30: somebody decides before one-use bolts are down."""
    job = stripped(layout)
    words = "tip 39.40 to 40.30, never over 40.40"
    job.write(Ordered(order="M-1", kind="machining", words={"intake": words}))
    job.do("sent_out", "head/head")
    job.do("cut_seat", IN)
    job.do("came_back", "head/head", order="M-1")
    assert f"tip_height@{IN}" in job.plan("machining").needs
    job.read("tip_height", IN, "40.450")
    plan = job.plan("machining")
    assert plan.lines[0].numbers["broken"] == "over"
    ways = {line.numbers.get("way") for line in plan.lines}
    assert {"new insert", "tip grinding"} <= ways
    assert f"tip_height@{IN}" in job.refuses(HoldPassed(hold="H6"))


@pytest.mark.parametrize("layout", SHIMMED)
def test_the_bounds_move_with_what_they_rest_on(layout: str) -> None:
    low = stripped(layout).plan("machining").machines[0].low_mm
    job = Job(layout, "head out")
    job.read("lash", IN, "0.23/0.24")
    job.read("lash", EX, "0.23/0.24")
    job.cams_out()
    job.read("shim_thickness", IN, "2.000")
    job.read("tip_height", IN, "40.000")
    job.read("installed_height", IN, "28.00")
    job.write(Disposition(part=f"orig:{IN}/seat", what="machine", reason="wide"))
    moved = job.plan("machining").machines[0].low_mm
    assert low is not None and moved == pytest.approx(low + LAYOUTS[layout][3] * 0.10, abs=0.011)
