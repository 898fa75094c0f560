"""Lift laws against their published peak factors, and the measured-table curve against a law with reading error."""

from __future__ import annotations

from math import pi, sqrt

import numpy as np
import pytest

from gudgeon.mechanics.lift import LAWS, Lobe, curve_through, duration_at_lift_deg, motion, rises
from gudgeon.problem import Refused

PEAKS = [
    ("3-4-5", 1.875, 10 / sqrt(3), 60.0),
    ("4-5-6-7", 2.1875, 84 * sqrt(5) / 25, 52.5),
    ("cycloidal", 2.0, 2 * pi, 4 * pi**2),
    ("modified sine", 4 * pi / (4 + pi), 4 * pi**2 / (4 + pi), 69.46636),
    ("modified trapezoid", 2.0, 8 * pi / (2 + pi), 61.42597),
    ("simple harmonic", pi / 2, pi**2 / 2, pi**3 / 2),
]
FINE = np.linspace(0, 1, 200_001)


@pytest.mark.parametrize(("law", "velocity", "acceleration", "jerk"), PEAKS)
def test_exact_peaks(law: str, velocity: float, acceleration: float, jerk: float) -> None:
    _, v, a, j = rises(law, FINE)
    assert np.max(v) == pytest.approx(velocity, rel=1e-7)
    assert np.max(np.abs(a)) == pytest.approx(acceleration, rel=1e-7)
    assert np.max(np.abs(j)) == pytest.approx(jerk, rel=1e-6)


@pytest.mark.authority
@pytest.mark.parametrize(
    ("law", "velocity", "acceleration", "jerk"),
    [
        ("3-4-5", 1.875, 5.777, 60),
        ("4-5-6-7", 2.188, 7.526, 52),
        ("cycloidal", 2.000, 6.283, 40),
        ("modified sine", 1.760, 5.528, 69.47),
        ("modified trapezoid", 2.000, 4.888, 61),
    ],
)
def test_printed_peaks(law: str, velocity: float, acceleration: float, jerk: float) -> None:
    """Norton's table of peak factors (from memory): 5.777 and 7.526 are rounded or read off, exact 5.7735 and 7.5132."""
    _, v, a, j = rises(law, FINE)
    assert np.max(v) == pytest.approx(velocity, rel=3e-3)
    assert np.max(np.abs(a)) == pytest.approx(acceleration, rel=3e-3)
    assert np.max(np.abs(j)) == pytest.approx(jerk, rel=1.5e-2)


@pytest.mark.parametrize(("law", "start", "middle"), [("3-4-5", 60, -30), ("modified sine", 69.46636, -23.15545)])
def test_jerk_at_start_and_middle(law: str, start: float, middle: float) -> None:
    _, _, _, j = rises(law, np.array([0.0, 0.5]))
    assert j == pytest.approx([start, middle], abs=5e-6)


@pytest.mark.authority
def test_peaks_of_an_independent_cam_package() -> None:
    """Cycloidal, 10 mm in 60°, 2π rad/s: 120 mm/s, 2261.947 mm/s², 85273.38 mm/s³ (package ``mechanism`` 1.1.10)."""
    _, v, a, j = (np.max(np.abs(row)) for row in rises("cycloidal", FINE))
    speed = 2 * pi / (pi / 3)
    assert (10 * v * speed, 10 * a * speed**2, 10 * j * speed**3) == pytest.approx((120, 2261.947, 85273.38), rel=1e-6)


@pytest.mark.parametrize("law", LAWS)
def test_each_row_is_the_derivative_of_the_one_before(law: str) -> None:
    h = 1e-5
    u = np.random.default_rng(3).uniform(0.01, 0.99, 200)
    u = u[np.min(np.abs(u[:, None] - np.array([0.125, 0.375, 0.5, 0.625, 0.875])), axis=1) > 2 * h]
    rows, before, after = rises(law, u), rises(law, u - h), rises(law, u + h)
    for order in range(3):
        slope = (after[order] - before[order]) / (2 * h)
        assert slope == pytest.approx(rows[order + 1], abs=2e-6 * 10 ** (order + 1))


