"""Zone between two parallel lines or planes, true to the perpendicular, whichever way the points are tilted."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from gudgeon.metrology.exchange import Reference, smallest_band
from gudgeon.problem import refuse

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from gudgeon.metrology.given import Floats

    Rows = NDArray[np.intp]

FEW = 64
EPSILON = 2.220446049250313e-16


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A form deviation and what it rests on, in the unit of the points.

    `normal` is the unit direction across the zone, `lowest` and `highest` the bounds of normal·point, `rms` the root mean square
    distance from the middle line or plane (least squares only), `contacts` the rows that touch (minimum zone only).
    """

    width: float
    normal: tuple[float, ...]
    lowest: float
    highest: float
    contacts: tuple[tuple[int, Literal["high", "low"]], ...] = ()
    rms: float | None = None


def least_squares_zone(points: Floats) -> Zone:
    """Width across the least-squares line or plane (orthogonal distances); source: ISO 12780-1 and 12781-1, from memory.

    Examples
    --------
    >>> import numpy as np
    >>> round(least_squares_zone(np.array([[0.0, 0.0], [1.0, 0.3], [2.0, 0.0]])).width, 9)
    0.3
    """
    import numpy as np

    centre, rest = _centred(points)
    normal = _directions(rest)[0]
    along = normal @ rest
    middle = float(centre @ normal)
    low, high = float(along.min()), float(along.max())
    rms = float(np.sqrt(np.mean(along * along)))
    return Zone(width=high - low, normal=tuple(normal.tolist()), lowest=middle + low, highest=middle + high, rms=rms)


def minimum_zone(points: Floats) -> Zone:
    """The narrowest zone that holds all points.

    Notes
    -----
    Level on the least-squares direction, fit the smallest band to the points that stick out most, turn to the fitted direction,
    take in what still sticks out, until neither changes. The band stands on d + 1 points and is proven by their weights.
    Source: exchange method, see `exchange.smallest_band`.

    Examples
    --------
    >>> import numpy as np
    >>> round(minimum_zone(np.array([[0.0, 0.0], [1.0, 0.3], [2.0, 0.0]])).width, 9)
    0.3
    """
    import numpy as np

    centre, rest = _centred(points)
    directions = _directions(rest)
    normal = directions[0]
    along = normal @ rest
    slack = 8.0 * EPSILON * float(np.abs(points[0]).max() + rest.max() - rest.min())
    start: tuple[int, ...] | Reference
    chosen, start = _sticking_out(along, tuple(_spread_rows(directions, rest, along)))
    for _ in range(60):
        across = np.linalg.svd(normal[None])[2][1:]
        columns = np.ones((len(chosen), len(centre)))
        columns[:, 1:] = (across @ rest[:, chosen]).T
        start = found = smallest_band(columns, along[chosen], start, slack)
        slopes = found.coefficients[1:]
        turned = normal - slopes @ across
        normal = turned / math.sqrt(float(turned @ turned))
        along = normal @ rest
        outside = _outside(along, along[chosen], slack)
        if not outside.size and _is_level(found):
            break
        chosen = np.concatenate([chosen, outside])
    middle, low, high = float(centre @ normal), float(along.min()), float(along.max())
    return Zone(
        width=high - low,
        normal=tuple(normal.tolist()),
        lowest=middle + low,
        highest=middle + high,
        contacts=_contacts(found, chosen),
    )


def _contacts(found: Reference, chosen: Rows) -> tuple[tuple[int, Literal["high", "low"]], ...]:
    touching = [(int(chosen[row]), weight) for row, weight in zip(found.rows, found.weights, strict=True)]
    return tuple(sorted((row, "high" if weight > 0.0 else "low") for row, weight in touching if abs(weight) > 1e-9))


def _centred(points: Floats) -> tuple[Floats, Floats]:
    """Centre, and the rest as contiguous rows x, y, z: five times faster to look through."""
    import numpy as np

    rest = points.T.copy()
    centre = rest.mean(axis=1)
    rest -= centre[:, None]
    return centre, np.ascontiguousarray(rest)


def _directions(rest: Floats) -> Floats:
    """Unit directions as rows, least spread first and pointing up; refuses points that leave the first one open."""
    import numpy as np

    scatter = rest @ rest.T
    sizes, directions = np.linalg.eigh(scatter)
    flat = np.linalg.eigvalsh(scatter[:-1, :-1])
    if sizes[-1] <= 0.0 or flat[0] <= 1e-14 * flat[-1] or flat[-1] <= 1e-14 * sizes[-1]:
        what = "lie on one line" if len(rest) == 3 else "lie at one place"
        raise refuse("points", "The points {what} when seen from above.", "Spread them over the face.", what=what)
    if directions[-1, 0] < 0.0:
        directions[:, 0] *= -1.0
    turned: Floats = directions.T
    return turned


def _spread_rows(directions: Floats, rest: Floats, along: Floats) -> list[int]:
    """d + 1 rows to start from: the ends of the longest direction, then the farthest from the line between them, then any."""
    import numpy as np

    longest = directions[-1] @ rest
    rows = [int(longest.argmax()), int(longest.argmin())]
    if len(rest) == 3:
        (ex, ey, ez), (nx, ny, nz) = (rest[:, rows[1]] - rest[:, rows[0]]).tolist(), directions[0].tolist()
        beside = np.array([ny * ez - nz * ey, nz * ex - nx * ez, nx * ey - ny * ex]) @ rest
        rows.append(int(np.abs(beside - beside[rows[0]]).argmax()))
    candidates = [int(along.argmax()), int(along.argmin()), *range(len(rest) + 1)]
    rows.append(next(n for n in candidates if n not in rows))
    return rows


def _sticking_out(along: Floats, rows: tuple[int, ...]) -> tuple[Rows, tuple[int, ...]]:
    """All rows of a small set; of a large one the starting rows and those near the extremes. And where the start now stands."""
    import numpy as np

    if len(along) <= FEW:
        return np.arange(len(along)), rows
    size = np.abs(along)
    others = np.flatnonzero(size > 0.8 * size.max())
    if others.size > 4 * FEW:
        others = others[np.argpartition(size[others], -FEW)[-FEW:]]
    return np.concatenate([rows, others]), tuple(range(len(rows)))


def _is_level(found: Reference) -> bool:
    """Whether turning to the fitted direction leaves the contacts as they are: a small turn, and no contact that hardly counts."""
    slopes = found.coefficients[1:]
    turn = float(slopes @ slopes)
    return turn < 1e-16 or (turn < 1e-7 and min(abs(weight) for weight in found.weights) > 1e-3)


def _outside(along: Floats, held: Floats, slack: float) -> Rows:
    """Rows beyond the band of the chosen ones; of very many, only the two worst."""
    import numpy as np

    outside = np.flatnonzero((along > held.max() + slack) | (along < held.min() - slack))
    if outside.size > FEW:
        outside = np.unique([int(along.argmax()), int(along.argmin())])
    return outside
