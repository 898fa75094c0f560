"""Pain 18: what was to be done and what it may cost was never agreed, and the bill ends in a quarrel."""

from __future__ import annotations

import pytest
from tests.pains.engines import IN, LAYOUTS, Job

from gudgeon.job.entries import Disposition, EstimateApproved, HoldPassed, Ordered, Retraction, ScopeWidened

SEALS = {"P-SEAL": 2}


def yes(amount: str) -> EstimateApproved:
    return EstimateApproved(amount=amount, currency="EUR", by="owner")


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_without_a_word_of_the_owner_the_hold_waits(layout: str) -> None:
    job = Job(layout)
    assert "no approval stands" in job.refuses(HoldPassed(hold="H5b"))
    job.write(yes("600.00"))
    job.sign("H5b")
    assert job.hold("H5b").state == "passed"


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_over_the_ceiling_work_stops_and_nothing_is_ordered(layout: str) -> None:
    job = Job(layout)
    job.write(yes("100.00"))
    assert job.plan("estimate").state == "waits"
    assert job.view.next.address == "estimate"
    assert "over the approved" in job.refuses(Ordered(order="O-1", kind="parts", lines=SEALS))
    job.write(yes("600.00"))
    job.write(Ordered(order="O-1", kind="parts", lines=SEALS))


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_what_was_found_later_asks_for_a_new_yes(layout: str) -> None:
    """A ceiling that held for the plan of then does not hold for the plan of now."""
    job = Job(layout)
    total = next(float(x.numbers["amount"]) for x in job.plan("estimate").lines if x.numbers.get("of") == "total")
    job.write(yes(f"{total:.2f}"))
    assert job.plan("estimate").state == "nothing to do"
    for part in ("valve", "guide"):
        job.write(Disposition(part=f"orig:{IN}/{part}", what="renew", reason="worn"))
    assert job.plan("estimate").state == "waits"
    assert "over the approved" in job.refuses(Ordered(order="O-1", kind="parts", lines=SEALS))


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_word_taken_back_is_no_word(layout: str) -> None:
    job = Job(layout)
    said = job.write(yes("600.00"))
    job.write(Retraction(entry=said, reason="somebody else's telephone"))
    assert "taken back" in job.refuses(Ordered(order="O-1", kind="parts", lines=SEALS))


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_wider_scope_is_an_entry_with_a_name_and_brings_its_holds(layout: str) -> None:
    job = Job(layout, "valves")
    assert "H5b" not in {h.hold for h in job.view.holds}
    job.write(ScopeWidened(scope="whole top end"), by="ivo")
    assert "no approval stands" in job.hold("H5b").needs
    assert [e.by for e in job.view.entries if e.fact == "scope_widened"] == ["ivo"]
