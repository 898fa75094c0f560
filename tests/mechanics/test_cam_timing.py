"""Cam timing: durations, teeth and chain against their definitions, an exact chain line and a brute-force search."""

from __future__ import annotations

from math import erf, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics import cam_timing as cam
from gudgeon.mechanics.float_speed import cam_rad_per_s, float_rpm, force_needed_n, moving_mass_kg
from gudgeon.problem import Refused


@pytest.mark.parametrize(
    ("events", "expected"),
    [
        ((20, 60, 60, 20), (260, 260, 110, 110, 110, 40, 0)),
        ((10, 50, 45, 5), (240, 230, 110, 110, 110, 15, 0)),
    ],
)
def test_events(events: tuple[float, ...], expected: tuple[float, ...]) -> None:
    t = cam.timing(*events)
    got = (
        t.intake_duration_deg,
        t.exhaust_duration_deg,
        t.intake_centre_deg,
        t.exhaust_centre_deg,
        t.separation_cam_deg,
        t.overlap_deg,
        t.advance_deg,
    )
    assert got == expected


event = st.floats(-30, 90)


@given(ivo=event, ivc=event, evo=event, evc=event)
def test_overlap_follows_from_durations_and_separation(ivo: float, ivc: float, evo: float, evc: float) -> None:
    t = cam.timing(ivo, ivc, evo, evc)
    other = (t.intake_duration_deg + t.exhaust_duration_deg) / 2 - 2 * t.separation_cam_deg
    assert t.overlap_deg == pytest.approx(other, abs=1e-9)
    assert t.intake_centre_deg == pytest.approx((-ivo + 180 + ivc) / 2, abs=1e-9)


@given(ivo=event, ivc=event, evo=event, evc=event, late=st.floats(-15, 15))
def test_a_late_intake_cam_moves_its_centre_and_the_overlap(
    ivo: float, ivc: float, evo: float, evc: float, late: float
) -> None:
    before, after = cam.timing(ivo, ivc, evo, evc), cam.timing(ivo - late, ivc + late, evo, evc)
    assert after.intake_centre_deg - before.intake_centre_deg == pytest.approx(late, abs=1e-9)
    assert after.overlap_deg - before.overlap_deg == pytest.approx(-late, abs=1e-9)


@pytest.mark.parametrize(("teeth", "step"), [(28, 25.714), (32, 22.5), (34, 21.176), (36, 20), (38, 18.947), (40, 18)])
def test_one_tooth(teeth: int, step: float) -> None:
    assert cam.tooth_step_deg(teeth) == pytest.approx(step, abs=5e-4)


@given(error=st.floats(-80, 80), teeth=st.integers(20, 60), u=st.floats(0.5, 6))
def test_tooth_is_the_likeliest_by_brute_force(error: float, teeth: int, u: float) -> None:
    step = 720 / teeth
    number = np.arange(-60, 61)
    density = np.exp(-0.5 * ((error - number * step) / u) ** 2 + 0.5 * np.min(((error - number * step) / u) ** 2))
    found = cam.tooth_error(error, teeth, u)
    assert found.probability == pytest.approx(density.max() / density.sum(), abs=1e-6)
    assert abs(found.residual_deg) <= step / 2 + 1e-9
    assert found.teeth * step + found.residual_deg == pytest.approx(error, abs=1e-9)


@given(error=st.floats(-80, 80), teeth=st.integers(20, 60), u=st.floats(0.5, 6))
def test_the_odds_of_the_teeth_by_brute_force(error: float, teeth: int, u: float) -> None:
    """Bayes' rule over 121 numbers of teeth: beyond seven about the nearest next to nothing is left."""
    number = np.arange(-60, 61)
    square = ((error - number * 720 / teeth) / u) ** 2
    density = np.exp(-0.5 * (square - square.min()))
    whole = dict(zip(number.tolist(), (density / density.sum()).tolist(), strict=True))
    odds = cam.tooth_odds(error, teeth, u)
    assert sum(p for _, p in odds) == pytest.approx(1.0)
    assert [p for _, p in odds] == sorted((p for _, p in odds), reverse=True)
    assert odds[0][0] == cam.tooth_error(error, teeth, u).teeth or odds[0][1] == pytest.approx(odds[1][1])
    for k, p in odds:
        assert p == pytest.approx(whole[k], abs=2e-3)


def test_half_a_tooth_is_a_coin_toss() -> None:
    assert cam.tooth_error(10.0, 36, 1.0).probability == pytest.approx(0.5, abs=1e-6)
    assert cam.tooth_error(0.0, 36, 1.0).probability > 0.999999


