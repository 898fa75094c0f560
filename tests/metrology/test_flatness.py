"""Minimum zone of planes and lines against a linear program, against enumeration of every contact, and against proofs."""

import itertools
import math

import numpy as np
import pytest
from scipy.optimize import linprog
from scipy.spatial import ConvexHull
from scipy.spatial.transform import Rotation

from gudgeon.metrology import flatness, straightness
from gudgeon.problem import Refused


def by_linear_program(points):
    """Smallest vertical band, then across: zone 2h/√(1 + a² + b²)."""
    rest = points - points.mean(axis=0)
    plane = np.column_stack([rest[:, :-1], np.ones(len(rest))])
    one = np.ones((len(rest), 1))
    rows = np.block([[plane, -one], [-plane, -one]])
    scale = np.ptp(rest[:, -1]) or 1.0
    limit = np.concatenate([rest[:, -1], -rest[:, -1]]) / scale
    free = [(None, None)] * plane.shape[1]
    best = linprog([0.0] * plane.shape[1] + [1.0], rows, limit, bounds=[*free, (0, None)], method="highs")
    return 2 * scale * best.fun / math.sqrt(1.0 + float(np.sum((scale * best.x[:-2]) ** 2)))


def by_enumeration(points):
    """Every plane through three points and every one parallel to two pairs: the narrowest zone touches one of these ways."""
    n = len(points)
    three = np.array(list(itertools.combinations(range(n), 3)))
    pairs = np.array(list(itertools.combinations(range(n), 2)))
    edges = points[pairs[:, 1]] - points[pairs[:, 0]]
    first, second = np.triu_indices(len(edges), 1)
    through = np.cross(points[three[:, 1]] - points[three[:, 0]], points[three[:, 2]] - points[three[:, 0]])
    normals = np.concatenate([through, np.cross(edges[first], edges[second])])
    length = np.linalg.norm(normals, axis=1)
    normals = normals[length > 1e-9 * length.max()] / length[length > 1e-9 * length.max()][:, None]
    return float(np.ptp(points @ normals[np.abs(normals[:, 2]) > 0.5].T, axis=0).min())


def by_hull(line):
    """Width of a plane convex hull: the farthest point from each edge."""
    hull = line[ConvexHull(line * [1.0, 1000.0]).vertices]
    edges = np.roll(hull, -1, axis=0) - hull
    normals = np.column_stack([-edges[:, 1], edges[:, 0]]) / np.linalg.norm(edges, axis=1)[:, None]
    return float(np.ptp(hull @ normals.T, axis=0).min())


def random_face(rng, kind):
    n = int(rng.integers(4, 11))
    match kind:
        case "random":
            points = np.column_stack([rng.uniform(0, 100, (n, 2)), rng.normal(0, 0.01, n)])
        case "grid with ties":
            places = [(i, j) for i in range(int(rng.integers(2, 4))) for j in range(3)]
            points = np.array([(50.0 * i, 50.0 * j, 0.002 * rng.integers(0, 4)) for i, j in places])
        case "repeated points":
            points = np.column_stack([rng.integers(0, 4, (n, 2)) * 30.0, rng.integers(0, 3, n) * 0.002])
        case _:
            points = np.column_stack([rng.uniform(0, 100, (n, 2)), np.zeros(n)])
            points[:, 2] = 0.01 * points[:, 0] - 0.02 * points[:, 1]
    return points + np.array([1000.0, -500.0, 30.0]) if rng.random() < 0.3 else points


@pytest.mark.parametrize("kind", ["random", "grid with ties", "repeated points", "perfect plane"])
def test_two_exact_methods_agree(kind):
    rng, tried = np.random.default_rng(11), 0
    for _ in range(1000):
        points = random_face(rng, kind)
        try:
            zone = flatness.minimum_zone(points)
        except Refused:
            assert np.linalg.matrix_rank(points[:, :2] - points[0, :2], tol=1e-6) < 2
            continue
        tried += 1
        assert zone.width == pytest.approx(by_enumeration(points), abs=1e-9)
    assert tried > 800


@pytest.mark.parametrize("n", [4, 9, 16, 25, 36, 200])
def test_linear_program_agrees(n):
    rng = np.random.default_rng(n)
    for _ in range(25):
        points = np.column_stack([rng.uniform(0, 200, (n, 2)), rng.normal(0, 0.02, n)])
        assert flatness.minimum_zone(points).width == pytest.approx(by_linear_program(points), abs=1e-9)


def test_twenty_thousand_points():
    rng = np.random.default_rng(2)
    points = np.column_stack([rng.uniform(0, 200, (20_000, 2)), rng.normal(0, 0.02, 20_000)])
    zone = flatness.minimum_zone(points)
    assert zone.width == pytest.approx(by_linear_program(points), abs=1e-9)
    assert proven(points, zone)


