"""Trends: GUM H.3 (read), NIST StRD Norris (file shipped with scipy), AIAG linearity (read), statsmodels for every interval."""

import math
import re
from importlib import resources

import numpy as np
import pytest
import statsmodels.api as sm
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.metrology.trend import power_law, straight_line
from gudgeon.problem import Refused

T_C = (21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511)
B_C = (-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160)


@pytest.mark.authority
def test_gum_h3_thermometer():
    line = straight_line([t - 20.0 for t in T_C], B_C)
    assert (round(line.intercept, 4), round(line.u_intercept, 4)) == (-0.1712, 0.0029)
    assert (round(line.slope, 5), round(line.u_slope, 5)) == (0.00218, 0.00067)
    assert (round(line.correlation, 3), round(line.s, 4)) == (-0.930, 0.0035)
    at = line.at(10.0)
    assert (round(at.value, 4), round(at.u, 4), line.nu) == (-0.1494, 0.0041, 9)
    assert at.value == pytest.approx(-0.1493768, abs=5e-8)
    assert at.u == pytest.approx(0.0041386, abs=5e-8)
    assert at.curve == pytest.approx((-0.158739, -0.140015), abs=1e-6)
    assert at.next_reading == pytest.approx((-0.161634, -0.137119), abs=1e-6)


@pytest.mark.authority
def test_norris():
    file = resources.files("scipy") / "stats" / "tests" / "data" / "nist_linregress" / "Norris.dat"
    if not file.is_file():
        pytest.skip("this scipy was packed without its test data")
    rows = re.findall(r"^\s+(\d+\.\d+)\s+(\d+\.\d+)\s*$", file.read_text(), flags=re.M)
    y, x = zip(*((float(a), float(b)) for a, b in rows), strict=True)
    assert len(x) == 36
    line = straight_line(x, y)
    assert line.intercept == pytest.approx(-0.262323073774029, rel=1e-12)
    assert line.slope == pytest.approx(1.00211681802045, rel=1e-14)
    assert line.u_intercept == pytest.approx(0.232818234301152, rel=1e-12)
    assert line.u_slope == pytest.approx(0.429796848199937e-3, rel=1e-12)
    assert line.s == pytest.approx(0.884796396144373, rel=1e-12)
    assert line.r_squared == pytest.approx(0.999993745883712, rel=1e-14)
    at = line.at(500.0)
    assert at.value == pytest.approx(500.796086, abs=5e-7)
    assert at.curve == pytest.approx((500.488196, 501.103975), abs=1e-6)
    assert at.next_reading == pytest.approx((498.971794, 502.620378), abs=1e-6)


AIAG = {
    2.0: "2.7 2.5 2.4 2.5 2.7 2.3 2.5 2.5 2.4 2.4 2.6 2.4",
    4.0: "5.1 3.9 4.2 5.0 3.8 3.9 3.9 3.9 3.9 4.0 4.1 3.8",
    6.0: "5.8 5.7 5.9 5.9 6.0 6.1 6.0 6.1 6.4 6.3 6.0 6.1",
    8.0: "7.6 7.7 7.8 7.7 7.8 7.8 7.8 7.7 7.8 7.5 7.6 7.7",
    10.0: "9.1 9.3 9.5 9.3 9.4 9.5 9.5 9.5 9.6 9.2 9.3 9.4",
}


@pytest.mark.authority
def test_aiag_linearity_of_a_gauge():
    """Bias on reference: published slope -0.1317, intercept 0.7367, t -12.043 and 10.158, R² 0.7143."""
    pairs = [(reference, float(value) - reference) for reference, row in AIAG.items() for value in row.split()]
    line = straight_line([x for x, _ in pairs], [y for _, y in pairs])
    assert (round(line.slope, 4), round(line.intercept, 4), round(line.r_squared, 4)) == (-0.1317, 0.7367, 0.7143)
    assert (round(line.slope / line.u_slope, 3), round(line.intercept / line.u_intercept, 3)) == (-12.043, 10.158)
    assert line.s == pytest.approx(0.239540, abs=5e-7)


def theirs(x, y, at, level):
    fit = sm.OLS(y, sm.add_constant(x)).fit()
    frame = fit.get_prediction([[1.0, at]]).summary_frame(alpha=1.0 - level).iloc[0]
    return fit, frame


