"""Pain 11: both parts pass, so nobody looks at the fit."""

from __future__ import annotations

import pytest
from tests.pains.engines import IN, LAYOUTS, Job

from gudgeon.job.entries import Disposition, HoldPassed


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_two_parts_that_pass_are_condemned_by_their_fit(layout: str) -> None:
    """Stem 5.450 (least 5.440) in a guide of 5.550 (most 5.560): 0.100, and 0.080 is the limit."""
    job = Job(layout, "head out")
    job.read("stem_diameter", IN, "5.450")
    job.read("guide_bore", IN, "5.550")
    assert job.at(f"stem_diameter@{IN}").verdict == "serviceable"
    assert job.at(f"guide_bore@{IN}").verdict == "serviceable"
    fit = job.at(f"stem_guide_clearance@{IN}")
    assert (fit.verdict, fit.value) == ("past limit", pytest.approx(0.100))
    fates = {line.where: line.numbers.get("what") for line in job.plan("dispositions").lines}
    assert "renew" in {fates.get(f"{IN}/guide"), fates.get(f"{IN}/valve")}
    assert f"stem_guide_clearance@{IN}" in job.refuses(HoldPassed(hold="H6"))


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_the_bore_and_its_piston_alike(layout: str) -> None:
    """Bore 57.060 (most 57.100), piston 56.920 (least 56.900): 0.140 over 0.120."""
    job = Job(layout)
    job.read("bore_diameter", "c1", "57.060")
    job.read("piston_diameter", "c1", "56.920")
    assert job.at("bore_diameter@c1").verdict == "serviceable"
    assert job.at("piston_diameter@c1").verdict == "serviceable"
    assert job.at("piston_clearance@c1").verdict == "past limit"
    assert "piston_clearance@c1" in job.refuses(HoldPassed(hold="H7a"))


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_fit_with_one_part_read_is_not_a_fit(layout: str) -> None:
    job = Job(layout, "head out")
    job.read("stem_diameter", IN, "5.470")
    assert job.at(f"stem_guide_clearance@{IN}").verdict == "not measured"
    assert f"stem_guide_clearance@{IN}" in job.refuses(HoldPassed(hold="H6"))


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_wish_does_not_overrule_it(layout: str) -> None:
    job = Job(layout, "head out")
    job.read("stem_diameter", IN, "5.450")
    job.read("guide_bore", IN, "5.550")
    for part in ("guide", "valve"):
        job.write(Disposition(part=f"orig:{IN}/{part}", what="reuse", reason="each is inside"))
    fates = {line.where: line.numbers.get("what") for line in job.plan("dispositions").lines}
    assert "renew" in {fates.get(f"{IN}/guide"), fates.get(f"{IN}/valve")}
    assert f"stem_guide_clearance@{IN}" in job.refuses(HoldPassed(hold="H6"))


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_new_part_makes_a_new_fit(layout: str) -> None:
    job = Job(layout, "head out")
    job.read("stem_diameter", IN, "5.470")
    job.read("guide_bore", IN, "5.510")
    assert job.at(f"stem_guide_clearance@{IN}").verdict == "as new"
    job.do("open_keepers", IN)
    job.fit(job.receive("valve", number="P-VALVE"), f"{IN}/valve")
    assert job.at(f"stem_guide_clearance@{IN}").verdict in ("stale", "not measured")
