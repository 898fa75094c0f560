"""The demo's shims: its sheet was worked out by hand, the plan must come to the same."""

from __future__ import annotations

import pytest
from overhaul import EL, ER, IL, IR, Overhaul

from gudgeon.job.entries import PartFitted, PartReceived, PartsSwapped
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.lashes import room_of, window_of


@pytest.fixture(scope="module")
def planned() -> Overhaul:
    return Overhaul().to_the_shims()


def test_what_head_and_cam_leave_room_for(planned: Overhaul) -> None:
    evidence = Evidence(given=planned.given)
    heights = {}
    for valve in (IL, IR, EL, ER):
        window = window_of(planned.given, valve)
        assert window is not None
        room = room_of(evidence, valve, window)
        assert room.room is not None
        assert room.tip is not None
        heights[valve] = room.room.value + room.tip.value
    assert heights == pytest.approx({IL: 39.6075, IR: 39.5695, EL: 39.5805, ER: 39.5995}, abs=1e-9)


def test_the_set(planned: Overhaul) -> None:
    plan = planned.plan("shims")
    assert plan.state == "ready"
    rows = {line.where: dict(line.numbers) for line in plan.lines}
    assert [rows[v]["from"] for v in (IL, IR, EL, ER)] == ["shelf", EL, "buy", "stays"]
    assert [rows[v]["thickness_mm"] for v in (IL, IR, EL, ER)] == pytest.approx([1.503, 1.698, 1.65, 1.752])
    assert [rows[v]["wanted_mm"] for v in (IL, IR, EL, ER)] == pytest.approx([1.495, 1.707, 1.648, 1.727], abs=6e-4)
    assert [rows[v]["lash_mm"] for v in (IL, IR, EL, ER)] == pytest.approx([0.1297, 0.141, 0.2337, 0.2183], abs=1e-3)
    assert [rows[v]["present_lash_mm"] for v in (IL, IR, EL, ER)] == pytest.approx(
        [-0.0983, 0.075, 0.2017, 0.2183], abs=6e-4
    )
    assert all(float(rows[v]["probability"] or 0) > 0.93 for v in rows)
    assert [(b.name, b.count, b.on_hand, b.price) for b in plan.buys] == [
        ("shim 150", 1, True, 6.5),
        ("shim 165", 1, False, 6.5),
    ]


def fitted(exchanged: bool) -> Overhaul:
    """The set fitted, as planned or with the two exhaust shims in each other's place, and read after two turns."""
    job = Overhaul().to_the_shims()
    state = job.given.state
    il_old, el_old = state.slots[f"{IL}/shim"], state.slots[f"{EL}/shim"]
    assert il_old
    assert el_old
    thin = job.record(PartReceived(kind="shim", number="371-1600", mark="150", order="shelf"))
    job.read("shim_thickness", f"part:{thin}", "1.503", "MIC-25")
    new = job.record(PartReceived(kind="shim", number="371-1600", mark="165", order="P-1"))
    job.read("shim_thickness", f"part:{new}", "1.652", "MIC-25")
    job.record(PartFitted(part=thin, slot=f"{IL}/shim"))
    job.record(PartFitted(part=el_old, slot=f"{IR}/shim"))
    job.record(PartFitted(part=new, slot=f"{EL}/shim"))
    close(job)
    job.each("lash", "0.12/0.13 0.13/0.14 0.16/0.17 0.28/0.29" if exchanged else "0.12/0.13 0.13/0.14 0.23/0.24 0.21/0.22",
             "feeler")  # fmt: skip
    return job


def close(job: Overhaul) -> None:
    for valve in (IL, IR, EL, ER):
        job.do("seat_keepers", valve)
    for cam in ("cam.in", "cam.ex"):
        job.do("tighten_cam_holder", cam)
    job.do("release_tensioner", "engine")
    job.do("turn_forwards", "engine", turns="2")


def test_as_planned_there_is_nothing_left_to_do() -> None:
    plan = fitted(exchanged=False).plan("shims")
    assert plan.state == "nothing to do"
    assert [(b.name, b.on_hand) for b in plan.buys] == [("shim 150", True), ("shim 165", True)]


def test_two_exchanged_are_named() -> None:
    job = fitted(exchanged=True)
    plan = job.plan("shims")
    assert plan.state == "ready"
    rows = {line.where: dict(line.numbers) for line in plan.lines}
    assert set(rows) == {EL, ER}
    assert [rows[v]["off_mm"] for v in (EL, ER)] == pytest.approx([-0.067, 0.067], abs=1e-3)
    assert (rows[EL]["exchanged_with"], rows[ER]["exchanged_with"]) == (ER, EL)
    assert "exactly what exhaust left and exhaust right exchanged would give" in str(plan.reasons[0])
    assert [rows[v]["lash_mm"] for v in (EL, ER)] == pytest.approx([0.232, 0.218], abs=1e-3)


def test_put_right_they_are_in_setting_and_the_intake_was_never_asked_again() -> None:
    job = fitted(exchanged=True)
    job.do("remove_tensioner", "engine")
    job.do("open_cam_holder", "cam.ex")
    assert job.plan("shims").state == "ready"
    job.do("tighten_cam_holder", "cam.ex")
    job.do("release_tensioner", "engine")
    job.do("turn_forwards", "engine", turns="2")
    waits = job.plan("shims")
    assert (waits.state, waits.needs) == ("waits", (f"lash@{EL}", f"lash@{ER}"))
    job.read("lash", EL, "0.23/0.24", "feeler")
    job.read("lash", ER, "0.21/0.22", "feeler")
    assert job.plan("shims").state == "nothing to do"


def test_a_swap_written_instead_is_planned_from_what_was_read() -> None:
    job = fitted(exchanged=True)
    job.record(PartsSwapped(slot=f"{EL}/shim", other=f"{ER}/shim"))
    assert job.plan("shims").lines
