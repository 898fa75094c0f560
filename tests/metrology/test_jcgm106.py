"""JCGM 106:2012, probability of conformity, guard bands, global risk; and the risk tables of NCSL RP-19.

Inputs of 9.5.3, both ends of 9.5.4 and the risk tables read in public notebooks and test files; the rest from memory, reproduced.
"""

import pytest
from scipy.integrate import dblquad
from scipy.stats import gamma, norm

from gudgeon.metrology.conformity import acceptance_limits, conformance_probability, guard_factor
from gudgeon.metrology.risk import (
    GammaPrior,
    NormalPrior,
    acceptance_for_risk,
    capability_of_measuring,
    global_risk,
    prior_from_share_inside,
)
from gudgeon.problem import Refused

pytestmark = pytest.mark.authority


@pytest.mark.parametrize(("p", "z"), [(0.80, 0.84), (0.90, 1.28), (0.95, 1.64), (0.99, 2.33), (0.999, 3.09)])
def test_table_1(p, z):
    factor = guard_factor(1.0 - p)
    assert factor is not None
    assert factor == pytest.approx(z, abs=0.005)  # printed to two digits; 1.645 is printed as 1.64
    assert conformance_probability(-factor, 1.0, upper=0.0) == pytest.approx(p, rel=1e-12)


def test_breakdown_voltage():
    assert round(conformance_probability(-5.47, 0.05, upper=-5.40), 2) == 0.92
    assert conformance_probability(-5.47, 0.05, upper=-5.40) == pytest.approx(0.91924, abs=5e-6)


def test_speed_guarded_rejection():
    """8.3.3: 100 km/h, relative 2 %, 99.9 %: the limit v with (v - 100)/(0.02 v) = 3.09, printed as 107."""
    factor = guard_factor(0.001)
    assert factor is not None
    limit = 100.0 / (1.0 - 0.02 * factor)
    assert limit == pytest.approx(106.588, abs=5e-4)
    assert conformance_probability(limit, 0.02 * limit, upper=100.0) == pytest.approx(0.001, rel=1e-9)


PROCESS = NormalPrior(mean=1500.0, sd=0.12)


def test_resistors_9_5_3():
    guarded = global_risk(PROCESS, 0.04, 1499.8, 1500.2, 1499.82, 1500.18)
    assert (round(guarded.consumer, 2), round(guarded.producer, 2)) == (0.01, 0.07)
    assert guarded.consumer == pytest.approx(0.00987829, abs=5e-9)
    assert guarded.producer == pytest.approx(0.0690265, abs=5e-8)
    plain = global_risk(PROCESS, 0.04, 1499.8, 1500.2)
    assert plain.consumer == pytest.approx(0.0189422, abs=5e-8)
    assert plain.producer == pytest.approx(0.0372078, abs=5e-8)
    assert 1.0 - plain.nonconforming == pytest.approx(0.904419, abs=5e-7)


BEARING = GammaPrior(shape=4.0, scale=0.25)


def test_bearing_9_5_4():
    plain = global_risk(BEARING, 0.25, upper=2.0)
    assert (round(plain.nonconforming, 3), round(plain.consumer, 3)) == (0.042, 0.008)
    assert plain.nonconforming == pytest.approx(0.0423801, abs=5e-8)
    assert plain.consumer == pytest.approx(0.00801911, abs=5e-9)
    assert plain.producer == pytest.approx(0.0174446, abs=5e-8)  # 0.031310 would also reject measured values below 0
    limit = acceptance_for_risk(BEARING, 0.25, 2.0, 0.001)
    assert limit == pytest.approx(1.6718288, abs=5e-8)
    assert global_risk(BEARING, 0.25, upper=2.0, accept_to=limit).producer == pytest.approx(0.0754939, abs=5e-8)


RP19 = {0.60: (4.83860326, 8.26008199), 0.70: (3.92234109, 5.72322042), 0.80: (2.85583037, 3.63227145)}
RP19 |= {0.90: (1.59995312, 1.79880430), 0.95: (0.87100925, 0.92389664), 0.99: (0.19991684, 0.20243866)}


@pytest.mark.parametrize("inside", RP19)
def test_rp19_false_accept_at_ratio_four(inside):
    prior = prior_from_share_inside(-1.0, 1.0, inside)
    risk = global_risk(prior, prior.sd / 4.0, -1.0, 1.0)
    assert 100 * risk.consumer == pytest.approx(RP19[inside][0], abs=1.5e-6)
    assert 100 * risk.among_accepted == pytest.approx(RP19[inside][1], abs=1.5e-6)


@pytest.mark.parametrize(("capability", "factor"), [(1.0, 1.79621), (1.5, 1.644918), (2.0, 1.644854), (5.0, 1.644854)])
def test_two_sided_guard_factor_is_not_always_1645(capability, factor):
    half = 2.0 * capability
    assert capability_of_measuring(1.0, -half, half) == capability
    got = guard_factor(0.05, 1.0, -half, half)
    assert got == pytest.approx(factor, abs=5e-6 if capability == 1.0 else 5e-7)
    accept = acceptance_limits(1.0, -half, half)
    assert accept is not None
    assert conformance_probability(accept[1], 1.0, -half, half) == pytest.approx(0.95, abs=1e-12)
    assert conformance_probability(accept[0], 1.0, -half, half) == pytest.approx(0.95, abs=1e-12)


def test_no_value_can_be_accepted_with_a_hopeless_gauge():
    assert guard_factor(0.05, 1.0, -1.0, 1.0) is None
    assert acceptance_limits(1.0, -1.0, 1.0) is None


def test_both_tails_count():
    one, two = conformance_probability(0.0, 1.0, upper=1.0), conformance_probability(0.0, 1.0, -1.0, 1.0)
    assert two == pytest.approx(2.0 * one - 1.0, rel=1e-14)


def test_global_risk_against_a_double_integral():
    prior, u, upper, accept = gamma(3.0, scale=0.4), 0.3, 1.8, 1.5
    joint = dblquad(lambda y, x: prior.pdf(x) * norm.pdf(y, x, u), 1.8, 12.0, -2.0, accept, epsabs=1e-10)[0]
    got = global_risk(GammaPrior(shape=3.0, scale=0.4), u, upper=upper, accept_to=accept)
    assert got.consumer == pytest.approx(joint, abs=1e-8)
    assert got.nonconforming == pytest.approx(prior.sf(1.8), abs=1e-12)


@pytest.mark.parametrize("u", [1e-6, 0.01, 1.0, 30.0])
def test_the_four_shares_fit_together(u):
    risk = global_risk(PROCESS, u, 1499.8, 1500.2)
    assert risk.accepted - risk.consumer + risk.producer == pytest.approx(1.0 - risk.nonconforming, abs=1e-10)


@pytest.mark.parametrize(
    "bad", [{"u": 0.0}, {"u": float("nan")}, {"accept_from": 3.0, "accept_to": 2.0}, {"upper": None}]
)
def test_refusals(bad):
    keys = {"prior": PROCESS, "u": 0.1, "upper": 1500.2} | bad
    with pytest.raises(Refused):
        global_risk(**keys)


def test_refuses_a_prior_without_spread():
    with pytest.raises(Refused, match="sd"):
        global_risk(NormalPrior(mean=0.0, sd=0.0), 0.1, upper=1.0)
    with pytest.raises(Refused, match="shape"):
        global_risk(GammaPrior(shape=-1.0, scale=1.0), 0.1, upper=1.0)