def test_probability_is_the_share_of_right_calls() -> None:
    """Errors drawn from all numbers of teeth alike: of the calls at 90 to 95 %, 90 to 95 % are right."""
    rng = np.random.default_rng(7)
    truth = rng.integers(-2, 3, 20_000)
    errors = truth * 20.0 + rng.normal(0, 6.0, 20_000)
    calls = [cam.tooth_error(e, 36, 6.0) for e in errors if abs(e) < 300]
    right = np.array([c.teeth == t for c, t in zip(calls, truth, strict=True)])
    said = np.array([c.probability for c in calls])
    near = (said > 0.90) & (said < 0.95)
    assert near.sum() > 500
    assert right[near].mean() == pytest.approx(said[near].mean(), abs=3 * sqrt(0.07 / near.sum()) + 0.005)
    assert right.mean() > erf(10 / 6 / sqrt(2)) - 0.01


def test_chain_and_milling() -> None:
    assert cam.pitch_radius_mm(6.35, 34) == pytest.approx(34.41050, abs=5e-6)
    assert cam.pitch_radius_mm(6.35, 17) == pytest.approx(17.27896, abs=5e-6)
    assert cam.shift_by_milling_deg(0.30, 6.35, 34, 17, 250) == pytest.approx(0.99669, abs=5e-6)
    assert cam.shift_by_milling_deg(0.30, 6.35, 34, 17, 250) / 2 == pytest.approx(0.498346, abs=5e-7)
    assert cam.shift_by_milling_exact_deg(0.30, 6.35, 34, 17, 250) / 2 == pytest.approx(0.498344, abs=5e-7)


def test_milling_retards_and_a_thicker_gasket_advances() -> None:
    assert cam.shift_by_milling_deg(0.3, 6.35, 34, 17, 250) > 0
    assert cam.shift_by_milling_deg(-0.3, 6.35, 34, 17, 250) < 0


@given(m=st.floats(-1, 1), pitch=st.sampled_from([6.35, 7.774, 8.0, 9.525]), teeth=st.integers(13, 22))
def test_linear_and_exact_agree(m: float, pitch: float, teeth: int) -> None:
    linear = cam.shift_by_milling_deg(m, pitch, 2 * teeth, teeth, 250)
    exact = cam.shift_by_milling_exact_deg(m, pitch, 2 * teeth, teeth, 250)
    assert linear == pytest.approx(exact, rel=5e-4, abs=1e-9)


def test_wear_that_lengthens_the_strand_like_milling_shortens_the_way() -> None:
    """0.3 mm more strand is the same as 0.3/cos β less distance."""
    free = sqrt(250**2 - (34.41050 - 17.27896) ** 2)
    wear = cam.shift_by_chain_wear_deg(0.3 / free * 100, 6.35, 34, 17, 250)
    milled = cam.shift_by_milling_deg(0.3 / (free / 250), 6.35, 34, 17, 250)
    assert wear == pytest.approx(milled, rel=1e-6)


def test_float_speed() -> None:
    """8 mm in 65 cam degrees, peak factor 10/√3, 85 g, 280 N."""
    peak = 8 * 10 / sqrt(3) / 65**2 * (180 / np.pi) ** 2
    assert peak == pytest.approx(35.8879, abs=5e-5)
    rpm = float_rpm(280, 0.085, peak)
    assert cam_rad_per_s(rpm) == pytest.approx(302.967, abs=5e-4)
    assert rpm == pytest.approx(5786.25, abs=5e-3)
    assert force_needed_n(rpm, 0.085, peak) == pytest.approx(280, rel=1e-12)
    assert moving_mass_kg(0.045, 0.012, 0.024, other_kg=0.02, inertia_kg_mm2=9.0, valve_arm_mm=30) == pytest.approx(
        0.095
    )


@pytest.mark.parametrize(
    "call",
    [
        lambda: cam.timing(20, 60, 60, 200),
        lambda: cam.timing(float("nan"), 60, 60, 20),
        lambda: cam.tooth_error(10, 36.5),
        lambda: cam.tooth_error(10, 0),
        lambda: cam.tooth_error(10, 36, 0),
        lambda: cam.shift_by_milling_deg(0.3, 6.35, 34, 17, 50),
        lambda: cam.shift_by_milling_deg(0.3, 0, 34, 17, 250),
        lambda: cam.shift_by_chain_wear_deg(-1, 6.35, 34, 17, 250),
        lambda: float_rpm(0, 0.085, 30),
        lambda: float_rpm(280, 0, 30),
    ],
)
def test_refused(call) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(Refused):
        call()
