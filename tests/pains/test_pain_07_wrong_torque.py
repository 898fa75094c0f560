"""Pain 7: a torque in the wrong unit, on the wrong thread, with a wrench that is not proved there: a cap costs the head."""

from __future__ import annotations

import pytest
from tests.pains.engines import LAYOUTS, Job, book

from gudgeon.job.entries import TorqueApplied
from gudgeon.workbench.auditing import check_book
from gudgeon.workbench.doing import building


def stage(
    setting: str, *, unit: str = "N·m", wrench: str = "W-SMALL", of: int = 1, joint: str = "holder"
) -> TorqueApplied:
    place = "head head" if joint == "head" else "{cam} holder"
    return TorqueApplied(joint=place, stage=of, of=of, setting=setting, unit=unit, wrench=wrench)


def caps(job: Job, **more: str) -> str:
    one = stage(**more)  # type: ignore[arg-type]
    return job.refuses(TorqueApplied(joint=one.joint.format(cam=job.anatomy.cams[0]), stage=1, of=1, setting=one.setting,
                                     unit=one.unit, wrench=one.wrench))  # fmt: skip


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_pound_feet_for_newton_metres_do_not_land(layout: str) -> None:
    """10 lbf·ft are 13.56 N·m, a third over the cap; 10 lbf·in are 1.13 N·m, which hold nothing."""
    job = Job(layout)
    job.cams_out()
    assert "13.6 N·m; the book ends this joint at 10 N·m" in caps(job, setting="10", unit="lbf·ft")
    assert "1.1 N·m" in caps(job, setting="10", unit="lbf·in")
    assert "the book ends" in caps(job, setting="86", unit="lbf·ft", wrench="")
    job.draw_up(f"{job.anatomy.cams[0]} holder", "86", unit="lbf·in")
    shorter = stage("9.1")
    assert "9.1 N·m; the book ends this joint at 10 N·m" in caps(job, setting="9.1")
    adapter = {"extension": "30 mm", "length": "300 mm"}
    job.write(TorqueApplied(joint=f"{job.anatomy.cams[0]} holder", stage=1, of=1, setting="9.1", unit=shorter.unit,
                            wrench=shorter.wrench, adapter=adapter))  # fmt: skip


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_wrench_outside_what_it_is_proved_for_is_refused(layout: str) -> None:
    """A wrench to 60 N·m is proved from a fifth of its scale: not at 10."""
    job = Job(layout)
    job.cams_out()
    assert "outside the proved range" in caps(job, setting="10", wrench="W-BIG")


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_setting_unit_wrench_and_thread_stand_at_the_step(layout: str) -> None:
    job = Job(layout)
    job.cams_out()
    caps_ = next(j for j in building(job.bench, job.number).joints if j.joint.endswith(" holder"))
    assert [(s.setting, s.unit, s.wrench) for s in caps_.stages] == [("5", "N·m", "W-SMALL"), ("10", "N·m", "W-SMALL")]
    assert any("thread dry" in mind for mind in caps_.minds)
    step = next(line for line in job.plan("route").lines if line.numbers.get("operation") == "tighten_cam_holder")
    assert "5 – 10 N·m" in str(step.numbers["tightening"])


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_the_first_stage_leaves_the_joint_open(layout: str) -> None:
    job = Job(layout)
    job.do("loosen_head", "head")
    job.draw_up("head head", "12", stage=1, of=2, wrench="W-SMALL")
    assert "joint head head" in job.hold("H9b").needs
    job.draw_up("head head", "22", stage=2, of=2, wrench="W-BIG")
    assert "joint head head" not in job.hold("H9b").needs


def test_a_book_that_prints_pound_feet_as_newton_metres_is_found_out() -> None:
    """13.6 N·m on an M6 8.8: the figure of ten pound-feet."""
    text = book("bucket").replace('"5 N·m", "10 N·m"', '"5 N·m", "13.6 N·m"')
    found = check_book(text, None, "book.toml").findings
    assert any(f.check == "torque" and "too much for M6 8.8" in f.what for f in found)
    both = book("bucket").replace('thread_state = "dry"', 'thread_state = "oil"\nlocker = "medium"')
    assert any(
        f.check == "oil_and_locker" and f.severity == "error" for f in check_book(both, None, "book.toml").findings
    )
