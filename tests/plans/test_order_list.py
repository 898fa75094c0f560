"""The order list: what stops where, what came wrong, what is used up by closing a joint twice, what goes back to stock."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.pains.engines import IN, LAYOUTS, Job

from gudgeon.job.entries import Arrived, ArrivedWrong, Ordered, PartFitted, TorqueApplied
from plan_bench import PlanBench

DEMO = Path(__file__).resolve().parents[2] / "src" / "gudgeon" / "demo"


def row(job: Job, number: str) -> dict[str, object]:
    return next(dict(line.numbers) for line in job.plan("order").lines if line.numbers["number"] == number)


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_missing_part_names_the_step_that_it_stops(layout: str) -> None:
    job = Job(layout)
    steps = {float(str(x.numbers["step"])): x.numbers.get("operation") for x in job.plan("route").lines}
    stops = {n: steps[float(str(row(job, n)["stops"]))] for n in ("P-SEAL", "P-BASEG", "P-HEADG", "P-CLIP", "P-COVER")}
    assert stops == {"P-SEAL": "seat_keepers", "P-BASEG": "tighten_base", "P-HEADG": "tighten_head", "P-CLIP": "tighten_base",
                     "P-COVER": "tighten_cover"}  # fmt: skip
    first = min(float(str(row(job, n)["stops"])) for n in stops)
    assert f"step {first:g} will stop for: stem seal" in job.plan("order").reasons
    job.write(Ordered(order="O", kind="parts", lines={"P-SEAL": 2}), Arrived(order="O", lines={"P-SEAL": 2}))
    assert row(job, "P-SEAL")["stops"] is None
    assert not any("stem seal" in why for why in job.plan("order").reasons if "will stop" in why)


@pytest.mark.parametrize("what", ["other number", "wrong size", "broken"])
@pytest.mark.parametrize("told_first", [True, False])
def test_what_came_wrong_is_needed_again_and_says_what_to_do(what: str, told_first: bool) -> None:
    job = Job("bucket")
    job.write(Ordered(order="O", kind="parts", lines={"P-SEAL": 2, "P-HEADG": 1}))
    job.write(Arrived(order="O", lines={"P-SEAL": 2 if told_first else 1, "P-HEADG": 1}))
    job.write(ArrivedWrong(order="O", number="P-SEAL", count=1, what=what))  # type: ignore[arg-type]
    assert (row(job, "P-SEAL")["status"], row(job, "P-SEAL")["to_order"]) == ("needed", 1.0)
    assert row(job, "P-HEADG")["status"] == "arrived"
    line = next(x for x in job.plan("order").lines if x.numbers["number"] == "P-SEAL")
    assert any("came wrong" in why and what in why for why in line.because)
    job.write(Ordered(order="O-2", kind="parts", lines={"P-SEAL": 1}))
    assert row(job, "P-SEAL")["status"] == "ordered"
    job.write(Arrived(order="O-2", lines={"P-SEAL": 1}))
    assert row(job, "P-SEAL")["status"] == "arrived"


def test_no_more_comes_wrong_than_was_ordered() -> None:
    job = Job("bucket")
    wrong = ArrivedWrong(order="O", number="P-SEAL", count=1, what="broken")
    assert "0 were ordered" in job.refuses(wrong)
    job.write(Ordered(order="O", kind="parts", lines={"P-SEAL": 1}))
    job.write(wrong)
    assert "0 were ordered and not sent back" in job.refuses(wrong)


def gully() -> PlanBench:
    return PlanBench((DEMO / "books" / "gully.toml").read_text(encoding="utf-8"),
                     (DEMO / "shelf.toml").read_text(encoding="utf-8"), "head out", engine_number="0300")  # fmt: skip


def bolts(job: PlanBench) -> float:
    lines = (dict(x.numbers) for x in job.plan("order").lines)
    return next(float(n["count"] or 0) for n in lines if "head bolt" in str(n["name"]))


def draw_up(job: PlanBench) -> None:
    for n, (setting, unit) in enumerate((("12", "N·m"), ("20", "N·m"), ("90", "°")), 1):
        job.record(TorqueApplied(joint="head head#head bolts", stage=n, of=3, setting=setting, unit=unit, wrench=""))
    job.record(TorqueApplied(joint="head head#head side bolts", stage=1, of=1, setting="10", unit="N·m", wrench=""))


def test_bolts_turned_by_an_angle_are_new_once_for_each_closing() -> None:
    job = gully()
    assert bolts(job) == 10
    job.do("loosen_head", "head")
    draw_up(job)
    assert bolts(job) == 10
    job.do("loosen_head", "head")
    assert bolts(job) == 20, "the ten that were turned are used up"
    draw_up(job)
    assert bolts(job) == 20


def test_a_joint_with_two_kinds_is_closed_by_both_and_by_neither_alone() -> None:
    job = gully()
    job.do("loosen_head", "head")
    assert "head head" in job.given.state.open_joints
    job.record(TorqueApplied(joint="head head#head side bolts", stage=1, of=1, setting="10", unit="N·m", wrench=""))
    assert "head head" in job.given.state.open_joints
    for n, (setting, unit) in enumerate((("12", "N·m"), ("20", "N·m")), 1):
        job.record(TorqueApplied(joint="head head#head bolts", stage=n, of=3, setting=setting, unit=unit, wrench=""))
    assert "head head" in job.given.state.open_joints, "the angle is still to be turned"
    job.record(TorqueApplied(joint="head head#head bolts", stage=3, of=3, setting="90", unit="°", wrench=""))
    assert "head head" not in job.given.state.open_joints
    job.do("loosen_head", "head")
    job.record(TorqueApplied(joint="head head#head bolts", stage=3, of=3, setting="90", unit="°", wrench=""))
    assert "head head" in job.given.state.open_joints, "the side bolts of the first time count no more"


def test_a_shim_that_came_out_goes_to_stock_as_measured() -> None:
    job = Job("bucket", "valves")
    old = job.view.parts and next(p.part for p in job.view.parts if p.slot == f"{IN}/shim")
    job.cams_out()
    job.read("shim_thickness", IN, "2.013")
    job.write(PartFitted(part=job.receive("shim", number="P-SHIM", mark="195", order="shelf"), slot=f"{IN}/shim"))
    assert old
    assert any("2.013 mm, to stock as measured" in why for why in job.plan("order").reasons)
