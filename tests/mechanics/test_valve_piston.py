"""Valve-to-piston clearance against a dense search over the crank, signs of what moves it, and its uncertainty."""

from __future__ import annotations

from math import cos, radians

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.mechanics import valve_piston as vp
from gudgeon.mechanics.crank import piston_travel_mm
from gudgeon.mechanics.lift import LAWS, Lobe, motion
from gudgeon.problem import Refused

LOBE = Lobe(law="3-4-5", lift_mm=8, half_event_cam_deg=65)
TRAIN = vp.Train(stroke_mm=50, rod_mm=100, lobe=LOBE, valve_angle_deg=15)


def least(gap: float, centre: float, lash: float = 0.0, train: vp.Train = TRAIN) -> tuple[float, float]:
    found = vp.least_gaps(train, np.array([gap]), np.array([centre]), np.array([lash]))
    return float(found[0][0]), float(found[1][0])


@pytest.mark.parametrize(
    ("centre", "gap", "angle"), [(110, 2.197222, 4.79), (106, 1.990242, 6.49), (114, 2.343052, 3.18)]
)
def test_least_gap(centre: float, gap: float, angle: float) -> None:
    assert least(2.5, centre) == (pytest.approx(gap, abs=5e-7), pytest.approx(angle, abs=5e-3))


def test_milling_and_sink() -> None:
    milled = vp.gap_shut_after_mm(2.5, 15, milled_mm=0.3)
    assert least(milled, 110)[0] == pytest.approx(1.907445, abs=5e-7)
    assert vp.gap_shut_after_mm(2.5, 15, sunk_mm=0.4) == pytest.approx(2.9)
    assert vp.gap_shut_after_mm(2.5, 15, milled_mm=-0.3) > 2.5


def test_late_cam_takes_from_the_exhaust_and_gives_to_the_intake() -> None:
    late = 2.0
    assert least(2.5, -110 + late)[0] < least(2.5, -110)[0]
    assert least(2.5, 110 + late)[0] > least(2.5, 110)[0]
    assert least(2.5, -110)[0] == pytest.approx(least(2.5, 110)[0], abs=1e-9)


def test_lash_gives_its_own_size_back_while_open() -> None:
    with_lash, angle = least(2.5, 106, 0.1)
    assert angle > 0
    assert with_lash == pytest.approx(least(2.5, 106)[0] + 0.1, abs=1e-9)


def test_with_the_valve_shut_it_is_the_gap_at_top() -> None:
    short = vp.Train(
        stroke_mm=50, rod_mm=100, lobe=Lobe(law="cycloidal", lift_mm=6, half_event_cam_deg=45), valve_angle_deg=15
    )
    assert least(1.2, 150, 0.0, short) == (pytest.approx(1.2, abs=1e-12), pytest.approx(0, abs=1e-6))


def dense(train: vp.Train, gap: float, centre: float, lash: float) -> float:
    """The definition, every 0.005° from −75° to +75°; further away the piston is beyond any lift."""
    angle = np.radians(np.arange(-75, 75, 0.005))
    a, rod, e = train.stroke_mm / 2, train.rod_mm, train.offset_mm
    x = np.sqrt((rod + a) ** 2 - e**2) - a * np.cos(angle) - np.sqrt(rod**2 - (a * np.sin(angle) - e) ** 2)
    from gudgeon.mechanics.lift import rises

    u = np.clip(1 - np.abs(np.degrees(angle) - centre) / (2 * train.lobe.half_event_cam_deg), 0, 1)
    y = np.maximum(train.lobe.lift_mm * rises(train.lobe.law, u)[0] - lash, 0)
    return float(np.min(gap + x * cos(radians(train.valve_angle_deg)) - y))