@pytest.mark.parametrize("law", LAWS)
def test_a_rise_goes_from_rest_to_rest_and_is_symmetric(law: str) -> None:
    s, v, _, _ = rises(law, FINE)
    assert (s[0], s[-1], v[0], v[-1]) == pytest.approx((0, 1, 0, 0), abs=1e-9)
    assert np.all(np.diff(s) >= -1e-12)
    assert np.allclose(s + s[::-1], 1.0, rtol=0, atol=1e-9)
    assert all(np.array_equal(a, b) for a, b in zip(rises(law, FINE, 2), rises(law, FINE), strict=False))


LOBE = Lobe(law="3-4-5", lift_mm=8, half_event_cam_deg=65)


@pytest.mark.parametrize(
    ("lift", "duration"), [(0.1, 230.273), (0.5, 206.483), (1.0, 189.962), (1.27, 182.856), (0.0, 260.0)]
)
def test_duration_at_lift(lift: float, duration: float) -> None:
    assert duration_at_lift_deg(LOBE, lift) == pytest.approx(duration, abs=5e-4)


def test_motion_of_a_lobe() -> None:
    assert motion(LOBE, 0).lift_mm == 8
    assert motion(LOBE, -30).lift_mm == pytest.approx(motion(LOBE, 30).lift_mm)
    assert motion(LOBE, -30).velocity_mm_per_rad == pytest.approx(-motion(LOBE, 30).velocity_mm_per_rad)
    assert motion(LOBE, -30).velocity_mm_per_rad > 0
    assert motion(LOBE, 66).lift_mm == motion(LOBE, -65).lift_mm == 0
    peak = min(motion(LOBE, a / 10).acceleration_mm_per_rad2 for a in range(650))
    assert peak == pytest.approx(-35.8879, abs=5e-4)


def rms(errors: list[float]) -> float:
    return float(np.sqrt(np.mean(np.square(errors))))


def test_curve_through_a_measured_table() -> None:
    """A 3-4-5 lobe read every 2° with 3 µm error: root mean square of the errors, against the peaks 8, 13.2, 35.9."""
    rng = np.random.default_rng(11)
    angles = np.arange(-65.0, 65.1, 2.0)
    lifts = [motion(LOBE, float(a)).lift_mm + rng.normal(0, 0.003) for a in angles]
    curve = curve_through(angles.tolist(), lifts, 0.003)
    pairs = [(curve.at(a), motion(LOBE, a)) for a in np.arange(-50.0, 51.0, 1.0).tolist()]
    assert rms([f.lift_mm - t.lift_mm for f, t in pairs]) < 0.003
    assert rms([f.velocity_mm_per_rad - t.velocity_mm_per_rad for f, t in pairs]) < 0.01 * 13.2
    assert rms([f.acceleration_mm_per_rad2 - t.acceleration_mm_per_rad2 for f, t in pairs]) < 0.05 * 35.9
    assert curve.rms_mm == pytest.approx(0.003, rel=0.12)
    assert curve.knots < len(angles) / 2


def test_a_curve_through_exact_readings_has_the_jerk_of_the_law() -> None:
    angles = np.arange(-65.0, 0.1, 1.0)
    curve = curve_through(angles.tolist(), [motion(LOBE, float(a)).lift_mm for a in angles], 1e-7)
    for angle in (-40.0, -32.5, -20.0):
        assert curve.at(angle).jerk_mm_per_rad3 == pytest.approx(motion(LOBE, angle).jerk_mm_per_rad3, rel=2e-3)


@pytest.mark.parametrize(
    "call",
    [
        lambda: Lobe(law="parabolic", lift_mm=8, half_event_cam_deg=65),
        lambda: Lobe(law="3-4-5", lift_mm=0, half_event_cam_deg=65),
        lambda: Lobe(law="3-4-5", lift_mm=8, half_event_cam_deg=200),
        lambda: motion(LOBE, float("nan")),
        lambda: duration_at_lift_deg(LOBE, 8.0),
        lambda: curve_through([0, 1, 2], [0, 1, 2], 0.01),
        lambda: curve_through([0, 1, 2, 3, 4, 5, 6, 6], [0] * 8, 0.01),
        lambda: curve_through(list(range(9)), [float("nan")] * 9, 0.01),
        lambda: curve_through(list(range(9)), list(range(9)), 0.01).at(20),
    ],
)
def test_refused(call) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(Refused):
        call()
