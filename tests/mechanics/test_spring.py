"""Springs against worked examples of V. B. Bhandari, *Design of Machine Elements* (ch. 10), and a standard's form.

Grade: the examples' inputs and results were read in the book's companion code; tolerances are the printed rounding.
"""

from __future__ import annotations

from math import ceil, pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics import spring
from gudgeon.problem import Refused


@pytest.mark.authority
def test_bhandari_10_4_engine_valve_spring() -> None:
    """300 N at 30 mm, 150 N at 35 mm, inside diameter 20, G 81370 N/mm², wire 4, squared and ground."""
    rate = spring.rate_from_loads(150, 35, 300, 30)
    assert rate == 30.0
    mean = 20 + 4
    coils = spring.active_coils_for(rate, 4, mean, 81370)
    assert coils == pytest.approx(6.278549, abs=5e-7)
    n = ceil(coils)
    k = spring.rate_n_per_mm(4, mean, n, 81370)
    assert k == pytest.approx(26.90807, abs=5e-6)
    assert spring.wahl_factor(spring.index(4, mean)) == pytest.approx(1.2525, abs=5e-5)
    assert spring.stress_mpa(300, 4, mean) == pytest.approx(358.81, abs=0.005)
    deflection = 300 / k
    free = spring.solid_mm(4, n + 2) + 1.15 * deflection
    assert free == pytest.approx(48.821433, abs=5e-7)
    assert ceil(free) / (n + 2 - 1) == pytest.approx(6.125)


@pytest.mark.authority
def test_bhandari_10_2() -> None:
    """2.5 to 3.5 kN over 5 mm, C 5, G 81370 N/mm², wire rounded to 11: rate 179.014 N/mm with 5 coils."""
    n = ceil(spring.active_coils_for(1000 / 5, 11, 55, 81370))
    assert n == 5
    assert spring.rate_n_per_mm(11, 55, n, 81370) == pytest.approx(179.014, abs=5e-4)
    wire = sqrt(spring.wahl_factor(5) * 8 * 3500 * 5 / (pi * 0.5 * 1050))
    assert wire == pytest.approx(10.546976, abs=5e-6)


@pytest.mark.authority
def test_bhandari_10_15_suction_valve() -> None:
    """k 10 N/mm, C 8, wire 4: 7.946 active coils, taken as 8."""
    coils = spring.active_coils_for(10, 4, 32, 81370)
    assert coils == pytest.approx(7.946, abs=5e-4)
    assert spring.solid_mm(4, ceil(coils) + 2) == 40.0


def test_valve_spring_size() -> None:
    """Guards the formulas against change: computed here from the stated formulas."""
    k = spring.rate_n_per_mm(3.2, 22, 5.5, 81500)
    assert k == pytest.approx(18.240503, abs=5e-7)
    c = spring.index(3.2, 22)
    assert c == 6.875
    assert spring.wahl_factor(c) == pytest.approx(1.217114, abs=5e-7)
    assert spring.bergstraesser_factor(c) == pytest.approx(1.204082, abs=5e-7)
    mass = spring.active_mass_kg(3.2, 22, 5.5, 7850)
    assert mass * 1000 == pytest.approx(23.9991, abs=5e-5)
    assert spring.surge_hz(k, mass) == pytest.approx(435.904, abs=5e-4)
    assert spring.load_n(48, 38, k) == pytest.approx(182.405, abs=5e-4)
    assert spring.load_n(48, 29.5, k) == pytest.approx(337.449, abs=5e-4)
    assert spring.stress_mpa(337.449, 3.2, 22) == pytest.approx(702.19, abs=0.005)
    assert spring.bind_margin_mm(38, 8.5, spring.solid_mm(3.2, 7.5)) == pytest.approx(5.5)


def test_surge_agrees_with_the_closed_form_and_the_standards_constant() -> None:
    """f = d/(2πD²n)·√(G/2ρ); EN 13906-1 (from memory) 3560·d/(nD²)·√(G/ρ) is 0.03 % higher: rounded constant."""
    here = spring.surge_hz(spring.rate_n_per_mm(3.2, 22, 5.5, 81500), spring.active_mass_kg(3.2, 22, 5.5, 7850))
    closed = 3.2e-3 / (2 * pi * 22e-3**2 * 5.5) * sqrt(81.5e9 / (2 * 7850))
    assert here == pytest.approx(closed, rel=1e-12)
    standard = 3560 * 3.2 / (5.5 * 22**2) * sqrt(81500 / 7.85)
    assert standard == pytest.approx(436.050, abs=5e-4)
    assert here == pytest.approx(standard, rel=4e-4)


def test_wahl_and_bergstraesser_of_an_independent_package() -> None:
    """C 10.8243: 1.1331576 and 1.1240778, printed by an independent machine-element package."""
    assert spring.wahl_factor(10.8243) == pytest.approx(1.1331576, abs=2e-6)
    assert spring.bergstraesser_factor(10.8243) == pytest.approx(1.1240778, abs=2e-6)


@given(c=st.floats(1.5, 30))
def test_bergstraesser_is_the_form_of_the_standard(c: float) -> None:
    assert spring.bergstraesser_factor(c) == pytest.approx((c + 0.5) / (c - 0.75), rel=1e-12)


@given(d=st.floats(1, 6), c=st.floats(3, 15), n=st.floats(2, 15))
def test_rate_and_coils_are_inverse(d: float, c: float, n: float) -> None:
    k = spring.rate_n_per_mm(d, c * d, n, 81500)
    assert spring.active_coils_for(k, d, c * d, 81500) == pytest.approx(n, rel=1e-12)


def test_least_gaps_of_the_standard() -> None:
    """EN 13906-1 (from memory), by hand: 5.5·(0.0015·22²/3.2 + 0.1·3.2) = 3.007812."""
    assert spring.least_gaps_mm(3.2, 22, 5.5) == pytest.approx(3.0078125, abs=1e-9)
    assert spring.least_gaps_mm(3.2, 22, 5.5, dynamic=True) == pytest.approx(1.5 * 3.0078125, abs=1e-9)


def test_spacer_gives_back_what_the_sink_took() -> None:
    k = 18.240503
    loose = spring.load_n(48, 38.4, k)
    assert spring.spacer_for_mm(loose, spring.load_n(48, 38, k), k) == pytest.approx(0.4)
    assert spring.spacer_for_mm(200, 180, k) == 0.0


@pytest.mark.parametrize(
    "call",
    [
        lambda: spring.rate_n_per_mm(3.2, 3.0, 5.5, 81500),
        lambda: spring.rate_n_per_mm(3.2, 22, 0, 81500),
        lambda: spring.load_n(48, 49, 18),
        lambda: spring.load_n(48, float("nan"), 18),
        lambda: spring.rate_from_loads(100, 30, 200, 30),
        lambda: spring.surge_hz(18, 0),
        lambda: spring.bind_margin_mm(38, -1, 24),
    ],
)
def test_refused(call) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(Refused):
        call()
