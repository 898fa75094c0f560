"""The largest circle inside a ring of points, with a proof that there is no larger one, or a search of all of them.

From the starting centre a one-sided exchange climbs: distances are convex in the centre, so each full step gains at least what the
linear model promised. At the top, three contacts surround the centre with firmness κ, the least distance of the centre of the unit
circle from the sides of their triangle. For any other centre at distance δ the smallest of the three distances is at most
R - κδ + δ²/(2R), so a larger circle lies beyond 2κR. There the profile has to leave room for it: with neighbouring points at most
2φ apart, none is left between ρ·cos φ - √(R² - ρ²sin²φ) and the sum of the two. Source: ours, from p = √(ρ² - 2ρu·δ + δ²)
≤ ρ - u·δ + δ²/(2ρ); the search of Voronoi vertices is textbook geometry.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from gudgeon.metrology.exchange import lowest_ceiling
from gudgeon.problem import refuse

if TYPE_CHECKING:
    from gudgeon.metrology.given import Floats

Centre = tuple["Floats", tuple[int, ...]]


def largest_inside(xy: Floats, start: Floats, slack: float) -> Centre:
    """Centre and contacts of the largest circle that holds no point of the rows x, y, its centre within them.

    Examples
    --------
    >>> import numpy as np
    >>> corners = np.array([[1.0, 0.0, -1.0, 0.0], [0.0, 1.0, 0.0, -1.2]])
    >>> at, rows = largest_inside(corners, np.array([0.1, 0.1]), 1e-12)
    >>> [round(float(c), 6) for c in at], round(float(np.hypot(*(corners - at[:, None])).min()), 6)
    ([0.0, -0.183333], 1.016667)
    """
    if not (xy - start[:, None]).any(axis=0).all():
        raise refuse("points", "A point lies at the centre.", "Remove points that are not on the surface.")
    at, rows, radius = _climbed(xy, start, slack)
    if _is_the_largest(xy - at[:, None], rows):
        return at, rows
    other = _best_vertex(xy)
    if other is None:
        return at, rows
    elsewhere, others, wider = _climbed(xy, other, slack)
    return (elsewhere, others) if wider > radius else (at, rows)


def _climbed(xy: Floats, start: Floats, slack: float) -> tuple[Floats, tuple[int, ...], float]:
    import numpy as np

    at, rows = start, _surrounding(xy - start[:, None])
    for _ in range(100):
        away = xy - at[:, None]
        rho = np.sqrt(away[0] * away[0] + away[1] * away[1])
        found = lowest_ceiling((away / -rho).T, -rho, rows, slack)
        rows = found.rows
        radius = float(rho.min())
        if -found.half - radius <= slack:
            break
        at = at + found.coefficients
    return at, rows, radius


def _surrounding(away: Floats) -> tuple[int, ...]:
    """The nearest point and one on each side of the direction opposite to it."""
    import numpy as np

    square = away[0] * away[0] + away[1] * away[1]
    nearest = int(square.argmin())
    x, y = away[:, nearest] / np.sqrt(square[nearest])
    rho = np.sqrt(square)
    along, across = (x * away[0] + y * away[1]) / rho, (x * away[1] - y * away[0]) / rho
    left, right = int(np.where(across >= 0.0, along, 2.0).argmin()), int(np.where(across < 0.0, along, 2.0).argmin())
    turn = along[left] * across[right] - across[left] * along[right]
    if across[left] < 0.0 or across[right] >= 0.0 or left == nearest or turn < 0.0:
        raise refuse("points", "The points do not go round the centre.", "Take points all the way round.")
    return nearest, left, right


def _is_the_largest(away: Floats, rows: tuple[int, ...]) -> bool:
    import numpy as np

    rho = np.sqrt(away[0] * away[0] + away[1] * away[1])
    radius, widest = float(rho.min()), float(rho.max())
    corners = away[:, rows] / rho[list(rows)]
    sides = np.roll(corners, -1, axis=1) - corners
    lengths = np.sqrt(sides[0] * sides[0] + sides[1] * sides[1])
    if not lengths.all():
        return False
    firmness = float((np.abs(corners[0] * sides[1] - corners[1] * sides[0]) / lengths).min())
    angles = np.sort(np.arctan2(away[1], away[0]))
    gap = max(float(np.diff(angles).max()), float(angles[0] - angles[-1]) + 2.0 * math.pi)
    shadow = math.cos(0.5 * gap)
    room = radius**2 - widest**2 * (1.0 - shadow**2)
    if gap >= math.pi or room <= 0.0:
        return False
    near, far = widest * shadow - math.sqrt(room), widest * shadow + math.sqrt(room)
    return 2.0 * firmness * radius > near * (1.0 + 1e-9) + 1e-300 and widest < min(far, 2.0 * radius * shadow)


def _best_vertex(xy: Floats) -> Floats | None:
    """The Voronoi vertex within the convex hull that is farthest from every point."""
    import numpy as np
    from scipy.spatial import ConvexHull, Voronoi, cKDTree

    vertices = Voronoi(xy.T).vertices
    sides = ConvexHull(xy.T).equations
    inside = vertices[np.all(vertices @ sides[:, :2].T + sides[:, 2] < 0.0, axis=1)]
    if not len(inside):
        return None
    best: Floats = inside[int(cKDTree(xy.T).query(inside)[0].argmax())]
    return best