def proven(points, zone):
    """3-1 or 2-2: seen along the normal, highs and lows cannot be separated by a line."""
    normal = np.array(zone.normal)
    across = np.linalg.svd(normal[None])[2][1:]
    high = [across @ points[row] for row, side in zone.contacts if side == "high"]
    low = [across @ points[row] for row, side in zone.contacts if side == "low"]
    hull = np.block([[np.array(high).T, -np.array(low).T], [np.ones(len(high)), np.zeros(len(low))]])
    hull = np.vstack([hull, [0.0] * len(high) + [1.0] * len(low)])
    weights, rest = np.linalg.lstsq(hull, np.array([0.0, 0.0, 1.0, 1.0]), rcond=None)[:2]
    return bool(np.all(weights >= -1e-9)) and float(np.sum(rest)) < 1e-15


def test_contacts_prove_the_zone_and_touch_it():
    rng = np.random.default_rng(8)
    for _ in range(50):
        points = random_face(rng, "random")
        zone = flatness.minimum_zone(points)
        along = points @ np.array(zone.normal)
        for row, side in zone.contacts:
            assert along[row] == pytest.approx(zone.highest if side == "high" else zone.lowest, abs=1e-12)
        assert sorted(side for _, side in zone.contacts).count("high") in (1, 2, 3)
        assert proven(points, zone)


@pytest.mark.parametrize("degrees", [0.0, 0.5, 20.0, 60.0])
def test_tilt_and_shift_change_nothing(degrees):
    rng = np.random.default_rng(int(degrees))
    for _ in range(40):
        points = np.column_stack([rng.uniform(0, 100, (20, 2)), rng.normal(0, 0.01, 20)])
        turn = Rotation.from_rotvec(np.radians(degrees) * np.array([0.6, 0.8, 0.0]) + [0.0, 0.0, rng.uniform(-3, 3)])
        moved = turn.apply(points) + rng.uniform(-300, 300, 3)
        assert flatness.minimum_zone(moved).width == pytest.approx(flatness.minimum_zone(points).width, abs=1e-10)
        assert flatness.least_squares(moved).width == pytest.approx(flatness.least_squares(points).width, abs=1e-10)
        assert flatness.minimum_zone(points[::-1]).width == pytest.approx(
            flatness.minimum_zone(points).width, abs=1e-12
        )


def test_minimum_zone_is_never_more_than_least_squares():
    rng = np.random.default_rng(4)
    for _ in range(200):
        points = random_face(rng, "random")
        assert flatness.minimum_zone(points).width <= flatness.least_squares(points).width + 1e-13


GRID = [
    (100.0 * i, 100.0 * j, z / 1000)
    for j, row in enumerate([(0, 4, 6), (-5, 20, -9), (-10, -3, 8)])
    for i, z in enumerate(row)
]


def test_grid_of_nine_by_proof():
    """High (100,100) is the midpoint of the lows (0,100) and (200,100), so no plane does better than 20 - (-5 - 9)/2 = 27 µm."""
    zone, squares = flatness.minimum_zone(GRID), flatness.least_squares(GRID)
    assert 1000 * zone.width == pytest.approx(27.0, abs=1e-6)
    assert 1000 * squares.width == pytest.approx(97 / 3, abs=1e-6)
    assert {(4, "high"), (5, "low")} <= set(zone.contacts)  # (0,100) is itself the midpoint of two other lows


def test_line_by_proof():
    line = [(10.0 * n, z / 1000) for n, z in enumerate((0, 5, 2, 6, 0))]
    assert 1000 * straightness.minimum_zone(line).width == pytest.approx(6.0, abs=1e-6)
    assert 1000 * straightness.least_squares(line).width == pytest.approx(6.1, abs=1e-6)


def test_straightness_against_the_hull():
    rng = np.random.default_rng(6)
    for n in (3, 5, 20, 500):
        for _ in range(100):
            line = np.column_stack([rng.uniform(0, 100, n), rng.normal(0, 0.01, n)])
            assert straightness.minimum_zone(line).width == pytest.approx(by_hull(line), abs=1e-11)


@pytest.mark.parametrize(
    "points",
    [
        [(0, 0, 0), (1, 0, 0), (0, 1, 0)],
        [(float(n), float(n), 0.1 * n * n) for n in range(8)],
        [(5.0, 5.0, float(n)) for n in range(8)],
        [(1, 1, 1)] * 6,
        [(0, 0, 0), (1, 0, 0), (0, 1, 0), (1, 1, math.nan)],
        [(0, 0, 0), (1, 0, 0), (0, 1, 0), (1, 1, math.inf)],
        [(0, 0), (1, 0), (0, 1), (1, 1)],
        [("a", 0, 0), (1, 0, 0), (0, 1, 0), (1, 1, 0)],
        [(0, 0, 0), (1, 0), (0, 1, 0), (1, 1, 0)],
        [],
        3.0,
    ],
)
def test_bad_points_are_refused_by_name(points):
    for fit in (flatness.minimum_zone, flatness.least_squares):
        with pytest.raises(Refused) as caught:
            fit(points)
        assert caught.value.problems[0].where == "points"


@pytest.mark.parametrize("line", [[(0, 0), (1, 1)], [(2.0, 1.0)] * 5, [(2.0, float(n)) for n in range(5)]])
def test_bad_lines_are_refused(line):
    with pytest.raises(Refused, match="points"):
        straightness.minimum_zone(line)


def test_end_points_needs_two_ends():
    with pytest.raises(Refused, match="points"):
        straightness.end_points([(0.0, 0.0), (1.0, 1.0), (0.0, 0.0)])
