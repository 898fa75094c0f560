"""Pain 6: a part found missing, or needed new, with the bench full and the engine open."""

from __future__ import annotations

import pytest
from tests.pains.engines import IN, LAYOUTS, Job

from gudgeon.job.entries import Arrived, Disposition, Ordered
from gudgeon.workbench.deciding import decisions

ONE_USE = {"P-SEAL": 2, "P-HEADG": 1, "P-BASEG": 1, "P-CLIP": 1, "P-COVER": 1}


def counts(job: Job) -> dict[str, float]:
    """What is still to be ordered, by number."""
    return {str(line.numbers["number"]): float(line.numbers["to_order"]) for line in job.plan("order").lines
            if line.numbers["to_order"]}  # fmt: skip


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_the_list_is_complete_before_the_first_bolt_is_out(layout: str) -> None:
    assert counts(Job(layout)) == ONE_USE


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_what_is_decided_is_on_it_at_once_and_what_is_only_feared_waits(layout: str) -> None:
    job = Job(layout)
    job.write(Disposition(part=f"orig:{IN}/valve", what="renew", reason="bent"))
    assert counts(job) == ONE_USE | {"P-VALVE": 1}
    job.read("stem_diameter", IN, "5.46")
    job.read("guide_bore", IN, "5.558")
    job.write(Disposition(part=f"orig:{IN}/valve", what="reuse", reason="straight after all"))
    rows = {line.numbers["number"]: line.numbers for line in job.plan("order").lines}
    assert rows["P-GUIDE"]["sure"] is False, "a failed fit asks for it, nobody has decided"


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_piece_that_did_not_come_is_named_before_assembly(layout: str) -> None:
    job = Job(layout)
    job.write(Ordered(order="O-1", kind="parts", lines=ONE_USE))
    job.write(Arrived(order="O-1", lines={**ONE_USE, "P-SEAL": 1}))
    status = {line.numbers["number"]: line.numbers["status"] for line in job.plan("order").lines}
    assert status["P-SEAL"] == "ordered"
    assert status["P-HEADG"] == "arrived"
    assert job.plan("order").state == "waits"
    assert [(w.number, w.left) for w in decisions(job.bench, job.number).orders[0].waits] == [("P-SEAL", 1)]


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_new_gasket_that_was_crushed_is_needed_once_more(layout: str) -> None:
    job = Job(layout)
    job.write(Ordered(order="O-1", kind="parts", lines=ONE_USE), Arrived(order="O-1", lines=ONE_USE))
    job.do("loosen_head", "head")
    job.fit(job.receive("head gasket", number="P-HEADG", order="O-1"), "head/head gasket")
    job.do("tighten_head", "head")
    assert counts(job) == {}
    job.do("loosen_head", "head")
    assert counts(job) == {"P-HEADG": 1}
