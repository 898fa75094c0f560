"""Normal and Student's t without numpy, against scipy over the whole range."""

import math

import pytest
from scipy import stats
from scipy.special import ndtr, ndtri, stdtr, stdtrit

from gudgeon.metrology.normal import phi, phi_inverse
from gudgeon.metrology.student import coverage, t_cdf, t_inverse
from gudgeon.problem import Refused

NUS = (0.5, 1.0, 1.7, 2.0, 3.0, 9.0, 16.7519, 30.0, 200.0, 5e4, 9e5, 2e6, 1e9)


@pytest.mark.parametrize("x", [-37.0, -9.0, -3.1, -1.0, 0.0, 0.3, 2.0, 6.0, 8.2])
def test_phi(x):
    assert phi(x) == pytest.approx(ndtr(x), rel=2e-14)


@pytest.mark.parametrize("p", [1e-300, 1e-30, 1e-9, 0.001, 0.05, 0.3, 0.5, 0.50001, 0.9, 0.975, 0.999999])
def test_phi_inverse(p):
    assert phi_inverse(p) == pytest.approx(ndtri(p), rel=2e-14, abs=1e-15)
    assert phi(phi_inverse(p)) == pytest.approx(p, rel=1e-12)


@pytest.mark.parametrize("nu", NUS)
@pytest.mark.parametrize("t", [-60.0, -4.0, -1.0, -1e-3, 0.0, 0.5, 2.0, 8.0])
def test_t_cdf(t, nu):
    assert t_cdf(t, nu) == pytest.approx(stdtr(nu, t), rel=1e-10, abs=1e-300)


@pytest.mark.parametrize("nu", NUS)
@pytest.mark.parametrize("p", [1e-6, 0.01, 0.2, 0.5, 0.7, 0.95, 0.995])
def test_t_inverse(p, nu):
    assert t_inverse(p, nu) == pytest.approx(stats.t.ppf(p, nu), rel=1e-9, abs=1e-15)
    assert stdtrit(nu, p) == pytest.approx(t_inverse(p, nu), rel=1e-6, abs=1e-12)


TABLE = {2: 12.706, 3: 4.303, 4: 3.182, 5: 2.776, 6: 2.571, 7: 2.447, 8: 2.365, 9: 2.306, 10: 2.262}


@pytest.mark.parametrize("n", TABLE)
def test_coverage_for_n_readings(n):
    assert round(coverage(n - 1), 3) == TABLE[n]


def test_infinite_freedom_is_normal():
    assert coverage() == pytest.approx(1.959963984540054, rel=1e-14)
    assert t_cdf(math.inf, 3.0) == 1.0


@pytest.mark.parametrize("bad", [0.0, 1.0, -0.1, math.nan, math.inf])
def test_refuses_what_is_no_probability(bad):
    with pytest.raises(Refused):
        phi_inverse(bad)
    with pytest.raises(Refused):
        coverage(5, bad)


@pytest.mark.parametrize("nu", [0.0, -1.0, math.nan])
def test_refuses_what_is_no_freedom(nu):
    with pytest.raises(Refused, match="nu"):
        t_cdf(1.0, nu)
