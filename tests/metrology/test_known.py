"""Labelled contributions against two independent packages that carry correlation (uncertainties, GTC)."""

import math

import pytest
from GTC import dof, ureal
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from gudgeon.metrology.known import Known, known, mean_of
from gudgeon.problem import Refused

LABELS = ("gauge", "master", "room", "reading 1", "reading 2")
shares = st.floats(0.001, 100.0).flatmap(lambda x: st.sampled_from((x, -x)))
values = st.builds(
    lambda value, parts: Known(value=value, parts=tuple(parts.items())),
    st.floats(-100.0, 100.0),
    st.dictionaries(st.sampled_from(LABELS), shares, min_size=1),
)


@given(a=values, b=values, factor=st.floats(-5.0, 5.0))
def test_plus_against_uncertainties(a, b, factor):
    causes = {label: ufloat(0.0, 1.0) for label in LABELS}
    ua = a.value + sum(part * causes[label] for label, part in a.parts)
    ub = b.value + sum(part * causes[label] for label, part in b.parts)
    both = ua + factor * ub
    got = a.plus(b, factor)
    assert got.value == pytest.approx(both.nominal_value, rel=1e-12, abs=1e-12)
    assert got.u == pytest.approx(both.std_dev, rel=1e-12, abs=1e-12)


@given(parts=st.lists(st.tuples(st.floats(0.1, 10.0), st.floats(1.0, 50.0)), min_size=1, max_size=6))
def test_effective_freedom_against_gtc(parts):
    total = Known(
        value=0.0,
        parts=tuple((f"c{n}", u) for n, (u, _) in enumerate(parts)),
        nu=tuple((f"c{n}", nu) for n, (_, nu) in enumerate(parts)),
    )
    gtc = sum((ureal(0.0, u, nu) for u, nu in parts), ureal(0.0, 0.0))
    assert total.u == pytest.approx(gtc.u, rel=1e-12)
    assert total.effective_nu == pytest.approx(dof(gtc), rel=1e-9)


def test_one_gauge_on_both_parts_cancels_in_the_fit():
    guide = Known(value=5.0, parts=(("gauge", 0.003), ("guide", 0.001)))
    stem = Known(value=4.9, parts=(("gauge", 0.003), ("stem", 0.001)))
    assert guide.plus(stem, -1.0).u == pytest.approx(math.sqrt(2) * 0.001)
    assert guide.plus(stem).u == pytest.approx(math.hypot(0.006, 0.001, 0.001))


def test_equal_labels_merge_when_made():
    assert Known(value=1.0, parts=(("a", 3.0), ("a", -3.0), ("b", 1.0))).parts == (("b", 1.0),)
    assert Known(value=1.0, parts=(("a", 3.0), ("a", 1.0))).u == 4.0


def test_what_is_shared_does_not_average_away():
    reads = tuple(Known(value=1.0, parts=(("bias", 0.003), (f"r{n}", 0.004))) for n in range(16))
    assert mean_of(reads).u == pytest.approx(math.hypot(0.003, 0.001))
    assert mean_of(reads).value == pytest.approx(1.0, rel=1e-15)


def test_small_things():
    assert known(3.0).u == 0.0
    assert known(3.0).effective_nu == math.inf
    assert known(3.0, "x", 0.1, 4).shifted(5.0) == known(5.0, "x", 0.1, 4)
    assert known(3.0, "x", 0.1, 4).times(-2.0).parts == (("x", -0.2),)
    assert known(3.0, "x", 0.1, 4).expanded() == pytest.approx(2.776445 * 0.1, rel=1e-6)
    assert known(3.0, "x", 0.1, 4).plus(known(1.0, "x", 0.2, 9)).effective_nu == pytest.approx(
        4.0
    )  # one label: the fewer


@pytest.mark.parametrize("bad", [math.nan, math.inf, "long"])
def test_refuses_what_is_no_number(bad):
    with pytest.raises(Refused, match="value"):
        Known(value=bad)
    with pytest.raises(Refused, match="gauge"):
        Known(value=1.0, parts=(("gauge", bad),))
    with pytest.raises(Refused, match="factor"):
        known(1.0, "a", 1.0).times(bad)


def test_refuses_an_empty_mean_and_no_freedom():
    with pytest.raises(Refused):
        mean_of(())
    with pytest.raises(Refused, match="gauge"):
        Known(value=1.0, parts=(("gauge", 1.0),), nu=(("gauge", 0.0),))
