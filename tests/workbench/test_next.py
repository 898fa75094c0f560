"""What comes next: the order in which a technician would want to be asked."""

from __future__ import annotations

import pytest
from tests.pains.engines import EX, IN, LAYOUTS, Job

from gudgeon.job.entries import Disposition, EstimateApproved, Retraction


def found(job: Job) -> None:
    """Everything as found, so that nothing is left to read on the closed engine."""
    for valve, text in ((IN, "0.13/0.14"), (EX, "0.23/0.24")):
        job.read("lash", valve, text)
    job.read("leak_down", "c1", "8")
    job.read("compression", "c1", "900")


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_what_fell_in_comes_before_everything(layout: str) -> None:
    job = Job(layout)
    assert job.view.next.do == "measure"
    job.do("dropped_in")
    assert (job.view.next.do, job.view.next.address) == ("hold", "H0b")
    job.do("found")
    assert job.view.next.do == "measure"


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_word_that_was_taken_back_stops_work_before_the_next_reading(layout: str) -> None:
    job = Job(layout)
    yes = job.write(EstimateApproved(amount="900.00", currency="EUR", by="owner"))
    job.write(Retraction(entry=yes, reason="another engine was meant"))
    assert (job.view.next.do, job.view.next.address) == ("decide", "estimate")
    assert "taken back" in job.view.next.words


def test_holds_that_are_ready_come_before_money_and_money_before_orders() -> None:
    """Nothing is asked of the owner, and nothing bought, before the bottom end was looked at."""
    job = Job("pushrod", "cylinder")
    seen: list[str] = []
    for _ in range(400):
        step = job.view.next
        if step.do == "measure":
            measure(job, step.address)
            continue
        seen.append(f"{step.do} {step.address}")
        if step.address == "estimate":
            job.write(EstimateApproved(amount="2000.00", currency="EUR", by="owner"))
        elif step.do == "hold" and not job.hold(step.address).needs:
            job.sign(step.address)
        elif step.do == "decide" and step.address == "dispositions":
            decide(job)
        else:
            break
    assert "decide estimate" in seen
    assert "decide order" in seen
    assert seen.index("hold H0") < seen.index("hold H5") < seen.index("decide estimate") < seen.index("decide order")


def measure(job: Job, address: str) -> None:
    key, _, place = address.partition("@")
    texts = {"lash": "0.13/0.14" if place == IN else "0.23/0.24", "leak_down": "8", "compression": "900",
             "bore_diameter": "57.010", "piston_diameter": "56.962", "squish": "0.90", "timing_marks": "in line",
             "oil_at_cams": "seen", "valve_to_piston": "1.9"}  # fmt: skip
    job.read(key, place, texts[key])


def decide(job: Job) -> None:
    for line in job.plan("dispositions").lines:
        what = str(line.numbers.get("what"))
        if what in ("renew", "machine", "reuse", "clean"):
            job.write(Disposition(part=f"orig:{line.where}", what=what, reason="as planned"))  # type: ignore[arg-type]
