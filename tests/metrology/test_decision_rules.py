"""Decision rules: ILAC-G8:09/2019 (pages 8 and 9 read; the table in a secondary quotation) and ISO 14253-1 (from memory)."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import t as student

from gudgeon.metrology.conformity import ILAC_G8, conformance_probability, decide, guard_band, guard_factor
from gudgeon.metrology.normal import phi
from gudgeon.problem import Refused

GOT = {0.0: 0.5, 0.83: 0.0484572, 1.0: 0.0227501, 1.5: 0.0013499, 3.0: 9.87e-10}
PUBLISHED = {0.0: 0.50, 0.83: 0.05, 1.0: 0.025, 1.5: 0.0016, 3.0: 1e-6}


@pytest.mark.authority
@pytest.mark.parametrize(("name", "multiple"), ILAC_G8)
def test_ilac_g8_table(name, multiple):
    width, risk = guard_band(0.2, multiple)
    assert width == pytest.approx(0.2 * multiple, rel=1e-15)
    assert risk <= PUBLISHED[multiple]
    assert risk == pytest.approx(GOT[multiple], rel=1e-3 if multiple == 3.0 else 2e-5)


@pytest.mark.authority
def test_iso_14253_1_default_is_1645_and_the_printed_165_is_rounded():
    factor = guard_factor()
    assert factor == pytest.approx(1.644854, abs=5e-7)
    assert phi(1.65) == pytest.approx(0.950529, abs=5e-7)
    assert guard_band(2.0, 0.83)[0] == pytest.approx(1.66)


def test_few_degrees_of_freedom_need_more():
    assert guard_factor(0.05, nu=9) == pytest.approx(1.8331, abs=5e-5)
    assert guard_factor(0.05, nu=2.5) == pytest.approx(student.ppf(0.95, 2.5), rel=1e-10)


@pytest.mark.parametrize(
    ("value", "proven"),
    [
        (0.0450, "inside"),
        (0.0467, "inside"),
        (0.0468, "neither"),
        (0.05, "neither"),
        (0.0532, "neither"),
        (0.0533, "outside"),
    ],
)
def test_guarded_one_limit(value, proven):
    said = decide(value, 0.002, upper=0.050)
    assert said.proven == proven
    assert said.guard == pytest.approx(1.644854 * 0.002, rel=1e-6)
    assert said.accept_from == -math.inf


def test_a_risk_of_one_half_is_simple_acceptance():
    for value in (0.04, 0.05, 0.051):
        even = decide(value, 0.01, upper=0.05, risk=0.5)
        assert (even.proven, even.guard) == (decide(value, 0.01, upper=0.05, rule="simple").proven, 0.0)


def test_simple_acceptance_takes_the_value_at_its_word():
    assert decide(0.05, 0.01, upper=0.05, rule="simple").proven == "inside"
    assert decide(0.0501, 0.01, upper=0.05, rule="simple").proven == "outside"
    assert decide(0.05, 0.01, upper=0.05, rule="simple").probability == 0.5


def test_guard_band_of_a_whole_u():
    inside, neither, outside = (decide(y, 0.5, 0.0, 10.0, rule="guard band") for y in (9.0, 9.5, 11.5))
    assert (inside.proven, neither.proven, outside.proven) == ("inside", "neither", "outside")
    assert (inside.accept_from, inside.accept_to) == (1.0, 9.0)


def test_a_hopeless_gauge_proves_nothing():
    """The trap: p of lying within two limits is tiny everywhere, which must not read as proven outside."""
    assert conformance_probability(0.5, 100.0, 0.0, 1.0) < 0.05
    for value in (0.5, 1.1, -3.0):
        assert decide(value, 100.0, 0.0, 1.0).proven == "neither"


def test_exact_value_on_the_limit():
    assert decide(0.05, 0.0, upper=0.05).proven == "inside"
    assert decide(0.05000001, 0.0, upper=0.05).proven == "outside"


sizes = st.floats(-10.0, 10.0)
spreads = st.floats(1e-6, 100.0)


@given(
    value=sizes,
    limit=sizes,
    width=st.floats(1e-3, 10.0),
    u=spreads,
    factor=st.floats(1.0, 50.0),
    sides=st.sampled_from("lub"),
)
def test_more_doubt_never_proves(value, limit, width, u, factor, sides):
    lower = None if sides == "u" else limit
    upper = None if sides == "l" else limit + width
    for rule in ("guarded", "guard band"):
        before = decide(value, u, lower, upper, rule=rule).proven
        after = decide(value, u * factor, lower, upper, rule=rule).proven
        assert after in (before, "neither")


@given(value=sizes, width=st.floats(1e-3, 10.0), u=spreads, nu=st.floats(1.0, 100.0))
def test_the_word_agrees_with_the_probability(value, width, u, nu):
    said = decide(value, u, 0.0, width, nu=nu)
    assert 0.0 <= said.probability <= 1.0
    if said.proven == "inside":
        assert said.probability >= 0.95 - 1e-9
    if said.proven == "outside":
        assert said.probability <= 0.05 + 1e-9


@pytest.mark.parametrize(
    ("keys", "named"),
    [
        ({"value": math.nan, "u": 1.0, "upper": 1.0}, "value"),
        ({"value": 0.0, "u": -1.0, "upper": 1.0}, "u"),
        ({"value": 0.0, "u": math.inf, "upper": 1.0}, "u"),
        ({"value": 0.0, "u": 1.0}, "lower, upper"),
        ({"value": 0.0, "u": 1.0, "lower": 2.0, "upper": 1.0}, "lower"),
        ({"value": 0.0, "u": 1.0, "upper": 1.0, "risk": 0.7}, "risk"),
        ({"value": 0.0, "u": 1.0, "upper": 1.0, "nu": 0.0}, "nu"),
        ({"value": "long", "u": 1.0, "upper": 1.0}, "value"),
    ],
)
def test_refusals_name_the_argument(keys, named):
    with pytest.raises(Refused) as caught:
        decide(**keys)
    assert caught.value.problems[0].where == named
