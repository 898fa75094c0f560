"""Temperature: NIST TN 1900 example E13 (read in a public notebook), ISO 1 arithmetic, and GTC as the second opinion."""

import math

import pytest
from GTC import ureal

from gudgeon.metrology.known import Known, known
from gudgeon.metrology.temperature import EXPANSION_PER_K, at_reference, expansion, length_change
from gudgeon.problem import Refused


@pytest.mark.authority
def test_tn_1900_e13_expansion_coefficient():
    """α = (L1 - L0)/(L0(T1 - T0)), published 1.7266e-5 and 1.8e-6 (1.76e-6) per kelvin; the labelled parts carry it to first order."""
    l0, l1, t0, t1 = 1.4999, 1.5021, 288.15, 373.10
    alpha = (l1 - l0) / (l0 * (t1 - t0))
    rise = known(l1, "L1", 0.0002).plus(known(l0, "L0", 0.0001), -1.0).times(1.0 / (l0 * (t1 - t0)))
    relative = Known(value=0.0, parts=(("L0", -0.0001 / l0), ("T0", 0.02 / (t1 - t0)), ("T1", -0.05 / (t1 - t0))))
    total = rise.plus(relative, alpha)
    assert total.value == pytest.approx(1.726621e-5, abs=5e-12)
    assert total.u == pytest.approx(1.75548e-6, abs=5e-12)
    assert 1000.0 * length_change(l0, alpha, 15.0, 15.0 + t1 - t0) == pytest.approx(1000.0 * (l1 - l0), rel=1e-12)


def test_arithmetic_of_a_warm_piston():
    assert 1000 * length_change(52.0, 23.1e-6, 20.0, 28.0) == pytest.approx(9.6096, abs=1e-10)
    differential = length_change(52.0, 23.1e-6, 20.0, 28.0) - length_change(52.0, 11.5e-6, 20.0, 28.0)
    assert 1000 * differential == pytest.approx(4.8256, abs=1e-10)


def reading_iv(part_label: str, scale_label: str) -> Known:
    return at_reference(
        known(52.030, "reading", 0.0012),
        known(21.5e-6, "cast", 1e-6),
        known(28.0, part_label, 0.5),
        known(11.5e-6, "steel", 0.5e-6),
        known(24.0, scale_label, 0.5),
    )


def test_reading_iv_against_gtc():
    length = ureal(52.030, 0.0012) * (1 + ureal(11.5e-6, 0.5e-6) * (ureal(24, 0.5) - 20))
    length = length / (1 + ureal(21.5e-6, 1e-6) * (ureal(28, 0.5) - 20))
    got = reading_iv("part t", "scale t")
    assert got.value == pytest.approx(length.x, rel=1e-14)
    assert got.u == pytest.approx(length.u, rel=1e-12)
    assert (round(got.value, 4), round(got.u, 7)) == (52.0234, 0.0014233)


def test_one_thermometer_for_both_is_one_cause():
    shared = ureal(0, 0.5)
    length = ureal(52.030, 0.0012) * (1 + ureal(11.5e-6, 0.5e-6) * (24 + shared - 20))
    length = length / (1 + ureal(21.5e-6, 1e-6) * (28 + shared - 20))
    got = reading_iv("thermometer", "thermometer")
    assert got.u == pytest.approx(length.u, rel=1e-12)
    assert got.u < reading_iv("part t", "scale t").u


def test_at_20_degrees_the_coefficient_does_not_matter():
    cold = at_reference(known(52.0, "reading", 0.001), expansion("steel"), known(20.0, "t", 0.0))
    assert (cold.value, cold.u) == (52.0, 0.001)


def test_freedom_comes_along():
    warm = at_reference(known(52.0, "reading", 0.001, 5), known(2e-5, "a", 1e-6, 50), known(30.0, "t"))
    parts = (0.001 / (1 + 2e-4), 52.0 / (1 + 2e-4) ** 2 * 10 * 1e-6)
    nu = math.hypot(*parts) ** 4 / (parts[0] ** 4 / 5 + parts[1] ** 4 / 50)
    assert warm.effective_nu == pytest.approx(nu, rel=1e-9)


def test_steel_handbooks_disagree_within_the_doubt_given_to_them():
    """AISI 1050 in three handbooks, 20 to 100, 0 to 100, 0 to 200 °C (NIST Engineering Metrology Toolbox)."""
    steel = expansion("steel")
    for printed in (11.5e-6, 11.2e-6, 12.1e-6):
        assert abs(printed - steel.value) <= math.sqrt(3) * steel.u
    assert all(source for _, _, source in EXPANSION_PER_K)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: length_change(math.nan, 1e-5, 20, 30), "length"),
        (lambda: length_change(50.0, 11.5, 20, 30), "alpha_per_k"),
        (lambda: length_change(50.0, 1e-5, 20, 900), "to_c"),
        (lambda: length_change(50.0, 1e-5, 293.15 * 2, 30), "from_c"),
        (lambda: expansion("cheese"), "material"),
        (lambda: at_reference(known(5.0), expansion("steel"), known(25.0), expansion("steel")), "scale"),
    ],
)
def test_refusals_name_the_argument(call, named):
    with pytest.raises(Refused) as caught:
        call()
    assert caught.value.problems[0].where == named
