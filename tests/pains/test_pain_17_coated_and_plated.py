"""Pain 17: a coated valve lapped, a plated bore honed: the coating is through and the part is done for."""

from __future__ import annotations

import pytest
from tests.pains.engines import IN, LAYOUTS, Job

from gudgeon.job.entries import Finding, OperationDone

COATED = ("lap_valve", "reface_valve", "grind_tip")
PLATED = ("hone", "rebore", "deglaze")


@pytest.mark.parametrize("operation", COATED)
@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_coated_valve_is_not_worked(layout: str, operation: str) -> None:
    words = Job(layout, coated="true").refuses(OperationDone(operation=operation, where=IN))
    assert "coated" in words
    Job(layout).do(operation, IN)


@pytest.mark.parametrize("operation", PLATED)
@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_plated_bore_is_not_worked(layout: str, operation: str) -> None:
    words = Job(layout, bore="plated").refuses(OperationDone(operation=operation, where="c1"))
    assert "plated" in words
    Job(layout).do(operation, "c1")


@pytest.mark.parametrize(
    ("operation", "where", "slot"), [("lap_valve", IN, f"{IN}/valve"), ("hone", "c1", "c1/barrel")]
)
@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_done_already_it_is_written_and_the_part_is_renewed(layout: str, operation: str, where: str, slot: str) -> None:
    job = Job(layout, coated="true", bore="plated")
    job.do(operation, where, already="done")
    assert job.line("dispositions", slot).what == "renew"


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_no_plan_asks_the_shop_for_what_the_coating_forbids(layout: str) -> None:
    job = Job(layout, coated="true", bore="plated")
    job.write(Finding(kind="grooved", where=f"{IN}/valve"))
    job.read("bore_diameter", "c1", "57.200")
    assert job.line("dispositions", f"{IN}/valve").what == "renew"
    assert job.line("dispositions", "c1/barrel").what == "renew"
