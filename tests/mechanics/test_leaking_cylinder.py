"""A cranked cylinder with a hole: pinned results of two other solutions of the same physics.

Pins: bore 60, stroke 50, rod 100, ratio 9, closed at the bottom, 101.325 kPa, 20 °C, Cd 0.8, γ 1.4; the full energy
balance (mass and temperature as separate unknowns), and a reactor network with moving wall and the real specific heat of
air. Here a single equation is solved, since what stays in the cylinder is compressed as if alone.
"""

from __future__ import annotations

from math import pi, radians, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.mechanics import leak
from gudgeon.mechanics.crank import volume_ratio
from gudgeon.mechanics.cranking import Peak, compressed_kpa, leaking_compression

PINS = [
    (0.0, 250, 21.961, 1.0), (0.0, 1000, 21.961, 1.0),
    (0.3, 250, 21.064, 0.9705), (0.3, 500, 21.505, 0.9851), (0.3, 1000, 21.732, 0.9925),
    (0.5, 250, 19.589, 0.9206), (0.5, 500, 20.728, 0.9593), (0.5, 1000, 21.332, 0.9794),
    (1.0, 250, 14.292, 0.7245), (1.0, 500, 17.558, 0.8488), (1.0, 1000, 19.589, 0.9206),
    (1.5, 250, 9.118, 0.4987), (1.5, 500, 13.610, 0.6970), (1.5, 1000, 17.096, 0.8319),
]  # fmt: skip


def cranked(hole: float, rpm: float, **more: float) -> Peak:
    return leaking_compression(bore_mm=60, stroke_mm=50, rod_mm=100, ratio=9, speed_rpm=rpm, leak_mm=hole, **more)


@pytest.mark.parametrize(("hole", "rpm", "bar", "left"), PINS)
def test_pins(hole: float, rpm: float, bar: float, left: float) -> None:
    peak = cranked(hole, rpm)
    assert peak.pressure_kpa / 100 == pytest.approx(bar, abs=1.2e-3)
    assert peak.mass_left == pytest.approx(left, abs=6e-5)


def test_the_peak_comes_before_the_top() -> None:
    assert cranked(1.0, 250).before_top_deg == pytest.approx(4.5, abs=0.15)
    assert cranked(0.0, 250).before_top_deg == pytest.approx(0, abs=1e-9)


def test_without_a_leak_it_is_the_exponent() -> None:
    assert cranked(0, 300).pressure_kpa == pytest.approx(compressed_kpa(9, 1.4, 101.325), rel=1e-9)
    lossy = cranked(0, 300, exponent=1.3)
    assert lossy.pressure_kpa == pytest.approx(compressed_kpa(9, 1.3, 101.325), rel=1e-9)


@settings(max_examples=8, deadline=None)
@given(st.floats(0.1, 1.2), st.floats(200, 900), st.floats(1.2, 4))
def test_depends_on_opening_over_speed_only(hole: float, rpm: float, times: float) -> None:
    one, other = cranked(hole, rpm), cranked(hole * sqrt(times), rpm * times)
    assert one.pressure_kpa == pytest.approx(other.pressure_kpa, rel=1e-9)
    third = cranked(hole * sqrt(0.8), rpm, discharge=1.0)
    assert one.pressure_kpa == pytest.approx(third.pressure_kpa, rel=1e-9)


def full_balance(hole: float, rpm: float, cv_of: object = None) -> tuple[float, float]:
    """Mass and temperature as two unknowns, by a solver with error control: peak in bar, mass left at the top."""
    from scipy.integrate import solve_ivp

    gas, ambient, start = 287.05, 101325.0, 293.15
    clearance = pi / 4 * 0.06**2 * 0.05 / 8
    first = ambient * 9 * clearance / (gas * start)
    opening = 0.8 * pi / 4 * (hole / 1000) ** 2
    omega = rpm * 2 * pi / 60

    def volume(t: float) -> float:
        return clearance * volume_ratio(180 + t / radians(1), 9, 50, 100)

    def slope(t: float, y: list[float]) -> list[float]:
        mass, kelvin = y
        v, dv = volume(t), (volume(t + 1e-6) - volume(t - 1e-6)) / 2e-6
        p = mass * gas * kelvin / v
        cv = gas / 0.4 if cv_of is None else cv_of(kelvin)  # type: ignore[operator]
        flow = opening * p / sqrt(gas * kelvin) * leak.flow_function(min(1.0, ambient / p)) / omega
        return [-flow, (-p * dv - flow * gas * kelvin) / (mass * cv)]

    done = solve_ivp(slope, (0, pi), [first, start], rtol=1e-9, atol=1e-14, max_step=0.02)
    bars = [m * gas * k / volume(t) / 1e5 for t, m, k in zip(done.t, *done.y, strict=True)]
    return max(bars), float(done.y[0][-1] / first)


@pytest.mark.parametrize(("hole", "rpm"), [(0.4, 300), (1.2, 420)])
def test_one_equation_is_as_good_as_two(hole: float, rpm: float) -> None:
    bar, left = full_balance(hole, rpm)
    peak = cranked(hole, rpm)
    assert peak.pressure_kpa / 100 == pytest.approx(bar, abs=2e-3)
    assert peak.mass_left == pytest.approx(left, abs=1e-5)


@pytest.mark.authority
@pytest.mark.parametrize(("hole", "bar", "left"), [(0.5, 20.157, 0.9595), (1.0, 17.144, 0.8492)])
def test_real_specific_heat(hole: float, bar: float, left: float) -> None:
    """A reactor network gave these at 500/min, and 21.321 bar without a leak; that is 0.3 % below 21.387, the same
    program's isentropic answer, which the full balance meets: so its share of the leak-free pressure is compared.
    """
    import cantera

    air = cantera.Solution("air.yaml")

    def cv(kelvin: float) -> float:
        air.TPX = kelvin, 101325, "O2:0.2095, N2:0.7809, AR:0.0093"
        return float(air.cv_mass)

    tight, (there, share) = full_balance(0.0, 500, cv)[0], full_balance(hole, 500, cv)
    assert tight == pytest.approx(21.38716, rel=3e-4)
    assert there / tight == pytest.approx(bar / 21.321, rel=1.5e-3)
    assert share == pytest.approx(left, abs=5e-4)
    assert cranked(hole, 500).mass_left == pytest.approx(share, abs=1e-3)
    assert cranked(hole, 500, exponent=1.388).pressure_kpa / 100 == pytest.approx(there, rel=5e-3)
