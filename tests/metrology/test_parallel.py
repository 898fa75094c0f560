"""Lines of one slope: against least squares with dummy variables, against a line alone, and against published liner wear."""

from __future__ import annotations

from itertools import pairwise
from random import Random

import numpy as np
import pytest
import statsmodels.api as sm
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.metrology.parallel import parallel_lines
from gudgeon.metrology.trend import straight_line
from gudgeon.problem import Refused

#: Wear of marine diesel cylinder liners, hours and mm (Giorgio, Guida and Pulcini, Technometrics; data set `liner`).
LINER_1 = ([11300.0, 14680.0, 31270.0], [0.90, 1.30, 2.85])
LINER_2 = ([11360.0, 17200.0], [0.80, 1.35])
LINER_25 = ([12000.0, 27300.0, 49500.0, 56120.0], [1.95, 2.70, 3.15, 4.05])
LIVES = (LINER_1, LINER_2, LINER_25)


def by_dummies(x: float, life: int) -> tuple[float, float, float, float]:
    """Slope, its doubt and the prediction interval by another's least squares, a column for each life."""
    rows, sizes = [], []
    for n, (ages, wear) in enumerate(LIVES):
        rows += [[age, *(float(n == k) for k in range(len(LIVES)))] for age in ages]
        sizes += wear
    fit = sm.OLS(np.array(sizes), np.array(rows)).fit()
    low, high = fit.get_prediction([[x, *(float(life == k) for k in range(len(LIVES)))]]).conf_int(obs=True)[0]
    return float(fit.params[0]), float(fit.bse[0]), float(low), float(high)


@pytest.mark.authority
@pytest.mark.parametrize("life", range(3))
def test_one_slope_and_its_next_readings_are_those_of_least_squares_with_dummies(life: int) -> None:
    fit = parallel_lines(LIVES)
    slope, u, low, high = by_dummies(40_000.0, life)
    assert (fit.slope, fit.u_slope) == pytest.approx((slope, u), rel=1e-9)
    assert fit.next_reading(life, 40_000.0) == pytest.approx((low, high), rel=1e-9)


@pytest.mark.authority
def test_a_line_through_a_liner_passes_a_measured_breach_by() -> None:
    """Liner 25 was at 4.05 mm after 56 120 h; its line reaches the limit of 4 mm at 61 428 h only."""
    ages, wear = LINER_25
    alone = straight_line(ages, wear)
    assert alone.reaches(4.0)[0] == pytest.approx(61_428.1, abs=0.05)
    may = parallel_lines([LINER_25]).may_reach(0, 4.0)
    assert may is not None and may < 56_120.0
    assert straight_line(*LINER_1).reaches(4.0)[0] == pytest.approx(43_140.5, abs=0.05)


def test_one_life_alone_is_a_straight_line() -> None:
    line, fit = straight_line(*LINER_25), parallel_lines([LINER_25])
    assert (fit.slope, fit.u_slope, fit.s, fit.nu) == pytest.approx((line.slope, line.u_slope, line.s, line.nu))
    assert fit.next_reading(0, 70_000.0) == pytest.approx(line.at(70_000.0).next_reading)


@given(limit=st.floats(0.02, 0.2), start=st.floats(-0.01, 0.01), seed=st.integers(0, 10**6))
def test_where_it_may_reach_a_limit_its_next_reading_just_touches_it(limit: float, start: float, seed: int) -> None:
    rng = Random(seed)
    ages = [0.0, 120.0, 260.0, 400.0]
    fit = parallel_lines([(ages, [start + 1e-4 * a + rng.gauss(0.0, 0.001) for a in ages])])
    at = fit.may_reach(0, limit)
    assert at is not None
    if at > fit.means[0][1]:
        assert fit.next_reading(0, at)[1] == pytest.approx(limit, abs=1e-9)
        assert fit.next_reading(0, at - 1.0)[1] < limit


def test_falling_sizes_reach_a_lower_limit_alike() -> None:
    ages, gone = [0.0, 120.0, 260.0, 400.0], [0.000, 0.011, 0.027, 0.039]
    up, down = parallel_lines([(ages, gone)]), parallel_lines([(ages, [5.0 - g for g in gone])])
    assert down.may_reach(0, 4.94, above=False) == pytest.approx(up.may_reach(0, 0.06))


def test_more_doubt_of_the_gauge_and_less_history_look_again_sooner() -> None:
    ages, wear = [0.0, 100.0, 200.0, 300.0, 400.0], [0.0, 0.010, 0.020, 0.030, 0.040]
    dues = [parallel_lines([(ages, wear)], least_s=s).may_reach(0, 0.08) for s in (0.0005, 0.001, 0.002)]
    dues += [parallel_lines([(ages[:n], wear[:n])], least_s=0.002).may_reach(0, 0.08) for n in (4, 3)]
    assert all(a is not None and b is not None and a > b for a, b in pairwise(dues))


def test_a_life_of_one_reading_borrows_the_slope_of_the_others() -> None:
    fit = parallel_lines([*LIVES, ([100.0], [0.0])])
    assert fit.slope == pytest.approx(parallel_lines(LIVES).slope)
    at = fit.may_reach(3, 4.0)
    assert at is not None and 100.0 < at < 100.0 + 4.0 / fit.slope


def test_wear_that_goes_the_other_way_may_still_reach_by_its_doubt_or_never() -> None:
    ages = [0.0, 100.0, 200.0, 300.0]
    assert parallel_lines([(ages, [0.0, -0.01, -0.02, -0.0301])]).may_reach(0, 0.5) is None


@pytest.mark.parametrize(
    "lives",
    [[], [([0.0, 100.0], [0.0, 0.01])], [([0.0], [0.0])], [([5.0, 5.0, 5.0], [0.0, 0.1, 0.2])], [([], [])], [([1.0], [])],
     [([0.0, 1.0, float("nan")], [0.0, 1.0, 2.0])]],
)  # fmt: skip
def test_too_little_or_nonsense_is_refused(lives: list[tuple[list[float], list[float]]]) -> None:
    with pytest.raises(Refused):
        parallel_lines(lives)


def test_a_life_that_is_not_there_is_refused() -> None:
    with pytest.raises(Refused):
        parallel_lines(LIVES).next_reading(7, 1.0)
