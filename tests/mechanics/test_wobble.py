"""Wobble against the exact tilt of a strip in a rectangle, found by a root finder, and against its own inverse."""

from __future__ import annotations

from math import cos, sin, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from gudgeon.mechanics import wobble
from gudgeon.problem import Refused


@pytest.mark.parametrize(("x", "reading"), [(10, 0.06), (20, 0.08), (40, 0.12)])
def test_readings_on_a_guide_of_forty(x: float, reading: float) -> None:
    assert wobble.reading_mm(0.04, 40, x) == pytest.approx(reading, abs=1e-12)
    assert wobble.clearance_mm(reading, 40, x) == pytest.approx(0.04, abs=1e-12)


def test_magnification_is_two_at_half_the_guide() -> None:
    assert wobble.magnification(40, 20) == 2.0
    assert wobble.magnification(40, 0) == 1.0


def test_half_the_rock_is_right_at_one_place_only() -> None:
    assert wobble.clearance_mm(0.08, 40, 20) == pytest.approx(0.08 / 2)
    assert wobble.clearance_mm(0.08, 40, 10) > 0.08 / 2
    assert wobble.clearance_mm(0.08, 40, 40) < 0.08 / 2


@pytest.mark.parametrize(("clearance", "percent"), [(0.03, 0.006), (0.10, 0.02)])
def test_exact_tilt_differs_by_what_is_stated(clearance: float, percent: float) -> None:
    exact = wobble.exact_reading_mm(clearance, 6.0, 40, 20)
    rule = wobble.reading_mm(clearance, 40, 20)
    assert 0 < (rule - exact) / rule * 100 < percent * 1.1


@given(c=st.floats(0.005, 0.3), stem=st.floats(4, 12), length=st.floats(20, 80), x=st.floats(0, 60))
def test_tilt_solves_its_equation(c: float, stem: float, length: float, x: float) -> None:
    tilt = brentq(lambda a: (stem + c) * cos(a) - stem - length * sin(a), 0, 0.5, xtol=1e-15)
    assert wobble.exact_reading_mm(c, stem, length, x) == pytest.approx((length + 2 * x) * tan(tilt), rel=1e-9)


@given(c=st.floats(0, 1), length=st.floats(10, 80), x=st.floats(0, 60))
def test_inverse_and_never_less_than_the_clearance(c: float, length: float, x: float) -> None:
    reading = wobble.reading_mm(c, length, x)
    assert reading >= c
    assert wobble.clearance_mm(reading, length, x) == pytest.approx(c, abs=1e-12)


@pytest.mark.parametrize("bad", [(-0.1, 40, 10), (0.1, 0, 10), (0.1, 40, -1), (float("nan"), 40, 10)])
def test_refused(bad: tuple[float, float, float]) -> None:
    with pytest.raises(Refused):
        wobble.clearance_mm(*bad)
