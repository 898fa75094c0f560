"""Lash arithmetic against the exact motion of rigid levers, and against its own inverses."""

from __future__ import annotations

from math import atan2, cos, hypot, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics import lash
from gudgeon.problem import Refused

length = st.floats(0.5, 5.0)
gap = st.floats(-0.3, 0.6)
ratio = st.floats(1.0, 2.0)


def finger_tip_y(pivot_y: float, contact_y: float, arm_cam: float, arm_tip: float) -> float:
    """Height of the tip of a straight finger that touches a fixed point at `arm_cam` from its pivot: similar triangles."""
    return pivot_y + arm_tip * (contact_y - pivot_y) / arm_cam


def test_finger_pivot_raised_is_tight_exact_motion() -> None:
    """The finger lies under the cam: its pivot rises, the cam holds its middle down, the tip falls by Δ(i − 1)."""
    before = finger_tip_y(0.0, 0.0, 18.0, 30.0)
    after = finger_tip_y(0.1, 0.0, 18.0, 30.0)
    assert after - before == pytest.approx(lash.change_by_finger_pivot(0.1, 30 / 18), abs=1e-12)
    assert lash.change_by_finger_pivot(0.1, 30 / 18) == pytest.approx(-0.0667, abs=5e-5)


def test_rocker_shaft_raised_is_loose_exact_motion() -> None:
    """The cam end stays on its base circle below, the shaft rises by Δ, the valve end rises by Δ(1 + i)."""
    cam_arm, valve_arm, raised = 20.0, 30.0, 0.1
    slope = raised / cam_arm
    valve_end = raised + valve_arm * slope
    assert lash.change_by_rocker_shaft(raised, valve_arm / cam_arm) == pytest.approx(valve_end, abs=1e-12)
    assert lash.change_by_rocker_shaft(0.1, 1.5) == pytest.approx(0.25)


def test_small_angles_are_small_enough() -> None:
    """The straight-lever rule against a rocker that turns on a true circle: 0.1 mm on 20 mm, error below 0.2 µm."""
    cam_arm, valve_arm, raised = 20.0, 30.0, 0.1
    turn = atan2(raised, (cam_arm**2 - raised**2) ** 0.5)
    exact = raised + valve_arm * sin(turn)
    assert hypot(cam_arm * cos(turn), cam_arm * sin(turn)) == pytest.approx(cam_arm)
    assert lash.change_by_rocker_shaft(raised, 1.5) == pytest.approx(exact, abs=2e-4)


@pytest.mark.parametrize(
    ("change", "sign"),
    [
        (lash.change_by_sink(0.1, 1.5), -1),
        (lash.change_by_tip_ground(0.1, 1.5), +1),
        (lash.change_by_finger_pivot(0.02, 1.5), -1),
        (lash.change_by_rocker_shaft(0.02, 1.5), +1),
        (lash.change_by_push_rod_joint(0.02, 1.4), -1),
        (lash.change_by_shim(0.05, 1.5), -1),
        (lash.change_by_screw(90, 1.0, 1.5), -1),
    ],
)
def test_signs(change: float, sign: int) -> None:
    assert change * sign > 0


def test_amounts() -> None:
    assert lash.ratio_from_arms(30, 18) == pytest.approx(5 / 3)
    assert lash.shim_for(2.60, 0.12, 0.17) == pytest.approx(2.55)
    assert lash.change_by_push_rod_joint(0.02, 1.4) == pytest.approx(-0.028)
    assert lash.change_by_screw(45, 0.5) == pytest.approx(-0.0625)
    assert lash.change_by_screw(90, 1.0, 1.5) == pytest.approx(-0.375)
    assert lash.change_by_sink(0.3, 1.5) == pytest.approx(-0.2)


def test_the_one_to_one_rule_is_wrong_for_a_finger_read_at_the_cam() -> None:
    right = lash.shim_for(1.845, 0.035, 0.135, lash.factor_for(1.5, "cam"))
    assert right == pytest.approx(1.695)
    assert lash.lash_with(1.845, 0.035, right, 1.5) == pytest.approx(0.135)
    assert lash.lash_with(1.845, 0.035, 1.745, 1.5) == pytest.approx(0.101667, abs=1e-6)


@given(shim=st.floats(1.0, 5.0), found=gap, aim=st.floats(0.05, 0.4), i=ratio)
def test_shim_and_lash_are_inverse(shim: float, found: float, aim: float, i: float) -> None:
    try:
        new = lash.shim_for(shim, found, aim, i)
    except Refused:
        assert shim + i * (found - aim) <= 0
        return
    assert lash.lash_with(shim, found, new, i) == pytest.approx(aim, abs=1e-12)


@given(found=gap, tip=st.floats(10, 60), shim=length, i=ratio)
def test_stack_is_inverse(found: float, tip: float, shim: float, i: float) -> None:
    height = lash.stack_mm(found, tip, shim, i)
    assert lash.lash_in_stack(height, tip, shim, i) == pytest.approx(found, abs=1e-12)
    assert lash.shim_in_stack(height, tip, found, i) == pytest.approx(shim, abs=1e-12)


@given(found=gap, aim=gap, pitch=st.floats(0.35, 1.5), i=ratio)
def test_screw_is_inverse(found: float, aim: float, pitch: float, i: float) -> None:
    turn = lash.screw_turn_for(found, aim, pitch, i)
    assert found + lash.change_by_screw(turn, pitch, i) == pytest.approx(aim, abs=1e-12)


def test_a_sink_read_through_the_stack_is_the_sink_rule() -> None:
    before = lash.lash_in_stack(40.0, 37.9, 1.9, 1.5)
    after = lash.lash_in_stack(40.0, 37.9 + 0.15, 1.9, 1.5)
    assert after - before == pytest.approx(lash.change_by_sink(0.15, 1.5))


@pytest.mark.parametrize(
    "call",
    [
        lambda: lash.shim_for(0.0, 0.1, 0.1),
        lambda: lash.shim_for(1.0, -2.0, 0.1),
        lambda: lash.shim_for(2.0, float("nan"), 0.1),
        lambda: lash.lash_with(2.0, 0.1, 2.0, 0.0),
        lambda: lash.change_by_finger_pivot(0.1, 0.9),
        lambda: lash.factor_for(1.5, "tappet"),
        lambda: lash.change_by_screw(90, 0.0),
    ],
)
def test_refused(call) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(Refused):
        call()
