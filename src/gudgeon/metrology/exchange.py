"""Chebyshev fits by exchange: the zone rests on three or four points, so only those need solving; the rest is looked at."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from gudgeon.problem import refuse

if TYPE_CHECKING:
    from gudgeon.metrology.given import Floats

MOST_STEPS = 500


@dataclass(frozen=True, slots=True, eq=False)
class Reference:
    """The points that carry a fit: rows, signed weights (+ above, - below), the fitted coefficients and the half width of the band."""

    rows: tuple[int, ...]
    weights: tuple[float, ...]
    coefficients: Floats
    half: float


def smallest_band(columns: Floats, heights: Floats, start: tuple[int, ...] | Reference, slack: float) -> Reference:
    """Coefficients p that make max |heights - columns @ p| as small as it can be.

    Parameters
    ----------
    columns : (n, k) array
        The first column is 1 throughout.
    heights : (n,) array
    start : k + 1 rows of which k are independent, or the reference of a fit to nearly the same columns
    slack : float
        Residuals that exceed the band by no more than this count as inside: the rounding of the data.

    Notes
    -----
    k + 1 points with weights λ ≥ 0, Σ λᵢsᵢ·columnᵢ = 0 bound every band from below; while a point sticks out of the band they
    define, it replaces the one that keeps all weights ≥ 0, and the bound rises. Ends with bound = band, which proves it.
    Source: single exchange method, E. Stiefel, Numer. Math. 1 (1959) 1; a dual simplex method (from memory).

    Examples
    --------
    >>> import numpy as np
    >>> x = np.arange(5.0)
    >>> found = smallest_band(np.stack([np.ones(5), x], axis=1), np.array([0.0, 5, 2, 6, 0]), (0, 1, 2), 1e-12)
    >>> round(2 * found.half, 12), sorted(found.rows)
    (6.0, [0, 3, 4])
    """
    import numpy as np

    if isinstance(start, Reference):
        kept = np.where(np.array(start.weights) >= 0.0, 1.0, -1.0)
        return _exchange(columns, heights, start.rows, kept, slack, two_sided=True)
    relation = np.linalg.svd(columns[list(start)].T)[2][-1]
    sides = np.where(relation >= 0.0, 1.0, -1.0)
    return _exchange(columns, heights, start, sides, slack, two_sided=True)


def lowest_ceiling(columns: Floats, heights: Floats, start: tuple[int, ...], slack: float) -> Reference:
    """Coefficients p that make max (heights - columns @ p) as small as it can be; `half` is that maximum.

    Notes
    -----
    As `smallest_band`, with one side: `start` is k + 1 rows whose columns surround zero. Source: the same.

    Examples
    --------
    >>> import numpy as np
    >>> columns, heights = np.array([[-1.0], [1.0], [2.0]]), np.array([1.0, 3.0, 5.0])
    >>> round(lowest_ceiling(columns, heights, (0, 1), 1e-12).half, 9)
    2.333333333
    """
    import numpy as np

    return _exchange(columns, heights, start, np.ones(len(start)), slack, two_sided=False)


def _exchange(
    columns: Floats, heights: Floats, start: tuple[int, ...], sides: Floats, slack: float, *, two_sided: bool
) -> Reference:
    import numpy as np

    rows = list(start)
    basis = np.empty((len(rows), len(rows)))
    basis[:, :-1], basis[:, -1] = columns[rows], sides
    entering = np.empty(len(rows))
    for step in range(MOST_STEPS):
        inverse = _inverse(basis)
        if two_sided and step == 0 and (inverse[-1] * basis[:, -1]).min() < -1e-12:
            basis[:, -1] = np.where(inverse[-1] >= 0.0, 1.0, -1.0)
            inverse = _inverse(basis)
        solved = inverse @ heights[rows]
        if two_sided and solved[-1] < 0.0:
            basis[:, -1] *= -1.0
            inverse[-1] *= -1.0
            solved[-1] = -solved[-1]
        residuals = heights - columns @ solved[:-1]
        worst, side = int(residuals.argmax()), 1.0
        if two_sided and -residuals.min() > residuals[worst]:
            worst, side = int(residuals.argmin()), -1.0
        if side * residuals[worst] <= solved[-1] + slack or worst in rows:
            return Reference(tuple(rows), tuple(inverse[-1].tolist()), solved[:-1], float(solved[-1]))
        entering[:-1], entering[-1] = columns[worst], side
        signs = basis[:, -1]
        out = _leaves((inverse[-1] * signs).tolist(), (side * signs * (entering @ inverse)).tolist(), step, rows)
        rows[out] = worst
        basis[out] = entering
    raise refuse("points", "The zone did not settle in {n} exchanges.", "Remove repeated points.", n=MOST_STEPS)


def _inverse(basis: Floats) -> Floats:
    import numpy as np

    try:
        inverse: Floats = np.linalg.inv(basis).astype(np.float64, copy=False)
        return inverse
    except np.linalg.LinAlgError:
        raise refuse("points", "The points leave the fit open.", "Spread them over the whole surface.") from None


def _leaves(weights: list[float], rates: list[float], step: int, rows: list[int]) -> int:
    """The reference point whose weight reaches zero first; later on ties go to the lowest row, lest it goes round in circles."""
    best, out = (float("inf"), 0.0), -1
    for k, rate in enumerate(rates):
        if rate > 1e-13:
            rank = (max(weights[k], 0.0) / rate, float(rows[k]) if step > 30 else -rate)
            if rank < best:
                best, out = rank, k
    return out
