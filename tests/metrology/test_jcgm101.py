"""JCGM 101:2008, clause 9. Inputs from memory; results of 9.4 and 9.5 read in public test files. End points within drawing noise."""

import math
import tracemalloc

import numpy as np
import pytest

from gudgeon.metrology.montecarlo import Input, monte_carlo
from gudgeon.problem import Refused


def total(*xs):
    return sum(xs)


@pytest.mark.authority
def test_9_2_2_four_normals():
    out = monte_carlo(total, [Input(value=0.0, width=1.0)] * 4, seed=1, trials=1_000_000)
    assert out.u == pytest.approx(2.0, abs=0.005)
    assert out.shortest == pytest.approx((-3.92, 3.92), abs=0.03)
    assert out.interval == pytest.approx((-3.92, 3.92), abs=0.015)


@pytest.mark.authority
def test_9_2_3_four_rectangles():
    """Exact end point 2√3(2 - (3/5)^(1/4)) = 3.879407, published 3.88; the uncertainty framework would say 3.92."""
    exact = 2 * math.sqrt(3) * (2 - 0.6**0.25)
    assert exact == pytest.approx(3.879407, abs=5e-7)
    out = monte_carlo(total, [Input(value=0.0, width=math.sqrt(3), shape="rectangular")] * 4, seed=2, trials=1_000_000)
    assert out.u == pytest.approx(2.0, abs=0.005)
    assert out.interval == pytest.approx((-exact, exact), abs=0.015)


@pytest.mark.authority
def test_9_3_mass():
    inputs = [
        Input(value=100_000.0, width=0.050),
        Input(value=1.234, width=0.020),
        Input(value=1.20, width=0.10, shape="rectangular"),
        Input(value=8000.0, width=1000.0, shape="rectangular"),
        Input(value=8000.0, width=50.0, shape="rectangular"),
    ]

    def mass(m_rc, dm, air, weight, reference):
        return (m_rc + dm) * (1 + (air - 1.2) * (1 / weight - 1 / reference)) - 100_000.0

    out = monte_carlo(mass, inputs, seed=3, trials=2_000_000)
    assert out.mean == pytest.approx(1.2340, abs=0.0005)
    assert out.u == pytest.approx(0.0754, abs=0.0005)
    assert out.shortest == pytest.approx((1.0834, 1.3825), abs=0.004)  # 4e6 trials elsewhere: [1.0848, 1.3837]


@pytest.mark.authority
@pytest.mark.parametrize(("x1", "mean", "sd"), [(0.0, 50, 50), (0.010, 150, 112), (0.050, 2550, 502)])
def test_9_4_comparison_loss(x1, mean, sd):
    inputs = [Input(value=x1, width=0.005), Input(value=0.0, width=0.005)]
    out = monte_carlo(lambda a, b: a * a + b * b, inputs, seed=4, trials=1_000_000)
    assert 1e6 * out.mean == pytest.approx(mean, rel=0.005)
    exact = math.sqrt(4 * 0.005**4 + 4 * x1**2 * 0.005**2)
    assert 1e6 * exact == pytest.approx(sd, abs=0.6)
    assert out.u == pytest.approx(exact, rel=0.006)
    if x1 == 0.0:
        assert 1e6 * out.shortest[0] == pytest.approx(0.0, abs=0.01)
        assert 1e6 * out.shortest[1] == pytest.approx(-2e6 * 0.005**2 * math.log(0.05), rel=0.005)  # published 150


@pytest.mark.authority
def test_9_5_gauge_block():
    inputs = [
        Input(value=50_000_623.0, width=25.0, nu=18),
        Input(value=215.0, width=6.0, nu=24),
        Input(value=0.0, width=4.0, nu=5),
        Input(value=0.0, width=7.0, nu=8),
        Input(value=11.5e-6, width=2.0e-6, shape="rectangular"),
        Input(value=-0.1, width=0.2),
        Input(value=0.0, width=0.5, shape="arcsine"),
        Input(value=0.0, width=1e-6, shape="rectangular", blur=0.1e-6),
        Input(value=0.0, width=0.050, shape="rectangular", blur=0.025),
    ]

    def length(standard, d, d1, d2, alpha, theta0, cyclic, d_alpha, d_theta):
        return (standard + d + d1 + d2) - standard * (d_alpha * (theta0 + cyclic) + alpha * d_theta) - 50_000_000.0

    out = monte_carlo(length, inputs, seed=5, p=0.99, trials=2_000_000)
    assert out.mean == pytest.approx(838.0, abs=0.15)
    assert out.u == pytest.approx(35.805, abs=0.15)  # published 36
    assert out.shortest == pytest.approx((745.0, 932.0), abs=1.5)
    assert out.interval == pytest.approx((744.4, 931.8), abs=1.0)


