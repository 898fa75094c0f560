"""How fast the metrology is against general-purpose tools that solve the same task, measured in one run."""

from __future__ import annotations

import math
import statistics
import time
import tracemalloc
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
from scipy.optimize import linprog, minimize
from scipy.spatial import ConvexHull

from gudgeon.metrology import flatness, roundness
from gudgeon.metrology.clearance import law_of_clearance
from gudgeon.metrology.known import Known
from gudgeon.metrology.many import many
from gudgeon.metrology.montecarlo import Input, monte_carlo

Row = tuple[str, float, float | None]
Detailed = tuple[str, float, float | None, str]
TIGHT = {"xatol": 1e-9, "fatol": 1e-13}
"""Nelder–Mead has to go on until its optimum is as good as the exact one, to a nanometre."""


def rows() -> Iterator[Row]:
    """Task, ratio of times (or megabytes) and the limit it has to keep; run this file alone for what was compared."""
    for task, ratio, limit, _ in detailed():
        yield task, ratio, limit


def detailed() -> Iterator[Detailed]:
    """The same rows with times, differences of results, distance from the truth."""
    yield from _flatness()
    yield from _circles()
    yield _clearances()
    yield from _law()
    yield from _drawing()


def _pair(
    ours: Callable[[], Any], theirs: Callable[[], Any], least: int = 7, seconds: float = 1.0
) -> tuple[float, float, float]:
    """Ratio, and the shortest time of each: taken in turn, the median of the ratios, so that a busy machine weighs on both."""
    pairs: list[tuple[float, float]] = []
    began = time.perf_counter()
    while len(pairs) < least or (time.perf_counter() - began < seconds and len(pairs) < 200):
        pairs.append((_once(ours), _once(theirs)))
    ratio = statistics.median(a / b for a, b in pairs)
    return ratio, 1e3 * min(a for a, _ in pairs), 1e3 * min(b for _, b in pairs)


