"""A wrench with an adapter: what to set, which wrench is true there, and what reaches the bolt is what is judged."""

from __future__ import annotations

import pytest
from tests.pains.engines import Job

from gudgeon.job.entries import TorqueApplied
from gudgeon.problem import Refused
from gudgeon.workbench.doing import StageView, building

THIRTY = {"extension": "30 mm", "length": "300 mm"}


def nuts(job: Job, adapter: dict[str, str] | None = None) -> tuple[StageView, ...]:
    return next(j for j in building(job.bench, job.number, adapter).joints if j.joint == "head head").stages


def opened() -> Job:
    job = Job("bucket")
    job.do("loosen_head", "head")
    return job


def test_in_line_less_is_set_and_square_to_it_the_same() -> None:
    """22 N·m through 300 + 30 mm: 22 × 300/330 = 20.0; at 90° nothing changes (moments about the bolt)."""
    job = opened()
    assert [(s.setting, s.at_bolt, s.wrench) for s in nuts(job, THIRTY)] == [
        ("10.9", "12 N·m", "W-SMALL"), ("20", "22 N·m", "W-SMALL")
    ]  # fmt: skip
    assert [s.setting for s in nuts(job, {**THIRTY, "angle": "90°"})] == ["12", "22"]
    assert [(s.setting, s.at_bolt) for s in nuts(job)] == [("12", ""), ("22", "")]


def test_what_is_set_lands_and_what_is_set_without_the_correction_does_not() -> None:
    job = opened()
    first = TorqueApplied(
        joint="head head", stage=1, of=2, setting="10.9", unit="N·m", wrench="W-SMALL", adapter=THIRTY
    )
    job.write(first)
    wrong = TorqueApplied(joint="head head", stage=2, of=2, setting="22", unit="N·m", wrench="W-BIG", adapter=THIRTY)
    assert "24.2 N·m at the bolt" in job.refuses(wrong).replace("22 N·m is ", "")
    job.write(
        TorqueApplied(joint="head head", stage=2, of=2, setting="20", unit="N·m", wrench="W-SMALL", adapter=THIRTY)
    )
    assert "head head" not in job.bench.worked(job.number).given.state.open_joints


@pytest.mark.parametrize(("adapter", "words"), [
    ({"extension": "30 mm"}, "length of the wrench"), ({"extension": "far", "length": "300 mm"}, "far"),
    ({"extension": "400 mm", "length": "300 mm", "angle": "180°"}, "other way"), ({**THIRTY, "colour": "red"}, "no colour"),
])  # fmt: skip
def test_an_adapter_that_cannot_be_reckoned_with_is_refused(adapter: dict[str, str], words: str) -> None:
    job = opened()
    body = TorqueApplied(joint="head head", stage=1, of=2, setting="10", unit="N·m", wrench="W-SMALL", adapter=adapter)
    assert words in job.refuses(body)
    with pytest.raises(Refused):
        nuts(job, adapter)


def test_a_stage_is_not_jumped_and_a_wrench_nobody_owns_is_not_believed() -> None:
    job = opened()
    last = TorqueApplied(joint="head head", stage=2, of=2, setting="22", unit="N·m", wrench="W-BIG")
    assert "comes after stage 1" in job.refuses(last)
    assert "no wrench W-9" in job.refuses(
        TorqueApplied(joint="head head", stage=1, of=2, setting="12", unit="N·m", wrench="W-9")
    )
