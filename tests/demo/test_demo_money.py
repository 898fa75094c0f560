"""The demo's order list and its money, under the owner's ceiling."""

from __future__ import annotations

import pytest
from overhaul import IL, IR, Overhaul

from gudgeon.job.entries import Arrived, Disposition, EstimateApproved, Ordered, PartFitted, PartReceived

FIRST_ORDER = {
    "371-1301": 1, "371-1110": 1, "371-1310": 1, "371-1311": 1, "371-1730": 1, "371-1741": 1, "371-1340": 4,
    "371-1900": 1, "371-1951": 2, "371-1952": 1, "371-1801": 1, "371-1960": 1, "371-1961": 1, "371-1970": 1,
}  # fmt: skip


def decided() -> Overhaul:
    job = Overhaul().as_found().stripped().measured()
    job.record(Disposition(part=f"orig:{IL}/valve", what="renew", reason="face"))
    job.record(Disposition(part=f"orig:{IL}/guide", what="renew", reason="fit"))
    job.record(Disposition(part=f"orig:{IL}/seat", what="machine", reason="wide"))
    job.record(Disposition(part=f"orig:{IR}/seat", what="machine", reason="leaks"))
    job.record(EstimateApproved(amount="640.00", currency="EUR", by="owner"))
    return job


def finished() -> Overhaul:
    job = decided()
    job.record(Ordered(order="P-1", kind="parts", lines=FIRST_ORDER), Arrived(order="P-1", lines=FIRST_ORDER))
    job.new_parts_in_the_old_seat().back_from_the_shop()
    job.do("fit_spacer", IL, thickness="0.25 mm")
    state = job.given.state
    thin = job.record(PartReceived(kind="shim", number="371-1600", mark="150", order="shelf"))
    new = job.record(PartReceived(kind="shim", number="371-1600", mark="165", order="P-2"))
    old = state.slots["c1.ex.left/shim"] or ""
    for part, slot in ((thin, IL), (old, IR), (new, "c1.ex.left")):
        job.record(PartFitted(part=part, slot=f"{slot}/shim"))
    return job


def test_what_is_ordered_at_once() -> None:
    plan = decided().plan("order")
    assert plan.state == "ready"
    rows = {str(dict(line.numbers)["number"]): dict(line.numbers) for line in plan.lines}
    now = {number: row["to_order"] for number, row in rows.items() if row["to_order"]}
    fewer = {"371-1951": 1.0}
    wanted = {n: float(c) for n, c in FIRST_ORDER.items() if n not in ("371-1311", "371-1801")}
    assert now == {**wanted, **fewer}
    assert "order 12 now, 2 wait" in str(plan.reasons[0])


def test_a_look_alike_is_told_by_its_mark() -> None:
    line = next(x for x in decided().plan("order").lines if dict(x.numbers)["number"] == "371-1110")
    assert any("not 371-1111: one groove" in str(b) for b in line.because)


def test_the_other_engine_s_seal_is_not_on_the_list() -> None:
    numbers = {b.number for b in decided().plan("order").buys}
    assert not {"371-1162", "371-1710", "371-1712", "371-1161"} & numbers


def test_what_was_ordered_is_not_ordered_again() -> None:
    job = decided()
    job.record(Ordered(order="P-1", kind="parts", lines=FIRST_ORDER))
    rows = {str(dict(x.numbers)["number"]): dict(x.numbers) for x in job.plan("order").lines}
    assert {r["status"] for r in rows.values()} == {"ordered"}
    job.record(Arrived(order="P-1", lines={**FIRST_ORDER, "371-1340": 3}))
    rows = {str(dict(x.numbers)["number"]): dict(x.numbers) for x in job.plan("order").lines}
    assert rows["371-1340"]["status"] == "ordered"
    assert rows["371-1301"]["status"] == "arrived"


def test_the_bill() -> None:
    job = finished()
    sums = {str(dict(x.numbers)["of"]): dict(x.numbers)["amount"] for x in job.plan("estimate").lines}
    assert sums == pytest.approx({"parts": 258.80, "outside": 120.00, "hours": 252.00, "total": 630.80})
    assert job.plan("estimate").state == "nothing to do"
    assert "630.80 under the approved 640.00" in str(job.plan("estimate").reasons[0])


def test_over_the_ceiling_it_waits_for_a_new_yes() -> None:
    job = finished()
    job.record(EstimateApproved(amount="500.00", currency="EUR", by="owner"))
    plan = job.plan("estimate")
    assert plan.state == "waits"
    assert "130.80 over the approved 500.00" in str(plan.reasons[0])
    job.record(EstimateApproved(amount="600.00", currency="EUR", by="owner"))
    assert job.plan("estimate").state == "ready"


def test_a_valves_job_buys_a_cover_seal_and_no_gasket_kit() -> None:
    job = Overhaul(scope="valves")
    job.each("lash", "0.12/0.13 0.12/0.13 0.22/0.23 0.22/0.23", "feeler")
    assert [b.number for b in job.plan("order").buys] == ["371-1161"]
    assert job.plan("shims").state == "nothing to do"


@pytest.mark.parametrize(("squish", "state", "number"), [
    ("1.00", "nothing to do", None), ("0.78", "ready", "371-1712"), ("1.28", "ready", "371-1710"),
])  # fmt: skip
def test_the_base_gasket_follows_squish(squish: str, state: str, number: str | None) -> None:
    job = Overhaul().as_found()
    job.fit("base gasket", "c1/base gasket", "371-1711")
    for spot in ("intake", "exhaust", "left", "right"):
        job.read("squish", "c1", squish, "MIC-25", spot)
    plan = job.plan("base_gasket")
    assert plan.state == state
    assert [b.number for b in plan.buys] == ([number] if number else [])


def test_a_thinner_gasket_is_not_taken_from_a_valve() -> None:
    """Valve-to-piston loses as much as the gasket is thinner: 1.52 less 0.10 is under the exhaust's 1.50."""
    job = Overhaul().as_found()
    job.fit("base gasket", "c1/base gasket", "371-1711")
    for spot in ("intake", "exhaust", "left", "right"):
        job.read("squish", "c1", "1.28", "MIC-25", spot)
    job.each("valve_to_piston", "1.90 1.90 1.60 1.60", "CLAY-1")
    assert [b.number for b in job.plan("base_gasket").buys] == []


def test_an_unknown_gasket_is_asked_for() -> None:
    job = Overhaul().as_found()
    for spot in ("intake", "exhaust", "left", "right"):
        job.read("squish", "c1", "0.80", "MIC-25", spot)
    assert job.plan("base_gasket").state == "waits"
