"""Out-of-round as the four reference circles see it: a two-point gauge cannot see three lobes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

from gudgeon.metrology import rings
from gudgeon.metrology.given import table
from gudgeon.metrology.inscribed import largest_inside
from gudgeon.problem import refuse

if TYPE_CHECKING:
    from numpy.typing import ArrayLike

    from gudgeon.metrology.given import Floats

EPSILON = 2.220446049250313e-16
ROUGH = 0.02
"""Out-of-round as a share of the radius from which the algebraic centre is too far off to start from."""

Disc = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A reference circle and the deviations from it, in the unit of the points.

    `width` is the total roundness (RONt), `peak` and `valley` its parts outside and inside the circle, `rms` the root mean
    square deviation, `contacts` the rows that carry the circle.
    """

    x: float
    y: float
    radius: float
    width: float
    peak: float
    valley: float
    rms: float
    contacts: tuple[int, ...] = ()


def least_squares(points: ArrayLike) -> Circle:
    """Least-squares reference circle (LSC): the sum of squared radial deviations is smallest.

    Parameters
    ----------
    points : rows of x, y
        Same unit; four rows or more, not on one line.

    Notes
    -----
    The geometric fit, not the algebraic one that many libraries offer. Source: ISO 12181-1 (definition, from memory); Gander,
    Golub & Strebel, BIT 34 (1994) 558.

    Examples
    --------
    >>> circle = least_squares([(1, 7), (2, 6), (5, 8), (7, 7), (9, 5), (3, 7)])
    >>> round(circle.x, 4), round(circle.y, 4), round(circle.radius, 4)
    (4.7398, 2.9835, 4.7142)
    """
    xy, middle, scale = _prepared(points)
    at = rings.least_squares(_radii(xy), _algebraic_centre(xy), scale)
    return _circle(xy, middle, at, float(_distances(xy, at).mean()))


def minimum_zone(points: ArrayLike) -> Circle:
    """Minimum-zone reference circles (MZC): two concentric circles as close together as can be; `radius` lies midway.

    Notes
    -----
    Exact to rounding at the optimum reached from the least-squares centre: two points outside and two inside in turn (2-2) or 3-1.
    On a short arc there may be others. Source: ISO 12181-1 (definition, from memory); Shakarji & Clement, J. Res. NIST 109 (2004).

    Examples
    --------
    >>> lobes = [(25 + 0.01 * math.cos(3 * t)) for t in (math.radians(10 * n) for n in range(36))]
    >>> ring = [(r * math.cos(math.radians(10 * n)), r * math.sin(math.radians(10 * n))) for n, r in enumerate(lobes)]
    >>> round(minimum_zone(ring).width, 9)
    0.02
    """
    xy, middle, scale = _prepared(points)
    start = _algebraic_centre(xy)
    rho = _distances(xy, start)
    if rho.max() - rho.min() > ROUGH * rho.mean():
        start = rings.least_squares(_radii(xy), start, scale)
    at, found = rings.narrowest(_radii(xy), start, scale, _opposed(xy, start))
    rho = _distances(xy, at)
    return _circle(xy, middle, at, 0.5 * float(rho.max() + rho.min()), found.rows)


def minimum_circumscribed(points: ArrayLike) -> Circle:
    """Minimum circumscribed circle (MCC): the smallest that holds all points, as the ring gauge that still goes over a shaft.

    Notes
    -----
    The farthest point joins the two or three that carry the circle until none is outside; exact. Source: ISO 12181-1 (definition,
    from memory); any smallest circle stands on two or three points (J. Elzinga & D. Hearn, Transp. Sci. 6 (1972) 379, from memory).

    Examples
    --------
    >>> square = [(0, 0), (1, 0), (1, 1), (0, 1)]
    >>> round(minimum_circumscribed(square).radius, 9)
    0.707106781
    """
    import numpy as np

    xy, middle, scale = _prepared(points)
    first = int(_distances(xy, np.zeros(2)).argmax())
    rows: tuple[int, ...] = (first, int(_distances(xy, xy[:, first]).argmax()))
    disc = _through([(float(xy[0, row]), float(xy[1, row])) for row in rows])
    for _ in range(1000):
        rho = _distances(xy, disc[:2])
        far = int(rho.argmax())
        if rho[far] <= disc[2] + 8.0 * EPSILON * scale or far in rows:
            break
        rows, disc = _smallest_of((*rows, far), xy)
    return _circle(xy, middle, disc[:2], disc[2], rows)


def maximum_inscribed(points: ArrayLike) -> Circle:
    """Maximum inscribed circle (MIC): the largest inside all points, as the plug gauge that still goes into a bore.

    Notes
    -----
    Exact, see `inscribed`. Its centre is badly determined on an oval bore: never rest a decision on it there.
    Source: ISO 12181-1 (definition, from memory).

    Examples
    --------
    >>> square = [(0, 0), (1, 0), (1, 1), (0, 1), (0.5, -0.1), (1.1, 0.5), (0.5, 1.1), (-0.1, 0.5)]
    >>> round(maximum_inscribed(square).radius, 9)
    0.6
    """
    xy, middle, scale = _prepared(points)
    at, rows = largest_inside(xy, _algebraic_centre(xy), 8.0 * EPSILON * scale)
    return _circle(xy, middle, at, float(_distances(xy, at).min()), rows)


