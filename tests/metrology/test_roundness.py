"""Circles: Gander, Golub & Strebel, BIT 34 (1994) 558 (from memory, reproduced), an open point set, lobes with known answers.

Set 3 is file 3 of an MIT-licensed public data set of axle roundness; it carries no published result, the values are from two
independent algorithms (sequential linear programs and enumeration; miniball; Voronoi vertices).
"""

import itertools
import math

import miniball
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import least_squares, minimize
from scipy.spatial import ConvexHull

from gudgeon.metrology import roundness
from gudgeon.problem import Refused

GANDER = [(1, 7), (2, 6), (5, 8), (7, 7), (9, 5), (3, 7)]
SET_3 = """
107.5811,114.2119 102.2909,119.9906 95.6848,124.2034 88.2128,126.5634 80.3826,126.9159 72.7251,125.2311 65.7612,121.6196
59.9721,116.3233 55.7576,109.7039 53.4073,102.218 53.0774,94.3816 54.7849,86.7302 58.4107,79.7824 63.7075,74.0083
70.3176,69.8019 77.7899,67.4519 85.6152,67.1081 93.2669,68.7926 100.2245,72.4009 106.0093,77.6929 110.2199,84.3073
112.5676,91.7864 112.8977,99.6156 111.2129,107.2695
"""
AXLE = np.array([[float(v) for v in pair.split(",")] for pair in SET_3.split()])
FITS = (
    roundness.least_squares,
    roundness.minimum_zone,
    roundness.minimum_circumscribed,
    roundness.maximum_inscribed,
)


@pytest.mark.authority
def test_gander_geometric_least_squares():
    circle = roundness.least_squares(GANDER)
    assert (round(circle.x, 4), round(circle.y, 4), round(circle.radius, 4)) == (4.7398, 2.9835, 4.7142)
    assert (circle.rms, circle.width) == (pytest.approx(0.4523271, abs=5e-8), pytest.approx(1.4130027, abs=5e-8))


def test_gander_points_minimum_zone_on_a_short_arc():
    circle = roundness.minimum_zone(GANDER)
    assert (circle.x, circle.y) == (pytest.approx(4.772727, abs=5e-7), pytest.approx(0.409091, abs=5e-7))
    assert circle.width == pytest.approx(1.3536151, abs=5e-8)


def test_axle_set_3():
    lsc, mzc, mcc, mic = (fit(AXLE) for fit in FITS)
    assert (lsc.x, lsc.y, lsc.radius) == pytest.approx((82.9897489, 97.0091154, 30.0268205), abs=6e-8)
    assert (lsc.width, lsc.rms, lsc.peak, lsc.valley) == pytest.approx(
        (0.03910167, 0.01346870, 0.02340267, 0.01569900), abs=6e-9
    )
    assert (mzc.x, mzc.y, mzc.width) == pytest.approx((82.9909410, 97.0083873, 0.03823094), abs=6e-8)
    assert (mcc.x, mcc.y, mcc.radius, mcc.width) == pytest.approx((82.9907, 97.0081, 30.0488419, 0.03855564), abs=6e-8)
    assert (mic.x, mic.y, mic.radius, mic.width) == pytest.approx(
        (82.9849318, 97.0105450, 30.0116952, 0.04313702), abs=6e-8
    )


def lobes(m, n=36, amplitude=0.010):
    turn = np.arange(n) * 2 * np.pi / n
    r = 25.0 + amplitude * np.cos(m * turn)
    return np.column_stack([r * np.cos(turn) + 0.003, r * np.sin(turn) - 0.002])


@pytest.mark.parametrize("fit", FITS)
def test_three_lobes(fit):
    circle = fit(lobes(3))
    assert (circle.x, circle.y) == (pytest.approx(0.003, abs=1e-9), pytest.approx(-0.002, abs=1e-9))
    assert circle.width == pytest.approx(0.02, abs=1e-10)


def test_a_two_point_gauge_does_not_see_three_lobes():
    points = lobes(3)
    across = [math.dist(points[n], points[n + 18]) for n in range(18)]
    assert max(across) - min(across) < 1e-12


def test_oval():
    for fit in FITS[:3]:
        assert fit(lobes(2)).width == pytest.approx(0.02, abs=1e-9)
    inscribed = roundness.maximum_inscribed(lobes(2))
    assert inscribed.width == pytest.approx(0.02347, abs=5e-6)
    assert math.hypot(inscribed.x - 0.003, inscribed.y + 0.002) == pytest.approx(0.0035, abs=5e-5)


