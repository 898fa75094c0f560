"""Cylinders with known answers (own constructions), and a general-purpose minimiser from several starts."""

import math

import numpy as np
import pytest
from scipy.optimize import least_squares, minimize
from scipy.spatial.transform import Rotation

from gudgeon.metrology import cylindricity
from gudgeon.problem import Refused

EIGHTHS = np.radians(45.0 * np.arange(8))


def bore(radius):
    return np.array(
        [(radius(z, t) * np.cos(t), radius(z, t) * np.sin(t), z) for z in (0.0, 30.0, 60.0) for t in EIGHTHS]
    )


KNOWN = [
    (lambda z, t: 26 + 0.020 * z / 60, 0.020),
    (lambda z, t: 26 + 0.012 * (z == 30), 0.012),
    (lambda z, t: 26 + 0.005 * np.cos(2 * t) + 0.020 * z / 60, 0.030),
]


@pytest.mark.parametrize(("radius", "width"), KNOWN)
@pytest.mark.parametrize("lean", [(0.0, 0.0, 0.0), (0.01, -0.02, 1.0), (0.3, -0.1, 0.3)])
def test_taper_barrel_and_oval(radius, width, lean):
    points = Rotation.from_rotvec(lean).apply(bore(radius)) + np.array([5.0, 3.0, 100.0])
    assert cylindricity.least_squares(points).width == pytest.approx(width, abs=1e-9)
    assert cylindricity.minimum_zone(points).width == pytest.approx(width, abs=1e-9)


def distances(points, p):
    axis = np.array([p[2], p[3], 1.0]) / math.sqrt(1 + p[2] ** 2 + p[3] ** 2)
    away = points - [p[0], p[1], points[:, 2].mean()]
    return np.linalg.norm(away - np.outer(away @ axis, axis), axis=1)


def random_bore(rng, n=30):
    z, turn, r = rng.uniform(0, 60, n), rng.uniform(0, 2 * np.pi, n), 26 + rng.normal(0, 0.005, n)
    return np.column_stack([r * np.cos(turn), r * np.sin(turn), z])


def test_least_squares_against_scipy():
    rng = np.random.default_rng(1)
    for _ in range(10):
        points = random_bore(rng)
        best = least_squares(
            lambda p, points=points: distances(points, p) - p[4], [0, 0, 0, 0, 26.0], xtol=1e-15, ftol=1e-15, gtol=1e-15
        )
        got = cylindricity.least_squares(points)
        assert (got.x, got.y, got.lean_x, got.lean_y, got.radius) == pytest.approx(tuple(best.x), abs=1e-7)


def test_minimum_zone_is_never_worse_than_a_general_minimiser():
    rng = np.random.default_rng(2)
    for _ in range(4):
        points = random_bore(rng)
        got = cylindricity.minimum_zone(points)
        here = [got.x, got.y, got.lean_x, got.lean_y]
        assert np.ptp(distances(points, here)) == pytest.approx(got.width, abs=1e-11)
        options = {"xatol": 1e-8, "fatol": 1e-11, "maxiter": 2000, "maxfev": 2000}
        for start in (here, [0, 0, 0, 0], [0.01, 0, 0, 1e-4]):
            best = minimize(
                lambda p, points=points: np.ptp(distances(points, p)), start, method="Nelder-Mead", options=options
            )
            assert got.width <= best.fun + 1e-12
        assert got.width <= cylindricity.least_squares(points).width
        assert len(got.contacts) == 6


@pytest.mark.parametrize(
    "points",
    [
        bore(KNOWN[0][0])[:5],
        bore(KNOWN[0][0])[:8],
        [(float(n), 0.0, float(n * n)) for n in range(8)],
        np.full((9, 3), np.nan),
        np.ones((9, 2)),
        [(1.0, 1.0, 1.0)] * 9,
    ],
)
def test_bad_points_are_refused_by_name(points):
    for fit in (cylindricity.least_squares, cylindricity.minimum_zone):
        with pytest.raises(Refused) as caught:
            fit(points)
        assert caught.value.problems[0].where == "points"