def _once(work: Callable[[], Any]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def _face(n: int) -> np.ndarray:
    rng = np.random.default_rng(n)
    return np.column_stack([rng.uniform(0, 200, (n, 2)), rng.normal(0, 0.02, n)])


def _by_linear_program(points: np.ndarray) -> float:
    rest = points - points.mean(axis=0)
    plane, one = np.column_stack([rest[:, :2], np.ones(len(rest))]), np.ones((len(rest), 1))
    table = np.block([[plane, -one], [-plane, -one]])
    limit = np.concatenate([rest[:, 2], -rest[:, 2]])
    best = linprog([0, 0, 0, 1], table, limit, bounds=[(None, None)] * 3 + [(0, None)], method="highs")
    return 2.0 * best.fun / math.sqrt(1.0 + best.x[0] ** 2 + best.x[1] ** 2)


def _by_hull(points: np.ndarray) -> float:
    """Hull, then every facet against the corners and every upper edge against every lower one that crosses it."""
    rest = points - points.mean(axis=0)
    hull = ConvexHull(rest * [1.0, 1.0, 1000.0])
    corners = rest[hull.vertices]
    three = rest[hull.simplices]
    facets = np.cross(three[:, 1] - three[:, 0], three[:, 2] - three[:, 0])
    edges = np.concatenate([three[:, 1] - three[:, 0], three[:, 2] - three[:, 1], three[:, 0] - three[:, 2]])
    edges = np.unique(
        np.sort(np.concatenate([hull.simplices[:, [0, 1]], hull.simplices[:, [1, 2]], hull.simplices[:, [2, 0]]]), 1),
        axis=0,
    )
    ways = rest[edges[:, 1]] - rest[edges[:, 0]]
    first, second = np.triu_indices(len(ways), 1)
    normals = np.concatenate([facets, np.cross(ways[first], ways[second])])
    length = np.linalg.norm(normals, axis=1)
    normals = normals[length > 1e-9] / length[length > 1e-9][:, None]
    normals = normals[np.abs(normals[:, 2]) > 0.9]
    return min(
        float(np.ptp(part @ corners.T, axis=1).min()) for part in np.array_split(normals, 1 + len(normals) // 5000)
    )


def _flatness() -> Iterator[Detailed]:
    for n in (9, 36):
        points = _face(n)
        gap = abs(flatness.minimum_zone(points).width - _by_linear_program(points))
        ratio, ours, theirs = _pair(lambda p=points: flatness.minimum_zone(p), lambda p=points: _by_linear_program(p))
        detail = f"{ours:.2f} ms against {theirs:.2f} ms, widths differ by {gap:.1e} mm"
        yield (f"flatness, n = {n}, to linprog", ratio, 0.5, detail)
    points = _face(20_000)
    others = (("linprog", _by_linear_program, 0.03), ("the hull method", _by_hull, 0.2))
    for name, method, limit in others:
        gap = abs(flatness.minimum_zone(points).width - method(points))
        ratio, ours, theirs = _pair(lambda: flatness.minimum_zone(points), lambda method=method: method(points))
        detail = f"{ours:.2f} ms against {theirs:.1f} ms, widths differ by {gap:.1e} mm"
        yield (f"flatness, n = 20000, to {name}", ratio, limit, detail)


def _circles() -> Iterator[Detailed]:
    goals: dict[str, Callable[[np.ndarray], float]] = {
        "least_squares": lambda rho: float(np.var(rho)),
        "minimum_zone": lambda rho: float(np.ptp(rho)),
        "minimum_circumscribed": lambda rho: float(np.max(rho)),
        "maximum_inscribed": lambda rho: -float(np.min(rho)),
    }
    for n, limit in ((36, 0.6), (3600, 0.2)):
        rng, turn = np.random.default_rng(n), np.arange(n) * 2 * np.pi / n
        r = 25.0 + 0.01 * np.cos(2 * turn) + rng.normal(0, 0.002, n)
        points = np.column_stack([r * np.cos(turn) + 0.3, r * np.sin(turn) - 0.2])
        x, y = points.T.copy()
        for name, goal in goals.items():

            def deviation(c: np.ndarray, goal: Callable[[np.ndarray], float] = goal, x: Any = x, y: Any = y) -> float:
                return goal(np.hypot(x - c[0], y - c[1]))

            def search(deviation: Any = deviation, points: Any = points) -> Any:
                return minimize(deviation, points.mean(axis=0), method="Nelder-Mead", options=TIGHT)

            fit = getattr(roundness, name)
            circle, found = fit(points), search()
            worse = deviation(np.array([circle.x, circle.y])) - found.fun
            ratio, ours, theirs = _pair(lambda fit=fit, points=points: fit(points), search)
            detail = f"{ours:.2f} ms against {theirs:.2f} ms; optimum, ours less theirs {worse:+.1e}"
            yield (f"circle {name}, n = {n}, to Nelder-Mead", ratio, limit, detail)


def _clearances() -> Detailed:
    from uncertainties import ufloat

    rng, n = np.random.default_rng(1), 1000
    guides, stems = rng.normal(5.01, 0.01, n), rng.normal(4.97, 0.01, n)

    def ours() -> np.ndarray:
        guide = many(guides, 0.001, {"bore gauge": 0.002, "room": 0.0005})
        return guide.plus(many(stems, 0.0012, {"micrometer": 0.0015, "room": 0.0004}), -1.0).us

    def theirs() -> list[float]:
        bore, mic, room = ufloat(0, 0.002), ufloat(0, 0.0015), ufloat(0, 1.0)
        gaps = [
            (ufloat(g, 0.001) + bore + 0.0005 * room) - (ufloat(s, 0.0012) + mic + 0.0004 * room)
            for g, s in zip(guides, stems, strict=True)
        ]
        return [gap.std_dev for gap in gaps]

    apart = float(np.max(np.abs(ours() / np.array(theirs()) - 1.0)))
    ratio, fast, slow = _pair(ours, theirs)
    detail = f"{fast:.3f} ms against {slow:.1f} ms, relative difference {apart:.1e}"
    return ("1000 correlated clearances, to uncertainties", ratio, 0.01, detail)


def _law() -> Iterator[Detailed]:
    guide = [Known(value=5.010 + 0.001 * k, parts=(("bore gauge", 0.001), (f"g{k}", 0.001))) for k in range(6)]
    stem = [Known(value=4.970 - 0.001 * k, parts=(("micrometer", 0.001), (f"s{k}", 0.0008))) for k in range(6)]
    ends = (0.025, 0.5, 0.975)

    def ours() -> tuple[float, ...]:
        law = law_of_clearance(guide, stem)
        return (law.mean, law.u, *(law.quantile(p) for p in ends))

    def drawn(seed: int, n: int = 1_000_000) -> tuple[float, ...]:
        rng = np.random.default_rng(seed)
        top, low = np.full(n, -math.inf), np.full(n, math.inf)
        for each in guide:
            np.maximum(top, rng.normal(each.value, 0.001, n), out=top)
        for each in stem:
            np.minimum(low, rng.normal(each.value, 0.0008, n), out=low)
        gap = top - low + rng.normal(0, 0.001, n) + rng.normal(0, 0.001, n)
        return (float(gap.mean()), float(gap.std()), *(float(q) for q in np.quantile(gap, ends)))

    truth = np.mean([drawn(seed) for seed in range(10, 26)], axis=0)
    noise = np.max(np.abs(np.array(drawn(1)) - truth))
    off = float(np.max(np.abs(np.array(ours()) - truth)))
    ratio, fast, slow = _pair(ours, lambda: drawn(1))
    detail = f"{fast:.2f} ms against {slow:.0f} ms; off by {1e6 * off:.2f} nm against {1e6 * noise:.2f} nm"
    yield ("min/max clearance, its law, to 10^6 draws", ratio, 0.02, detail)
    yield ("min/max clearance, distance from 16·10^6 draws", off / noise, 1.0, "ours over that of 10^6 draws")


def _drawing() -> Iterator[Detailed]:
    inputs, n = [Input(value=0.0, width=1.0)] * 4, 1_000_000

    def model(a: np.ndarray, b: np.ndarray, c: np.ndarray, d: np.ndarray) -> np.ndarray:
        return a + b + c - d

    def ours() -> Any:
        return monte_carlo(model, inputs, seed=1, trials=n)

    def watched() -> Any:
        return monte_carlo(model, inputs, seed=1, digits=4)

    def normals() -> Any:
        return np.random.default_rng(1).standard_normal((4, n))

    for name, work in (("fixed number", ours), ("stopping by itself", watched)):
        ratio, took, drawing = _pair(work, normals, least=15)
        detail = f"{took:.0f} ms against {drawing:.0f} ms"
        yield (f"Monte Carlo, {name}, to drawing its normals", ratio, 1.5, detail)
    tracemalloc.start()
    watched()
    peak = tracemalloc.get_traced_memory()[1] / 1e6
    tracemalloc.stop()
    yield ("Monte Carlo, more memory in MB", peak, 25.0, "10^6 trials of four inputs, traced peak")


if __name__ == "__main__":
    for task, ratio, limit, detail in detailed():
        print(f"{task:56s} {ratio:8.4f}  limit {limit:<6}  {detail}")
