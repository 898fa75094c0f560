"""Pain 20: a blocked oil way, a dowel left out, a gasket used twice, a locker that never cured."""

from __future__ import annotations

import pytest
from tests.pains.engines import CHAINED, LAYOUTS, VALVES, Job

from gudgeon.job.entries import HoldPassed, PartRemoved

LOCKED = (
    '[[fastener]]\nname = "sprocket bolts"\njoint = "sprocket"\nthread = "M7"\ngrade = "10.9"\ncount = 2\n'
    'torque = ["18 N·m"]\nthread_state = "degreased"\nlocker = "medium"\ncure = "24 h"\n'
)


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_the_first_start_waits_for_oil_seen_at_the_cams(layout: str) -> None:
    job = Job(layout)
    assert "oil_at_cams@head" in job.refuses(HoldPassed(hold="H12a"))
    assert "hold H12a oil at the cams" in job.hold("H12").needs
    job.read("oil_at_cams", "head", "not seen")
    assert "oil_at_cams@head" in job.refuses(HoldPassed(hold="H12a"))


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_dowels_passage_and_gasket_are_asked_for_by_name_before_the_cams(layout: str) -> None:
    job = Job(layout)
    asked = " ".join(job.hold("H9").asks)
    for thing in ("dowels", "gasket", "oil passage", "restrictor", "O-ring"):
        assert thing in asked


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_head_taken_off_again_takes_that_signature_with_it(layout: str) -> None:
    job = Job(layout)
    for n, setting in enumerate(("12", "22"), 1):
        job.draw_up("head head", setting, stage=n, of=2, wrench="W-BIG")
    job.sign("H9")
    assert job.hold("H9").state == "passed"
    job.cams_out()
    job.do("loosen_head", "head")
    assert job.hold("H9").state == "undone"
    assert "joint head head" in job.refuses(HoldPassed(hold="H9"))


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_the_head_gasket_is_not_crushed_twice(layout: str) -> None:
    job = Job(layout)
    job.cams_out()
    job.do("loosen_head", "head")
    job.do("tighten_head", "head")
    assert any(need.startswith("used twice: ") and "head gasket" in need for need in job.hold("H9b").needs)
    assert any(x.where == "head/head gasket" for x in job.plan("order").lines)
    job.do("loosen_head", "head")
    job.write(PartRemoved(slot="head/head gasket"))
    job.fit(job.receive("head gasket", number="P-HEADG"), "head/head gasket")
    job.do("tighten_head", "head")
    assert not any(need.startswith("used twice: ") for need in job.hold("H9b").needs)


@pytest.mark.parametrize("layout", CHAINED)
def test_a_locker_has_its_time(layout: str) -> None:
    job = Job(layout, more=LOCKED)
    cam = job.anatomy.cams[0]
    job.do("open_sprocket", cam)
    assert any(f"joint {cam} sprocket" in need for need in job.hold("H11b").needs)
    job.draw_up(f"{cam} sprocket", "18")
    job.sign("H11b")
    assert any("cure of 24 h" in need for need in job.hold("H11b").needs)
    assert job.hold("H11b").state == "undone"
    for _ in range(60 * 25):
        job.bench.clock.now()
    job.sign("H11b")
    assert job.hold("H11b").state == "passed"


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_one_use_seals_are_on_the_list_before_assembly(layout: str) -> None:
    lines = {str(x.numbers["number"]): x.numbers["count"] for x in Job(layout).plan("order").lines}
    assert lines["P-HEADG"] == 1.0
    assert lines["P-SEAL"] == len(VALVES)
