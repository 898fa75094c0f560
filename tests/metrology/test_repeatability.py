"""AIAG MSA 4th ed., chapter III section B: ten parts, three appraisers, three trials (data and results read in public files)."""

import math

import pandas as pd
import pytest
from statsmodels.formula.api import ols
from statsmodels.stats.anova import anova_lm

from gudgeon.metrology.repeatability import analysis_of_variance, average_and_range, study
from gudgeon.problem import Refused

TABLE = """
A1  0.29 -0.56 1.34 0.47 -0.80  0.02 0.59 -0.31 2.26 -1.36
A2  0.41 -0.68 1.17 0.50 -0.92 -0.11 0.75 -0.20 1.99 -1.25
A3  0.64 -0.58 1.27 0.64 -0.84 -0.21 0.66 -0.17 2.01 -1.31
B1  0.08 -0.47 1.19 0.01 -0.56 -0.20 0.47 -0.63 1.80 -1.68
B2  0.25 -1.22 0.94 1.03 -1.20  0.22 0.55  0.08 2.12 -1.62
B3  0.07 -0.68 1.34 0.20 -1.28  0.06 0.83 -0.34 2.19 -1.50
C1  0.04 -1.38 0.88 0.14 -1.46 -0.29 0.02 -0.46 1.77 -1.49
C2 -0.11 -1.13 1.09 0.20 -1.07 -0.67 0.01 -0.56 1.45 -1.77
C3 -0.15 -0.96 0.67 0.11 -1.45 -0.49 0.21 -0.49 1.87 -2.16
"""
ROWS = [
    (str(part), line[0], line[1], float(value))
    for line in TABLE.split("\n")
    if line
    for part, value in enumerate(line.split()[1:], 1)
]


@pytest.mark.authority
def test_average_and_range():
    got = average_and_range(study(ROWS))
    assert (got.ev, got.av, got.grr, got.pv, got.tv) == pytest.approx(
        (0.201857, 0.229667, 0.305766, 1.104596, 1.146135), abs=5e-7
    )
    published = (0.20188, 0.22963, 0.30575, 1.10456, 1.14610)  # from rounded averages
    assert (got.ev, got.av, got.grr, got.pv, got.tv) == pytest.approx(published, abs=5e-5)
    assert got.percent == pytest.approx((17.62, 20.04, 26.68, 96.38), abs=0.01)
    assert got.ndc == 5
    assert got.out_of_control == (("4", "B"),)


@pytest.mark.authority
def test_analysis_of_variance():
    got = analysis_of_variance(study(ROWS))
    assert got.squares == pytest.approx((88.3619, 3.1673, 0.3590, 2.7589), abs=6e-5)
    assert math.fsum(got.squares) == pytest.approx(94.6471, abs=6e-5)
    assert got.means == pytest.approx((9.81799, 1.58363, 0.01994, 0.04598), abs=6e-6)
    assert got.f == pytest.approx((213.52, 34.44, 0.434), abs=6e-3)
    assert got.pooled
    spreads = got.spreads
    assert (spreads.ev, spreads.av, spreads.grr, spreads.pv) == pytest.approx(
        (0.199933, 0.226838, 0.302373, 1.042327), abs=2e-6
    )
    assert (spreads.ev, spreads.av, spreads.grr, spreads.pv, spreads.tv) == pytest.approx(
        (0.1999332, 0.2268375, 0.3023715, 1.0423275, 1.0852996), abs=6e-8
    )
    assert spreads.percent == pytest.approx((18.4, 20.9, 27.9, 96.0), abs=0.06)
    assert spreads.ndc == 4
    assert got.ev_limits == pytest.approx((0.17692, 0.23056), abs=6e-6)  # table III-B.9: 0.177 to 0.231


def test_the_two_methods_disagree_on_the_classes():
    assert (average_and_range(study(ROWS)).ndc, analysis_of_variance(study(ROWS)).spreads.ndc) == (5, 4)


def test_sums_of_squares_against_statsmodels():
    frame = pd.DataFrame(ROWS, columns=["part", "who", "trial", "value"])
    table = anova_lm(ols("value ~ C(part) * C(who)", data=frame).fit())
    got = analysis_of_variance(study(ROWS))
    assert got.squares == pytest.approx(tuple(table["sum_sq"]), rel=1e-10)
    assert got.freedoms == tuple(int(df) for df in table["df"])
    assert got.f == pytest.approx(tuple(table["F"][:3]), rel=1e-10)
    assert got.interaction_p == pytest.approx(table["PR(>F)"].iloc[2], rel=1e-9)


def test_a_real_interaction_is_not_pooled():
    rows = [(p, a, t, v + (0.5 if (p, a) == ("1", "B") else 0.0) + (0.01 if t == "2" else 0.0)) for p, a, t, v in GRID]
    got = analysis_of_variance(study(rows))
    assert not got.pooled
    assert got.interaction_p < 0.01
    assert got.spreads.ev == pytest.approx(math.sqrt(got.means[3]))


GRID = [(p, a, t, float(p)) for p in "123" for a in "AB" for t in "12"]


def test_a_perfect_gauge():
    got = average_and_range(study(GRID))
    assert (got.ev, got.av, got.ndc) == (0.0, 0.0, 0)
    assert got.percent == (0.0, 0.0, 0.0, 100.0)
    assert analysis_of_variance(study(GRID)).spreads.ev == 0.0


def test_order_of_rows_does_not_matter():
    assert average_and_range(study(sorted(ROWS, key=lambda row: row[3]))).grr == pytest.approx(
        average_and_range(study(ROWS)).grr
    )


@pytest.mark.parametrize(
    ("rows", "named"),
    [
        ([], "readings"),
        (ROWS[:9], "readings"),
        (ROWS[:-1], "readings"),
        ([*ROWS, ROWS[0]], "row 91"),
        ([*ROWS[:-1], ("10", "C", "3", math.nan)], "row 90"),
        ([("1", a, t, 1.0) for a in "AB" for t in "12"], "readings"),
        ([(p, "A", t, 1.0) for p in "12" for t in "12"], "readings"),
        ([(p, a, "1", 1.0) for p in "12" for a in "AB"], "readings"),
    ],
)
def test_refusals_name_the_place(rows, named):
    with pytest.raises(Refused) as caught:
        study(rows)
    assert caught.value.problems[0].where == named
