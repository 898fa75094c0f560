"""The demo's machining order and what came back, against its sheet; and what became of the parts."""

from __future__ import annotations

import pytest
from overhaul import EL, ER, IL, IR, VALVES, Overhaul

from gudgeon.job.entries import Disposition, Finding, Ordered

WORDS = {"intake left": "tip 37.28 to 37.86, tell us before going over; never over 37.94"}


@pytest.fixture(scope="module")
def measured() -> Overhaul:
    job = Overhaul().as_found().stripped().measured()
    job.record(Finding(kind="face grooved", where=f"{IL}/valve", words="grooved all round"))
    return job


@pytest.fixture(scope="module")
def ordered() -> Overhaul:
    job = Overhaul().as_found().stripped().measured()
    job.record(Disposition(part=f"orig:{IL}/guide", what="renew", reason="fit"))
    job.record(Disposition(part=f"orig:{IR}/seat", what="machine", reason="leaks"))
    job.fit("valve", f"{IL}/valve", "371-1301")
    job.read("tip_height", IL, "37.62", "DM-TIP")
    job.read("installed_height", IL, "34.46", "caliper")
    return job


def test_what_becomes_of_the_parts(measured: Overhaul) -> None:
    rows = {line.where: dict(line.numbers) for line in measured.plan("dispositions").lines}
    renewed = {where for where, n in rows.items() if n.get("what") == "renew"}
    assert renewed == {f"{IL}/valve", f"{IL}/guide", f"{IR}/spring"}
    assert rows[f"{IL}/seat"]["what"] == "machine"
    assert {rows[f"{v}/guide"]["what"] for v in (IR, EL, ER)} == {"reuse"}


def test_a_coated_face_is_not_ground(measured: Overhaul) -> None:
    line = measured.line("dispositions", f"{IL}/valve")
    assert any("coated" in str(why) for why in line.because)


def test_the_fit_is_restored_over_the_whole_range_or_not_at_all(measured: Overhaul) -> None:
    ways = [dict(line.numbers) for line in measured.plan("dispositions").lines if line.where == IL]
    found = [(n["renews"], n["low"], n["high"], n["holds"]) for n in ways]
    assert found == [
        (f"{IL}/guide", pytest.approx(0.034), pytest.approx(0.046), True),
        (f"{IL}/guide, {IL}/valve", pytest.approx(0.010), pytest.approx(0.037), True),
        (f"{IL}/valve", pytest.approx(0.070), pytest.approx(0.085), False),
    ]


def test_a_breach_is_never_overruled() -> None:
    job = Overhaul().as_found().stripped().measured()
    job.record(Disposition(part=f"orig:{IR}/spring", what="reuse", reason="its length passes"))
    numbers = dict(job.line("dispositions", f"{IR}/spring").numbers)
    assert (numbers["what"], numbers["decided"]) == ("renew", "reuse")


def test_bounds_wait_for_the_valve_that_is_enclosed(measured: Overhaul) -> None:
    plan = measured.plan("machining")
    assert plan.state == "waits"
    cut = next(c for c in plan.machines if c.where == IL)
    assert (cut.high_mm, cut.never_over_mm) == (None, 37.94)


def test_the_bounds(ordered: Overhaul) -> None:
    plan = ordered.plan("machining")
    assert plan.state == "ready"
    cut = next(c for c in plan.machines if c.where == IL)
    assert (cut.low_mm, cut.high_mm, cut.never_over_mm) == (37.28, 37.86, 37.94)
    assert str(cut.bound_because[0]) == "intake left tip 37.28 to 37.86, tell us before going over; never over 37.94"
    assert any("38.20" in str(b) or "38.19" in str(b) for b in cut.bound_because)
    assert any("coated" in str(f) for f in cut.forbidden)
    assert "guide first" in str(cut.to_reach[0])
    assert {c.where for c in plan.machines} == {IL, IR}


def test_the_shims_wait_for_the_shop(ordered: Overhaul) -> None:
    assert ordered.plan("shims").state == "waits"


def cut_to(text: str) -> Overhaul:
    job = Overhaul().as_found().stripped().measured().new_parts_in_the_old_seat()
    job.record(Disposition(part=f"orig:{IL}/seat", what="machine", reason="too wide"))
    job.record(Ordered(order="M-2", kind="machining", words=WORDS))
    job.do("cut_seat", IL)
    job.read("tip_height", IL, text, "DM-TIP")
    job.read("installed_height", IL, f"{float(text) - 3.16:.2f}", "caliper")
    return job


def test_cut_too_far_but_not_lost() -> None:
    job = cut_to("37.91")
    plan = job.plan("machining")
    assert plan.state == "ready"
    rows = [dict(line.numbers) for line in plan.lines]
    assert rows[0]["broken"] == "over"
    spacer = next(r for r in rows if r.get("way") == "spacer")
    assert spacer["possible"] is True
    assert [spacer[k] for k in ("height_mm", "sink_mm", "reserve_mm")] == pytest.approx([34.50, 0.29, 0.03])
    assert spacer["lash_mm"] == pytest.approx(0.132, abs=1e-3)
    assert next(r for r in rows if r.get("way") == "new insert")["price"] == 22.0
    assert next(r for r in rows if r.get("way") == "tip grinding")["possible"] is False
    job.record(Disposition(part=f"orig:{IL}/seat", what="reuse", reason="spacer"))
    job.do("fit_spacer", IL, thickness="0.25 mm")
    after = job.plan("machining")
    assert after.state == "nothing to do"
    assert [(b.number, b.price) for b in after.buys] == [("371-1311", 1.4)]


def test_over_the_end_no_shim_helps() -> None:
    job = cut_to("38.02")
    spacer = next(
        dict(line.numbers) for line in job.plan("machining").lines if dict(line.numbers).get("way") == "spacer"
    )
    assert spacer["possible"] is False
    assert dict(job.line("dispositions", f"{IL}/seat").numbers)["what"] == "renew"
    assert job.plan("shims").state == "waits"


def test_cut_within_its_bounds_is_nothing_to_do() -> None:
    plan = cut_to("37.80").plan("machining")
    assert plan.state == "nothing to do"
    assert dict(plan.lines[0].numbers)["broken"] == ""
    assert {line.where for line in plan.lines} <= set(VALVES)