def test_adaptive_stops_by_itself_and_is_as_good_as_it_says():
    inputs = [Input(value=0.0, width=1.0)] * 4
    out = monte_carlo(total, inputs, seed=6)
    assert out.settled
    assert out.trials < 300_000
    assert out.u == pytest.approx(2.0, abs=0.05)
    assert out.interval == pytest.approx((-3.92, 3.92), abs=0.1)
    finer = monte_carlo(total, inputs, seed=6, digits=3)
    assert finer.trials > out.trials
    assert monte_carlo(total, inputs, seed=6, digits=6).settled is False


def test_the_seed_decides():
    inputs = [Input(value=0.0, width=1.0, shape="triangular")] * 2
    assert monte_carlo(total, inputs, seed=7) == monte_carlo(total, inputs, seed=7)
    assert monte_carlo(total, inputs, seed=7) != monte_carlo(total, inputs, seed=8)


@pytest.mark.parametrize(
    ("each", "u"),
    [
        (Input(value=3.0, width=0.6, shape="triangular"), 0.6 / math.sqrt(6)),
        (Input(value=3.0, width=0.6, shape="arcsine"), 0.6 / math.sqrt(2)),
        (Input(value=3.0, width=0.6, shape="rectangular"), 0.6 / math.sqrt(3)),
        (Input(value=3.0, width=0.6, shape="rectangular", blur=0.3), math.sqrt(0.6**2 / 3 + 0.3**2 / 9)),
        (Input(value=3.0, width=0.6, nu=10), 0.6 * math.sqrt(10 / 8)),
    ],
)
def test_shapes_have_their_spread(each, u):
    """Moments of table 1 of JCGM 101:2008; the curvilinear trapezoid's variance is a²/3 + d²/9 (6.4.3.4)."""
    out = monte_carlo(lambda x: x, [each], seed=9, trials=1_000_000)
    assert out.mean == pytest.approx(3.0, abs=0.004)
    assert out.u == pytest.approx(u, rel=0.005)


def test_the_tails_are_those_of_a_full_sort():
    out = monte_carlo(lambda x: np.exp(x), [Input(value=0.0, width=1.0)], seed=10, trials=123_457)
    draws = []
    monte_carlo(lambda x: draws.append(x.copy()) or x, [Input(value=0.0, width=1.0)], seed=10, trials=123_457)
    values = np.sort(np.exp(np.concatenate(draws)))
    inside = int(0.95 * len(values) + 0.5)
    widths = values[inside:] - values[:-inside]
    k = int(widths.argmin())
    assert out.shortest == (values[k], values[k + inside])
    assert out.u == pytest.approx(values.std(ddof=1), rel=1e-12)


def test_memory_stays_small():
    tracemalloc.start()
    monte_carlo(total, [Input(value=0.0, width=1.0)] * 4, seed=11, trials=1_000_000)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 25e6


@pytest.mark.parametrize(
    "call",
    [
        lambda: Input(value=math.nan, width=1.0),
        lambda: Input(value=0.0, width=-1.0),
        lambda: Input(value=0.0, width=1.0, nu=0.0),
        lambda: Input(value=0.0, width=1.0, blur=2.0, shape="rectangular"),
        lambda: monte_carlo(total, [], seed=1),
        lambda: monte_carlo(lambda x: 3.0, [Input(value=0.0, width=1.0)], seed=1),
        lambda: monte_carlo(lambda x: 1.0 / (x * 0.0), [Input(value=0.0, width=1.0)], seed=1),
        lambda: monte_carlo(total, [Input(value=0.0, width=1.0)], seed=1, trials=10**9),
        lambda: monte_carlo(total, [Input(value=0.0, width=1.0)], seed=1, p=1.0),
        lambda: monte_carlo(total, [Input(value=0.0, width=1.0)], seed=1, digits=0),
    ],
)
@pytest.mark.filterwarnings("ignore:divide by zero")
def test_refusals(call):
    with pytest.raises(Refused):
        call()