@settings(max_examples=80, deadline=None)
@given(
    law=st.sampled_from(LAWS),
    lift=st.floats(4, 14),
    half=st.floats(50, 80),
    stroke=st.floats(35, 90),
    ratio=st.floats(1.6, 2.4),
    offset=st.floats(-2, 2),
    lean=st.floats(0, 30),
    centre=st.floats(80, 140),
    side=st.sampled_from([-1, 1]),
    lash=st.floats(0, 0.3),
)
def test_never_above_and_hardly_below_a_dense_search(
    law: str, lift: float, half: float, stroke: float, ratio: float, offset: float, lean: float, centre: float,
    side: int, lash: float,
) -> None:  # fmt: skip
    lobe = Lobe(law=law, lift_mm=lift, half_event_cam_deg=half)
    train = vp.Train(stroke_mm=stroke, rod_mm=stroke * ratio, lobe=lobe, valve_angle_deg=lean, offset_mm=offset)
    found, angle = least(3.0, side * centre, lash, train)
    searched = dense(train, 3.0, side * centre, lash)
    assert searched - 2e-5 <= found <= searched + 1e-9
    assert vp.gap_at_mm(train, angle, 3.0, side * centre, lash) == pytest.approx(found, abs=1e-9)


@given(angle=st.floats(-180, 180), centre=st.floats(-130, 130))
def test_one_angle_is_crank_and_lobe_put_together(angle: float, centre: float) -> None:
    apart = 3.0 + piston_travel_mm(angle, 50, 100) * cos(radians(15)) - motion(LOBE, (angle - centre) / 2).lift_mm
    assert vp.gap_at_mm(TRAIN, angle, 3.0, centre) == pytest.approx(apart, abs=1e-9)


def test_many_draws_are_each_as_one() -> None:
    rng = np.random.default_rng(5)
    gap, centre, lash = 2.5 + rng.normal(0, 0.05, 200), 110 + rng.normal(0, 2, 200), rng.uniform(0, 0.2, 200)
    many, _ = vp.least_gaps(TRAIN, gap, centre, lash)
    ones = [least(*row)[0] for row in zip(gap, centre, lash, strict=True)]
    assert many == pytest.approx(ones, abs=1e-9)


def test_uncertainty_agrees_with_the_slopes() -> None:
    """Small spreads: u² = u_gap² + (dg/dcentre · u_centre)² + u_lash², the slope by differences."""
    slope = (least(2.5, 110.01, 0.1)[0] - least(2.5, 109.99, 0.1)[0]) / 0.02
    found = vp.least_gap(
        TRAIN,
        vp.Known(value=2.5, u=0.01),
        vp.Known(value=110, u=0.2),
        vp.Known(value=0.1, u=0.005),
        seed=2,
        draws=100_000,
    )
    expected = (0.01**2 + (slope * 0.2) ** 2 + 0.005**2) ** 0.5
    assert found.u_mm == pytest.approx(expected, rel=0.01)
    assert found.high_mm - found.low_mm == pytest.approx(2 * 1.96 * expected, rel=0.02)
    assert found.low_mm < found.gap_mm < found.high_mm


def test_same_seed_same_answer() -> None:
    ask = (TRAIN, vp.Known(value=2.5, u=0.05), vp.Known(value=110, u=1), vp.Known(value=0.1, u=0.01))
    assert vp.least_gap(*ask, seed=3) == vp.least_gap(*ask, seed=3)
    assert vp.least_gap(*ask, seed=3) != vp.least_gap(*ask, seed=4)


@pytest.mark.parametrize(
    "call",
    [
        lambda: vp.Train(stroke_mm=50, rod_mm=24, lobe=LOBE),
        lambda: vp.Train(stroke_mm=50, rod_mm=100, lobe=LOBE, valve_angle_deg=90),
        lambda: vp.gap_at_mm(TRAIN, float("nan"), 2.5, 110),
        lambda: vp.gap_at_mm(TRAIN, 0, float("inf"), 110),
        lambda: vp.gap_shut_after_mm(2.5, 80),
        lambda: least(2.5, float("nan")),
        lambda: vp.least_gap(TRAIN, vp.Known(value=2.5, u=-1), vp.Known(value=110), vp.Known(value=0), seed=1),
        lambda: vp.least_gap(TRAIN, vp.Known(value=2.5), vp.Known(value=110), vp.Known(value=0), seed=1, draws=10**9),
    ],
)
def test_refused(call) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(Refused):
        call()
