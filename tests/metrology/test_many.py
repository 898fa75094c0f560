"""A thousand correlated clearances against the uncertainties package, one by one and as a covariance matrix."""

import numpy as np
import pytest
from uncertainties import covariance_matrix, ufloat

from gudgeon.metrology.many import many
from gudgeon.problem import Refused


def both(n, rng):
    guides, stems = rng.normal(5.01, 0.01, n), rng.normal(4.97, 0.01, n)
    u_guides, u_stems = rng.uniform(0.0005, 0.002, n), rng.uniform(0.0005, 0.002, n)
    room = rng.normal(0.0, 0.001, n)
    bore, mic, warm = (ufloat(0.0, u) for u in (0.002, 0.0015, 1.0))
    theirs = [
        (ufloat(g, ug) + bore + r * warm) - (ufloat(s, us) + mic + 0.5 * r * warm)
        for g, ug, s, us, r in zip(guides, u_guides, stems, u_stems, room, strict=True)
    ]
    guide = many(guides, u_guides, {"bore gauge": 0.002, "room": room})
    stem = many(stems, u_stems, {"micrometer": 0.0015, "room": 0.5 * room})
    return theirs, guide.plus(stem, -1.0)


def test_thousand_clearances():
    theirs, ours = both(1000, np.random.default_rng(1))
    assert ours.values == pytest.approx([each.nominal_value for each in theirs], rel=1e-12)
    assert ours.us == pytest.approx([each.std_dev for each in theirs], rel=1e-12)


def test_covariance():
    theirs, ours = both(40, np.random.default_rng(2))
    np.testing.assert_allclose(ours.covariance(), covariance_matrix(theirs), rtol=1e-11, atol=1e-20)
    assert np.sqrt(np.diag(ours.covariance())) == pytest.approx(ours.us, rel=1e-13)


def test_without_shared_causes():
    assert many([1.0, 2.0], 0.3).us == pytest.approx([0.3, 0.3])


@pytest.mark.parametrize(
    "call",
    [
        lambda: many([]),
        lambda: many([1.0, float("nan")]),
        lambda: many([1.0, 2.0, 3.0], u=[1.0, 2.0]),
        lambda: many([1.0], shared={"room": float("inf")}),
        lambda: many([1.0, 2.0]).plus(many([1.0])),
        lambda: many([1.0]).plus(many([1.0]), float("nan")),
        lambda: many([[1.0, 2.0]]),
    ],
)
def test_refusals(call):
    with pytest.raises(Refused):
        call()
