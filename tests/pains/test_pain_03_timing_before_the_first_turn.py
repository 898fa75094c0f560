"""Pain 3: cam timing or tensioner wrong when the starter turns."""

from __future__ import annotations

import pytest
from tests.pains.engines import CHAINED, EX, IN, LAYOUTS, Job

from gudgeon.job.entries import HoldPassed

SCOPES = ("valves", "cylinder", "head out", "whole top end")


@pytest.mark.parametrize("scope", SCOPES)
@pytest.mark.parametrize("layout", CHAINED)
def test_marks_pass_only_after_two_turns_with_the_tensioner_working(layout: str, scope: str) -> None:
    job = Job(layout, scope)
    job.cams_out()
    job.do("tighten_cam_holder", *job.anatomy.cams)
    job.marks()
    assert "waits for" in job.refuses(HoldPassed(hold="H11")), "the tensioner is still out"
    job.do("release_tensioner")
    job.marks()
    assert "waits for" in job.refuses(HoldPassed(hold="H11")), "nothing was turned"
    job.do("turn_forwards", turns="1")
    job.marks()
    assert "waits for" in job.refuses(HoldPassed(hold="H11")), "one turn is none of the cam's"
    job.do("turn_forwards", turns="1")
    job.marks()
    job.sign("H11")
    assert job.hold("H11").state == "passed"


@pytest.mark.parametrize("layout", CHAINED)
def test_a_tooth_out_does_not_pass(layout: str) -> None:
    job = Job(layout, "valves")
    job.cams_out()
    job.cams_in()
    job.do("turn_forwards", turns="2")
    job.marks("off")
    assert "timing_marks@" in job.refuses(HoldPassed(hold="H11"))
    assert any("timing marks" in line for line in job.view.open)


@pytest.mark.parametrize("layout", CHAINED)
@pytest.mark.parametrize("later", ["turn_backwards", "remove_tensioner"])
def test_what_was_done_after_the_marks_undoes_them(layout: str, later: str) -> None:
    job = Job(layout, "valves")
    job.cams_out()
    job.closed_and_proved()
    job.sign("H11")
    job.do(later)
    assert job.hold("H11").state == "undone"


@pytest.mark.parametrize("scope", SCOPES[1:])
@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_no_starter_while_the_marks_are_open(layout: str, scope: str) -> None:
    """Neither the cranking that shows oil nor the first start."""
    job = Job(layout, scope)
    job.cams_out()
    job.cams_in()
    job.do("fill_fluids")
    job.read("oil_at_cams", "head", "seen")
    job.read("leak_down", "c1", "5")
    job.read("compression", "c1", "1000")
    assert "hold H11" in job.refuses(HoldPassed(hold="H12a"))
    assert "hold H11" in job.refuses(HoldPassed(hold="H12"))


@pytest.mark.parametrize("layout", CHAINED)
def test_the_route_takes_the_tensioner_out_first_and_lets_it_go_last(layout: str) -> None:
    job = Job(layout, "whole top end")
    steps = [str(line.numbers.get("operation", "")) for line in job.plan("route").lines]
    assert steps.index("remove_tensioner") < steps.index("open_cam_holder")
    assert max(n for n, s in enumerate(steps) if s == "tighten_cam_holder") < steps.index("release_tensioner")
    assert steps.index("release_tensioner") < steps.index("turn_forwards")


def test_a_lash_read_before_the_turns_plans_and_never_releases() -> None:
    job = Job("bucket", "valves")
    job.cams_out()
    job.cams_in()
    for valve, text in ((IN, "0.13/0.14"), (EX, "0.23/0.24")):
        job.read("lash", valve, text)
    assert "lash@" in job.refuses(HoldPassed(hold="H10"))