def ring(rng, kind):
    n = int(rng.integers(6, 30))
    turn = np.sort(rng.uniform(0, 2 * np.pi, n)) if kind == "random" else np.arange(n) * 2 * np.pi / n
    match kind:
        case "ties":
            r = 20.0 + 0.01 * rng.integers(0, 3, n)
        case "oval":
            r = 20.0 + 0.01 * np.cos(2 * turn) + rng.normal(0, 0.001, n)
        case "perfect":
            r = np.full(n, 20.0)
        case _:
            r = 20.0 + rng.normal(0, 0.01, n)
    points = np.column_stack([r * np.cos(turn), r * np.sin(turn)])
    return points + rng.uniform(-100, 100, 2) if rng.random() < 0.5 else points


KINDS = ("random", "even", "ties", "oval", "perfect")


def inscribed_by_enumeration(points):
    """Every circle through three points that holds none and has its centre within the hull."""
    three = points[np.array(list(itertools.combinations(range(len(points)), 3)))]
    first, second = three[:, 1] - three[:, 0], three[:, 2] - three[:, 0]
    twice = 2 * (first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0])
    p, q = np.sum(first**2, axis=1), np.sum(second**2, axis=1)
    centres = (
        three[:, 0]
        + np.column_stack([second[:, 1] * p - first[:, 1] * q, first[:, 0] * q - second[:, 0] * p]) / twice[:, None]
    )
    sides = ConvexHull(points).equations
    inside = centres[np.all(centres @ sides[:, :2].T + sides[:, 2] <= 1e-9, axis=1)]
    return float(np.linalg.norm(inside[:, None] - points, axis=2).min(axis=1).max())


@pytest.mark.parametrize("kind", KINDS)
def test_maximum_inscribed_against_enumeration(kind):
    rng, tried = np.random.default_rng(3), 0
    for _ in range(120):
        points = ring(rng, kind)
        try:
            got = roundness.maximum_inscribed(points)
        except Refused:
            continue
        tried += 1
        assert got.radius == pytest.approx(inscribed_by_enumeration(points), abs=1e-10)
    assert tried > 80


@pytest.mark.parametrize("kind", KINDS)
def test_minimum_circumscribed_against_miniball(kind):
    rng = np.random.default_rng(4)
    for _ in range(120):
        points = ring(rng, kind)
        got = roundness.minimum_circumscribed(points)
        assert got.radius == pytest.approx(math.sqrt(miniball.get_bounding_ball(points)[1]), abs=1e-9)
        assert np.linalg.norm(points - [got.x, got.y], axis=1).max() <= got.radius + 1e-11


@settings(max_examples=80, deadline=None)
@given(st.lists(st.tuples(st.integers(-5, 5), st.integers(-5, 5)), min_size=4, max_size=20))
def test_minimum_circumscribed_on_tied_sets(points):
    cloud = np.array(points, dtype=float)
    try:
        got = roundness.minimum_circumscribed(cloud)
    except Refused:
        assert np.linalg.matrix_rank(cloud - cloud[0]) < 2
        return
    assert np.linalg.norm(cloud - [got.x, got.y], axis=1).max() <= got.radius + 1e-12
    assert got.radius == pytest.approx(smallest_disc(cloud), abs=1e-11)


def smallest_disc(cloud):
    """The centre of the smallest disc minimises the largest distance, a convex function: try all pairs and triples."""
    best = math.inf
    for a, b in itertools.combinations(cloud, 2):
        centre = (a + b) / 2
        best = min(best, worst(cloud, centre, a))
    for a, b, c in itertools.combinations(cloud, 3):
        rows = 2 * np.array([b - a, c - a])
        if abs(np.linalg.det(rows)) > 1e-9:
            centre = np.linalg.solve(rows, [b @ b - a @ a, c @ c - a @ a])
            best = min(best, worst(cloud, centre, a))
    return best


def worst(cloud, centre, on):
    radius = np.linalg.norm(on - centre)
    return radius if np.linalg.norm(cloud - centre, axis=1).max() <= radius + 1e-9 else math.inf


def zone_by_enumeration(points, near):
    """Every centre equally far from two highs and equally far from two lows (2-2), or from three points (3-1), near a place."""
    pairs = list(itertools.combinations(range(len(points)), 2))
    rows = np.array([2 * (points[j] - points[i]) for i, j in pairs])
    right = np.array([points[j] @ points[j] - points[i] @ points[i] for i, j in pairs])
    first, second = np.triu_indices(len(pairs), 1)
    det = rows[first, 0] * rows[second, 1] - rows[first, 1] * rows[second, 0]
    fine = np.abs(det) > 1e-6
    first, second, det = first[fine], second[fine], det[fine]
    x = (right[first] * rows[second, 1] - right[second] * rows[first, 1]) / det
    y = (rows[first, 0] * right[second] - rows[second, 0] * right[first]) / det
    centres = np.column_stack([x, y])
    centres = centres[np.linalg.norm(centres - near, axis=1) < 1.0]
    return float(np.ptp(np.linalg.norm(centres[:, None] - points, axis=2), axis=1).min())


