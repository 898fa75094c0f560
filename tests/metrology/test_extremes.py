"""Extremes: closed forms for two and three, a second exact route by scipy quadrature, Monte Carlo for everything."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import norm

from gudgeon.metrology.extremes import extreme, largest_of, spread_between
from gudgeon.metrology.known import Known
from gudgeon.problem import Refused


def by_quadrature(means, us):
    """E and standard deviation from the density of the largest, integrated by scipy."""

    def density(x):
        each = [norm.cdf(x, m, u) for m, u in zip(means, us, strict=True)]
        return sum(
            norm.pdf(x, m, u) * math.prod(each[:i] + each[i + 1 :])
            for i, (m, u) in enumerate(zip(means, us, strict=True))
        )

    marks = sorted(m + c * u for m, u in zip(means, us, strict=True) for c in (-9, -3, 0, 3, 9))
    moments = [
        sum(quad(lambda x, k=k: x**k * density(x), a, b, epsabs=1e-12)[0] for a, b in pairwise(marks))
        for k in (0, 1, 2)
    ]
    assert moments[0] == pytest.approx(1.0, abs=1e-9)
    return moments[1], math.sqrt(moments[2] - moments[1] ** 2)


def test_closed_forms():
    """E and variance of the largest of two and three standard normal values (textbook order statistics)."""
    two, three = largest_of((0.0,) * 2, (1.0,) * 2), largest_of((0.0,) * 3, (1.0,) * 3)
    assert two.mean == pytest.approx(1 / math.sqrt(math.pi), abs=1e-11)
    assert two.u**2 == pytest.approx(1 - 1 / math.pi, abs=1e-10)
    assert three.mean == pytest.approx(1.5 / math.sqrt(math.pi), abs=1e-11)
    assert three.u**2 == pytest.approx(1 + (math.sqrt(3) / 2 - 9 / 4) / math.pi, abs=1e-10)
    assert three.chances == pytest.approx((1 / 3,) * 3, abs=1e-12)


@given(a=st.floats(-3, 3), b=st.floats(-3, 3), s=st.floats(0.01, 3), t=st.floats(0.01, 3))
def test_two_values_after_clark(a, b, s, t):
    """C. E. Clark, The greatest of a finite set of random variables, Oper. Res. 9 (1961) 145 (from memory)."""
    w = math.hypot(s, t)
    z = (a - b) / w
    mean = a * norm.cdf(z) + b * norm.cdf(-z) + w * norm.pdf(z)
    square = (a * a + s * s) * norm.cdf(z) + (b * b + t * t) * norm.cdf(-z) + (a + b) * w * norm.pdf(z)
    got = largest_of((a, b), (s, t))
    assert got.mean == pytest.approx(mean, abs=1e-8)
    assert got.u**2 == pytest.approx(square - mean**2, abs=1e-7)
    assert got.chances[0] == pytest.approx(norm.cdf(z), abs=1e-7)


@settings(max_examples=4, deadline=None)
@given(pairs=st.lists(st.tuples(st.floats(-2, 2), st.floats(0.05, 2)), min_size=2, max_size=4))
def test_second_exact_route(pairs):
    means, us = zip(*pairs, strict=True)
    mean, u = by_quadrature(means, us)
    got = largest_of(means, us)
    assert got.mean == pytest.approx(mean, abs=1e-7)
    assert got.u == pytest.approx(u, abs=1e-6)
    assert math.fsum(got.chances) == pytest.approx(1.0, abs=1e-12)


def test_a_rare_event_that_no_sampling_sees():
    """E max(X, 5), X standard normal: 5 + φ(5) - 5·Φ(-5)."""
    got = largest_of((0.0, 5.0), (1.0, 0.0))
    assert got.mean - 5.0 == pytest.approx(norm.pdf(5) - 5 * norm.sf(5), abs=1e-14)
    assert got.chances[0] == pytest.approx(norm.sf(5), rel=1e-7)


CASES = [
    ((0.0,) * 6, (1.0,) * 6),
    ((0.0, 0.5, 1.0, 2.0), (1.0, 0.3, 0.01, 2.0)),
    ((0.0, 1.0, 0.2), (0.0, 0.0, 1.0)),
    ((0.0, 2.0), (1.0, 1e-6)),
    ((4.970, 4.971, 4.970, 4.968, 4.970, 4.972), (0.001,) * 6),
]


def noise_of_sd(draws):
    """Standard error of a sample standard deviation, from the fourth moment."""
    rest = draws - draws.mean()
    return math.sqrt((np.mean(rest**4) - rest.var() ** 2) / len(draws)) / (2 * draws.std() + 1e-300)


@pytest.mark.parametrize(("means", "us"), CASES)
def test_against_monte_carlo(means, us):
    draws = np.random.default_rng(7).normal(means, us, size=(400_000, len(means)))
    largest, ranges = draws.max(axis=1), np.ptp(draws, axis=1)
    got = largest_of(means, us)
    assert got.mean == pytest.approx(largest.mean(), abs=5 * largest.std() / 630 + 1e-12)
    assert got.u == pytest.approx(largest.std(), abs=5 * noise_of_sd(largest) + 1e-12)
    between = spread_between(
        [Known(value=m, parts=((f"r{i}", u),)) for i, (m, u) in enumerate(zip(means, us, strict=True))], "r"
    )
    assert between.value == pytest.approx(ranges.mean(), abs=5 * ranges.std() / 630 + 1e-12)
    assert between.u == pytest.approx(ranges.std(), abs=5 * noise_of_sd(ranges) + 1e-12)


def test_range_constants():
    """d2 and the spread of the range of n normal values: published d2 1.12838, 1.69257, 2.32593, 3.07751 (n 2, 3, 5, 10)."""
    for n, d2 in ((2, 1.12838), (3, 1.69257), (5, 2.32593), (10, 3.07751)):
        unit = [Known(value=0.0, parts=((f"r{i}", 1.0),)) for i in range(n)]
        assert spread_between(unit, "R").value == pytest.approx(d2, abs=5e-6)
    pair = [Known(value=0.0, parts=((f"r{i}", 1.0),)) for i in range(2)]
    assert spread_between(pair, "R").u == pytest.approx(math.sqrt(2 - 4 / math.pi), abs=1e-7)


def stem(shared):
    return [Known(value=4.970 + 0.0005 * n, parts=(("mic", shared), (f"at {n}", 0.001))) for n in range(3)]


def test_shared_bias_is_kept_under_its_label_and_cancels_in_the_range():
    without, with_bias = extreme(stem(0.0), "smallest", "stem"), extreme(stem(0.004), "smallest", "stem")
    assert dict(with_bias.parts)["mic"] == pytest.approx(0.004, rel=1e-12)
    assert with_bias.value == without.value
    assert with_bias.u == pytest.approx(math.hypot(without.u, 0.004), rel=1e-12)
    assert spread_between(stem(0.004), "s").u == pytest.approx(spread_between(stem(0.0), "s").u, rel=1e-12)


def test_shared_bias_against_monte_carlo():
    rng = np.random.default_rng(3)
    bias = rng.normal(0, 0.004, size=(400_000, 1))
    least = (bias + rng.normal([4.970, 4.9705, 4.971], 0.001, size=(400_000, 3))).min(axis=1)
    got = extreme(stem(0.004), "smallest", "stem")
    assert got.value == pytest.approx(least.mean(), abs=5 * least.std() / 630)
    assert got.u == pytest.approx(least.std(), rel=0.006)


def test_smallest_mirrors_largest():
    reads = [Known(value=v, parts=((f"r{v}", 0.3),)) for v in (1.0, 1.2, 1.9)]
    mirrored = [each.times(-1.0) for each in reads]
    assert extreme(reads, "smallest", "x").value == pytest.approx(-extreme(mirrored, "largest", "x").value, rel=1e-14)


@given(values=st.lists(st.floats(-5, 5), min_size=1, max_size=8), u=st.floats(1e-6, 2))
def test_the_largest_is_never_below_any_value(values, u):
    got = largest_of(values, [u] * len(values))
    assert got.mean >= max(values) - 1e-9
    assert got.u <= u * (1 + 1e-6)


def test_sure_and_single_values():
    assert extreme([Known(value=3.0)], "largest", "x") == Known(value=3.0)
    ties = [Known(value=3.0), Known(value=3.0), Known(value=1.0)]
    assert extreme(ties, "largest", "x") == Known(value=3.0)
    assert spread_between(ties, "x") == Known(value=2.0)
    one = extreme([Known(value=3.0, parts=(("a", 0.1),), nu=(("a", 4.0),))], "smallest", "x")
    assert (one.value, one.effective_nu) == (pytest.approx(3.0), 4.0)
    assert one.u == pytest.approx(0.1, rel=1e-9)


def test_refusals():
    with pytest.raises(Refused, match="reading"):
        extreme([], "largest", "x")
    with pytest.raises(Refused, match="readings"):
        spread_between([Known(value=1.0)], "x")
