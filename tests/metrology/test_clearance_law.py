"""Law of a fit: against Monte Carlo, against a double integral, and against `extremes`, which reaches the moments another way."""

import math

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import norm

from gudgeon.metrology.clearance import law_of_clearance
from gudgeon.metrology.extremes import extreme
from gudgeon.metrology.known import Known
from gudgeon.problem import Refused


def readings(n, base, shared, own, label):
    return [Known(value=base + 0.001 * k, parts=((label, shared), (f"{label} {base} {k}", own))) for k in range(n)]


CASES = [
    (0.001, 0.001, 0.001, 0.001, "mic"),
    (0.001, 0.001, 0.001, 0.0005, "bore gauge"),
    (0.0001, 0.0, 0.001, 0.00002, "mic"),
    (0.00005, 0.0001, 0.001, 0.002, "mic"),
    (0.0, 0.0, 0.001, 0.001, "mic"),
    (0.003, 0.003, 0.0005, 0.0005, "mic"),
]


@pytest.mark.parametrize(("bias_g", "bias_s", "own_g", "own_s", "label"), CASES)
def test_against_monte_carlo(bias_g, bias_s, own_g, own_s, label):
    guide, stem = readings(5, 5.010, bias_g, own_g, "bore gauge"), readings(4, 4.970, bias_s, own_s, label)
    law = law_of_clearance(guide, stem)
    rng, n = np.random.default_rng(5), 400_000
    first = rng.standard_normal(n)
    second = first if label == "bore gauge" else rng.standard_normal(n)
    top = (np.array([each.value for each in guide]) + own_g * rng.standard_normal((n, 5))).max(axis=1) + bias_g * first
    low = (np.array([each.value for each in stem]) + own_s * rng.standard_normal((n, 4))).min(axis=1) + bias_s * second
    gap = top - low
    assert law.mean == pytest.approx(gap.mean(), abs=5 * law.u / math.sqrt(n))
    assert law.u == pytest.approx(gap.std(), rel=0.006)
    for p in (0.025, 0.5, 0.95, 0.975):
        assert law.quantile(p) == pytest.approx(np.quantile(gap, p), abs=0.012 * law.u)
        assert law.cdf(law.quantile(p)) == pytest.approx(p, abs=1e-8)


@pytest.mark.parametrize(("bias_g", "bias_s", "own_g", "own_s", "label"), CASES)
def test_moments_agree_with_the_other_exact_route(bias_g, bias_s, own_g, own_s, label):
    guide, stem = readings(5, 5.010, bias_g, own_g, "bore gauge"), readings(4, 4.970, bias_s, own_s, label)
    law = law_of_clearance(guide, stem)
    gap = extreme(guide, "largest", "top").plus(extreme(stem, "smallest", "bottom"), -1.0)
    assert law.mean == pytest.approx(gap.value, abs=1e-9 * law.u + 1e-12)
    assert law.u == pytest.approx(gap.u, rel=1e-6)


def test_one_reading_each_is_normal():
    law = law_of_clearance([Known(value=5.0, parts=(("a", 0.003),))], [Known(value=4.9, parts=(("b", 0.004),))])
    for p in (0.001, 0.3, 0.9):
        assert law.quantile(p) == pytest.approx(norm.ppf(p, 0.1, 0.005), abs=1e-9)


def test_one_gauge_for_both_cancels():
    law = law_of_clearance(readings(1, 5.0, 0.01, 0.003, "dial"), readings(1, 4.9, 0.01, 0.004, "dial"))
    assert law.u == pytest.approx(0.005, rel=1e-9)


def test_the_largest_alone():
    law = law_of_clearance([Known(value=0.0, parts=((f"r{k}", 1.0),)) for k in range(3)])
    assert law.cdf(0.4) == pytest.approx(norm.cdf(0.4) ** 3, rel=1e-12)
    assert law.mean == pytest.approx(1.5 / math.sqrt(math.pi), abs=1e-9)


def test_against_a_double_integral():
    """max of two less a third, with a shared bias."""
    guide = [Known(value=v, parts=(("g", 0.5), (f"{v}", u))) for v, u in ((0.0, 1.0), (0.3, 0.7))]
    law = law_of_clearance(guide, [Known(value=0.1, parts=(("s", 0.8),))])
    rest = math.hypot(0.5, 0.8)

    def exact(x):
        return quad(
            lambda t: norm.cdf(x - t) * norm.cdf(x - t, 0.3, 0.7) * norm.pdf(t, -0.1, rest),
            -9,
            9,
            epsabs=1e-12,
            points=[-0.1],
        )[0]

    for x in (-1.0, 0.2, 1.5, 3.0):
        assert law.cdf(x) == pytest.approx(exact(x), abs=1e-9)


def test_sure_values():
    law = law_of_clearance([Known(value=5.0), Known(value=5.1)], [Known(value=4.9)])
    assert law.mean == pytest.approx(0.2, abs=1e-9)
    assert law.u < 1e-9


def test_refuses_no_reading():
    with pytest.raises(Refused, match="largest"):
        law_of_clearance([])
    with pytest.raises(Refused, match="p"):
        law_of_clearance([Known(value=1.0, parts=(("a", 1.0),))]).quantile(1.0)