@pytest.mark.parametrize("kind", KINDS)
def test_minimum_zone_against_enumeration(kind):
    rng = np.random.default_rng(5)
    for _ in range(60):
        points = ring(rng, kind)[:14] if kind == "random" else ring(rng, kind)
        points = points[:: max(1, len(points) // 12)] if len(points) >= 12 else points
        got = roundness.minimum_zone(points)
        assert got.width == pytest.approx(zone_by_enumeration(points, (got.x, got.y)), abs=1e-10)


@pytest.mark.parametrize("kind", KINDS)
def test_least_squares_against_scipy(kind):
    rng = np.random.default_rng(6)
    for _ in range(60):
        points = ring(rng, kind)
        got = roundness.least_squares(points)
        start = [*points.mean(axis=0), 20.0]
        best = least_squares(
            lambda p, points=points: np.linalg.norm(points - p[:2], axis=1) - p[2],
            start,
            method="lm",
            xtol=1e-15,
            ftol=1e-15,
            gtol=1e-15,
        )
        assert (got.x, got.y, got.radius) == pytest.approx(tuple(best.x), abs=1e-7)
        assert got.rms <= math.sqrt(2 * best.cost / len(points)) + 1e-14


@pytest.mark.parametrize("n", [36, 3600])
def test_never_worse_than_nelder_mead(n):
    rng = np.random.default_rng(n)
    points = lobes(2, n) + rng.normal(0, 0.002, (n, 2))

    def distance(c):
        return np.hypot(points[:, 0] - c[0], points[:, 1] - c[1])

    goals = (np.var, np.ptp, np.max, lambda rho: -np.min(rho))
    for fit, goal in zip(FITS, goals, strict=True):
        circle = fit(points)
        best = minimize(
            lambda c, goal=goal: goal(distance(c)),
            points.mean(axis=0),
            method="Nelder-Mead",
            options={"xatol": 1e-9, "fatol": 1e-13},
        )
        assert goal(distance((circle.x, circle.y))) <= best.fun + 1e-13


@pytest.mark.parametrize("fit", FITS)
def test_rotation_and_shift_change_nothing(fit):
    rng = np.random.default_rng(7)
    for _ in range(30):
        points = ring(rng, "even")
        angle = rng.uniform(0, 2 * np.pi)
        turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
        moved = points @ turn.T + rng.uniform(-50, 50, 2)
        assert fit(moved).width == pytest.approx(fit(points).width, abs=1e-10)
        assert fit(moved[::-1]).radius == pytest.approx(fit(points).radius, abs=1e-10)


def test_order_of_the_four():
    rng = np.random.default_rng(8)
    for _ in range(100):
        lsc, mzc, mcc, mic = (fit(ring(np.random.default_rng(rng.integers(1 << 30)), "even")) for fit in FITS)
        assert mcc.peak == pytest.approx(0.0, abs=1e-10)
        assert mic.valley == pytest.approx(0.0, abs=1e-10)
    points = ring(rng, "even")
    lsc, mzc, mcc, mic = (fit(points) for fit in FITS)
    assert mzc.width <= min(lsc.width, mcc.width, mic.width) + 1e-12
    assert mic.radius <= lsc.radius <= mcc.radius


@pytest.mark.parametrize("fit", FITS)
@pytest.mark.parametrize(
    "points",
    [
        [(0, 0), (1, 0), (0, 1)],
        [(float(n), 2.0 * n) for n in range(9)],
        [(1.0, 1.0)] * 7,
        [(0, 0), (1, 0), (0, 1), (math.nan, 1)],
        [(0, 0), (1, 0), (0, 1), (math.inf, 1)],
        [(0, 0, 0)] * 5,
        "circle",
        [],
    ],
)
def test_bad_points_are_refused_by_name(fit, points):
    with pytest.raises(Refused) as caught:
        fit(points)
    assert caught.value.problems[0].where == "points"


def test_an_arc_has_no_inscribed_circle():
    with pytest.raises(Refused, match="go round"):
        roundness.maximum_inscribed(GANDER)
