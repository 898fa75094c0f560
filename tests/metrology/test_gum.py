"""GUM (JCGM 100:2008), annex H.1 and clause 4.

Values of H.1 read in the documentation of the GTC package and in a public R data set; U99 and clause 4 from memory, reproduced.
"""

import math

import pytest
from GTC import dof, ureal
from GTC import type_b as gtc_type_b

from gudgeon.metrology.budget import arcsine, even_odds, rectangular, resolution, spread, triangular, type_a
from gudgeon.metrology.known import Known, known
from gudgeon.metrology.student import coverage

pytestmark = pytest.mark.authority

L_S, ALPHA_S, THETA = 50_000_623.0, 11.5e-6, -0.1
D_ALPHA, D_THETA = 1e-6 / math.sqrt(3), 0.05 / math.sqrt(3)


def end_gauge() -> Known:
    """H.1: l = l_S + d - l_S(δα·θ + α_S·δθ), in nm; first order, so α_S and θ contribute nothing."""
    d = (
        known(215.0, "repeats", 5.8, 24)
        .with_part("comparator random", 3.9, 5)
        .with_part("comparator systematic", 6.7, 8)
    )
    expansion = known(0.0, "difference of expansion", -L_S * THETA * D_ALPHA, 50)
    warmth = known(0.0, "difference of temperature", -L_S * ALPHA_S * D_THETA, 2)
    return known(L_S, "standard", 25.0, 18).plus(d).plus(expansion).plus(warmth)


def test_end_gauge_h1():
    gauge = end_gauge()
    assert gauge.value == 50_000_838.0
    assert gauge.u == pytest.approx(31.66388, abs=5e-6)  # published 32 nm
    assert gauge.effective_nu == pytest.approx(16.75186, abs=5e-6)  # published 16.7
    assert round(gauge.u) == 32
    assert math.floor(10 * gauge.effective_nu) / 10 == 16.7
    assert {label: round(abs(part), 3) for label, part in gauge.parts} == {
        "standard": 25.0,
        "repeats": 5.8,
        "comparator random": 3.9,
        "comparator systematic": 6.7,
        "difference of expansion": 2.887,
        "difference of temperature": 16.599,
    }


def test_end_gauge_h1_comparison_of_the_two_gauges():
    d = known(215.0, "repeats", 5.8, 24).with_part("random", 3.9, 5).with_part("systematic", 6.7, 8)
    assert d.u == pytest.approx(9.6819, abs=5e-5)  # published 9.7
    assert d.effective_nu == pytest.approx(25.447, abs=5e-4)  # published 25.6, from rounded terms


def test_end_gauge_h1_coverage_truncated_or_not():
    gauge = end_gauge()
    assert coverage(16, 0.99) == pytest.approx(2.92078, abs=5e-6)  # published 2.92
    assert gauge.expanded(0.99) == pytest.approx(91.93758, abs=1e-4)  # untruncated, as GTC and metrolopy give it
    assert coverage(math.floor(gauge.effective_nu), 0.99) * gauge.u == pytest.approx(92.48, abs=5e-3)  # published 93


def test_end_gauge_h1_against_gtc():
    standard, d = ureal(L_S, 25, 18), ureal(215, 5.8, 24) + ureal(0, 3.9, 5) + ureal(0, 6.7, 8)
    length = (
        standard
        + d
        - standard
        * (
            ureal(0, D_ALPHA, 50) * (ureal(THETA, 0.2) + ureal(0, 0.5 / math.sqrt(2)))
            + ureal(ALPHA_S, 2e-6 / math.sqrt(3)) * ureal(0, D_THETA, 2)
        )
    )
    assert end_gauge().u == pytest.approx(length.u, rel=1e-12)
    assert end_gauge().effective_nu == pytest.approx(dof(length), rel=1e-9)


READINGS = (96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07)
READINGS += (100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72)


def test_clause_4_4_3_type_a():
    series = spread(READINGS)
    assert (round(series.mean, 3), round(series.s, 3), series.nu) == (100.145, 1.489, 19)
    assert round(type_a(READINGS, "t").u, 3) == 0.333
    assert series.s == pytest.approx(1.48884, abs=5e-6)


@pytest.mark.parametrize(
    ("got", "published", "digits"),
    [
        (rectangular(4.0), 2.3, 1),  # 4.4.5, 96..104
        (triangular(4.0), 1.6, 1),
        (rectangular(0.40e-6) * 1e6, 0.23, 2),  # 4.3.7
        (rectangular(0.26e-6) * 1e6, 0.15, 2),  # 4.3.8
        (even_odds(0.04), 0.06, 2),  # 4.3.5
        (resolution(1.0), 0.29, 2),  # F.2.2.1
    ],
)
def test_clause_4_widths(got, published, digits):
    assert round(got, digits) == published


def test_widths_against_gtc():
    assert rectangular(0.7) == pytest.approx(gtc_type_b.uniform(0.7), rel=1e-15)
    assert triangular(0.7) == pytest.approx(gtc_type_b.triangular(0.7), rel=1e-15)
    assert arcsine(0.7) == pytest.approx(gtc_type_b.arcsine(0.7), rel=1e-15)


G2 = (13.97, 4.53, 3.31, 2.87, 2.65, 2.52, 2.43, 2.37, 2.32, 2.28)


@pytest.mark.parametrize(("nu", "k"), list(enumerate(G2, 1)))
def test_table_g2(nu, k):
    assert round(coverage(nu, 0.9545), 2) == k