@pytest.mark.parametrize("level", [0.8, 0.95, 0.99])
def test_line_against_statsmodels(level):
    rng = np.random.default_rng(1)
    for n in (3, 4, 8, 40):
        x = rng.uniform(0, 500, n)
        y = 0.01 + 4e-5 * x + rng.normal(0, 0.002, n)
        fit, frame = theirs(x, y, 620.0, level)
        line, at = straight_line(x, y), straight_line(x, y).at(620.0, level)
        assert (line.intercept, line.slope) == pytest.approx(tuple(fit.params), rel=1e-9)
        assert (line.u_intercept, line.u_slope) == pytest.approx(tuple(fit.bse), rel=1e-9)
        assert at.u == pytest.approx(frame["mean_se"], rel=1e-9)
        assert at.curve == pytest.approx((frame["mean_ci_lower"], frame["mean_ci_upper"]), rel=1e-8)
        assert at.next_reading == pytest.approx((frame["obs_ci_lower"], frame["obs_ci_upper"]), rel=1e-8)


def test_power_law_against_statsmodels_in_logarithms():
    rng = np.random.default_rng(2)
    x = rng.uniform(20, 500, 9)
    y = 2e-3 * x**0.6 * np.exp(rng.normal(0, 0.05, 9))
    fit, frame = theirs(np.log(x), np.log(y), math.log(800.0), 0.95)
    wear = power_law(x, y)
    at = wear.at(800.0)
    assert (wear.intercept, wear.slope) == pytest.approx(tuple(fit.params), rel=1e-9)
    assert at.value == pytest.approx(math.exp(frame["mean"]), rel=1e-9)
    assert at.curve == pytest.approx((math.exp(frame["mean_ci_lower"]), math.exp(frame["mean_ci_upper"])), rel=1e-8)
    assert at.next_reading == pytest.approx(
        (math.exp(frame["obs_ci_lower"]), math.exp(frame["obs_ci_upper"])), rel=1e-8
    )


@given(
    slope=st.floats(1e-5, 1e-3),
    rest=st.lists(st.floats(-0.001, 0.001), min_size=4, max_size=8),
    limit=st.floats(0.05, 0.3),
)
def test_where_a_limit_is_reached_is_where_the_band_crosses_it(slope, rest, limit):
    x = [100.0 * n for n in range(len(rest))]
    line = straight_line(x, [0.01 + slope * a + r for a, r in zip(x, rest, strict=True)])
    if line.slope <= 0.0:
        return
    place, between = line.reaches(limit)
    assert line.at(place).value == pytest.approx(limit, rel=1e-9)
    if between is None:
        return
    early, late = between
    assert early <= place * (1 + 1e-9)
    assert place <= late * (1 + 1e-9)
    for end in (early, late):
        assert min(abs(side - limit) for side in line.at(end).curve) < 1e-6 * max(1.0, abs(end) * slope)


def test_power_law_reaches_its_limit():
    wear = power_law([100, 200, 400, 800], [0.0101, 0.0141, 0.0201, 0.0281])
    place, between = wear.reaches(0.040)
    assert wear.at(place).value == pytest.approx(0.040, rel=1e-12)
    assert between is not None
    assert between[0] < place < between[1]


def test_a_trend_that_is_not_one_is_open_ended():
    assert straight_line([0, 1, 2, 3], [0.0, 1.0, -1.0, 0.3]).reaches(50.0)[1] is None


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: straight_line([1, 2], [1, 2]), "points"),
        (lambda: straight_line([1, 2, 3], [1, 2]), "y"),
        (lambda: straight_line([1, 1, 1], [1, 2, 3]), "x"),
        (lambda: straight_line([1, 2, math.nan], [1, 2, 3]), "x, point 3"),
        (lambda: straight_line([1, 2, 3], [1, math.inf, 3]), "y, point 2"),
        (lambda: power_law([0, 1, 2], [1, 2, 3]), "x"),
        (lambda: power_law([1, 2, 3], [1, -2, 3]), "y"),
        (lambda: power_law([1, 2, 3], [1, 2, 3]).at(0.0), "x"),
        (lambda: straight_line([1, 2, 3], [1, 2, 3]).at(math.inf), "x"),
        (lambda: straight_line([1, 2, 3], [1, 2, 3.5]).at(4.0, 1.5), "level"),
        (lambda: straight_line([1, 2, 3], [1, 1, 1]).reaches(2.0), "limit"),
    ],
)
def test_refusals_name_the_argument(call, named):
    with pytest.raises(Refused) as caught:
        call()
    assert caught.value.problems[0].where == named