def _prepared(points: ArrayLike) -> tuple[Floats, Floats, float]:
    """Rows x and y about their mean, the mean, and the size of the numbers that were given (which sets the rounding)."""
    import numpy as np

    given = table("points", points, columns=2, least=4).T.copy()
    scale = float(max(given.max(), -given.min()))
    middle = given.mean(axis=1)
    given -= middle[:, None]
    xx, xy, yy = float(given[0] @ given[0]), float(given[0] @ given[1]), float(given[1] @ given[1])
    if xx * yy - xy * xy <= 1e-14 * (xx + yy) ** 2:
        raise refuse("points", "The points lie on one line.", "Take points round the whole circle.")
    return np.ascontiguousarray(given), middle, scale


def _algebraic_centre(xy: Floats) -> Floats:
    """Centre of the algebraic fit (Kåsa): not the least-squares circle, only a place to start from."""

    square = xy[0] * xy[0] + xy[1] * xy[1]
    return rings.solved(2.0 * (xy @ xy.T), xy @ (square - square.mean()))


def _distances(xy: Floats, at: Floats | tuple[float, float]) -> Floats:
    """Distances from a centre; the root of squares is four times as fast as hypot and as good for numbers of this size."""
    import numpy as np

    x, y = xy[0] - at[0], xy[1] - at[1]
    rho: Floats = np.sqrt(x * x + y * y)
    return rho


def _radii(xy: Floats) -> rings.Radii:
    import numpy as np

    def radii(at: Floats) -> tuple[Floats, Floats]:
        rho = np.maximum(_distances(xy, at), 1e-300)
        columns = np.ones((3, len(rho)))
        columns[1] = (xy[0] - at[0]) / rho
        columns[2] = (xy[1] - at[1]) / rho
        return rho, columns.T

    return radii


def _opposed(xy: Floats, at: Floats) -> tuple[int, ...] | None:
    """A likely start: the highest and the lowest point, and the extreme on the other side of each."""
    import numpy as np

    rho, away = _distances(xy, at), xy - at[:, None]
    high, low = int(rho.argmax()), int(rho.argmin())
    beyond = int(np.where(away[:, high] @ away < 0.0, rho, -np.inf).argmax())
    within = int(np.where(away[:, low] @ away < 0.0, rho, np.inf).argmin())
    rows = (high, beyond, low, within)
    first = xy[:, beyond] - xy[:, high]
    others = xy[:, (low, within)] - xy[:, high, None]
    apart = np.abs(first[0] * others[1] - first[1] * others[0]).max()
    return rows if len(set(rows)) == 4 and apart > 1e-3 * float(rho[high]) ** 2 else None


def _circle(
    xy: Floats, middle: Floats, at: Floats | tuple[float, float], radius: float, rows: tuple[int, ...] = ()
) -> Circle:
    deviations = _distances(xy, at) - radius
    high, low = float(deviations.max()), float(deviations.min())
    return Circle(
        x=float(middle[0] + at[0]),
        y=float(middle[1] + at[1]),
        radius=radius,
        width=high - low,
        peak=max(high, 0.0),
        valley=max(-low, 0.0),
        rms=math.sqrt(float(deviations @ deviations) / len(deviations)),
        contacts=tuple(sorted(rows)),
    )


def _smallest_of(rows: tuple[int, ...], xy: Floats) -> tuple[tuple[int, ...], Disc]:
    """The smallest disc that holds up to four points and is carried by the last of them."""
    places = [(float(xy[0, row]), float(xy[1, row])) for row in rows]
    best: tuple[tuple[int, ...], Disc] | None = None
    for size in (1, 2):
        for others in combinations(range(len(rows) - 1), size):
            disc = _through([places[k] for k in (*others, len(rows) - 1)])
            room = disc[2] * (1.0 + 1e-13)
            if (best is None or disc[2] < best[1][2]) and all(math.dist(p, disc[:2]) <= room for p in places):
                best = tuple(rows[k] for k in (*others, len(rows) - 1)), disc
    if best is None:
        raise refuse("points", "No circle holds the points.", "Remove points that are the same.")
    return best


def _through(places: list[tuple[float, float]]) -> Disc:
    """The circle on two points as a diameter, or through three; infinite for three on one line."""
    (ax, ay), (bx, by), *rest = places
    if not rest:
        return (0.5 * (ax + bx), 0.5 * (ay + by), 0.5 * math.hypot(bx - ax, by - ay))
    (cx, cy) = rest[0]
    px, py, qx, qy = bx - ax, by - ay, cx - ax, cy - ay
    twice = 2.0 * (px * qy - py * qx)
    if twice == 0.0:
        return (ax, ay, math.inf)
    p, q = px * px + py * py, qx * qx + qy * qy
    x, y = (qy * p - py * q) / twice, (px * q - qx * p) / twice
    return (ax + x, ay + y, math.hypot(x, y))
