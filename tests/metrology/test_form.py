"""Taper and out-of-round of a bore: definitions, the cancelling bias, and a drawing of the same readings."""

import numpy as np
import pytest

from gudgeon.metrology.form import BoreReading, out_of_round, taper
from gudgeon.metrology.known import Known
from gudgeon.problem import Refused

SIZES = {
    ("top", "x"): 88.021,
    ("top", "y"): 88.008,
    ("middle", "x"): 88.014,
    ("middle", "y"): 88.009,
    ("bottom", "x"): 88.010,
    ("bottom", "y"): 88.007,
}


def bore(own, shared):
    return [
        BoreReading(
            level=level, direction=way, size=Known(value=v, parts=(("bore gauge", shared), (f"{level} {way}", own)))
        )
        for (level, way), v in SIZES.items()
    ]


def test_as_read():
    assert out_of_round(bore(0.0, 0.0)).as_read == pytest.approx(0.013)
    assert out_of_round(bore(0.0, 0.0)).where == "top"
    assert taper(bore(0.0, 0.0)).as_read == pytest.approx(0.011)
    assert taper(bore(0.0, 0.0)).where == "x"


def test_exact_readings_have_the_value_that_was_read():
    assert out_of_round(bore(0.0, 0.005)).law.value == pytest.approx(0.013, abs=1e-12)
    assert out_of_round(bore(0.0, 0.005)).law.u == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("form", [out_of_round, taper])
def test_the_gauge_cancels(form):
    assert form(bore(0.001, 0.01)).law.u == pytest.approx(form(bore(0.001, 0.0)).law.u, rel=1e-9)


def test_against_drawing():
    rng = np.random.default_rng(4)
    drawn = {key: value + rng.normal(0, 0.0015, 200_000) for key, value in SIZES.items()}
    oval = np.max([abs(drawn[level, "x"] - drawn[level, "y"]) for level in ("top", "middle", "bottom")], axis=0)
    law = out_of_round(bore(0.0015, 0.004)).law
    assert law.value == pytest.approx(oval.mean(), abs=2e-5)
    assert law.u == pytest.approx(oval.std(), rel=0.02)


def test_doubt_only_adds_to_a_spread():
    assert taper(bore(0.003, 0.0)).law.value > taper(bore(0.001, 0.0)).law.value > taper(bore(0.001, 0.0)).as_read


def test_needs_two_to_compare():
    one = [BoreReading(level="top", direction="x", size=Known(value=88.0))]
    with pytest.raises(Refused, match="readings"):
        out_of_round(one)
    with pytest.raises(Refused, match="two levels"):
        taper([*one, BoreReading(level="top", direction="y", size=Known(value=88.0))])
