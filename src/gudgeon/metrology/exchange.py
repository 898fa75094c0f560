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


def smallest_band(columns: Floats, heights: Floats, start: tuple[int, ...], slack: float) -> Reference:
    """Coefficients p that make max |heights - columns @ p| as small as it can be.

    Parameters
    ----------
    columns : (n, k) array
        The first column is 1 throughout.
    heights : (n,) array
    start : k + 1 rows of which k are independent
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

    rows = list(start)
    sides = _radon_sides(columns[rows])
    basis = np.empty((len(rows), len(rows)))
    basis[:, :-1], basis[:, -1] = columns[rows], sides
    for step in range(MOST_STEPS):
        inverse = np.linalg.inv(basis)
        solved = inverse @ heights[rows]
        if solved[-1] < 0.0:
            basis[:, -1] *= -1.0
            inverse[-1] *= -1.0
            solved[-1] = -solved[-1]
        residuals = heights - columns @ solved[:-1]
        high, low = int(residuals.argmax()), int(residuals.argmin())
        worst, side = (high, 1.0) if residuals[high] >= -residuals[low] else (low, -1.0)
        if side * residuals[worst] <= solved[-1] + slack or worst in rows:
            return Reference(tuple(rows), tuple(inverse[-1].tolist()), solved[:-1], float(solved[-1]))
        entering = np.append(columns[worst], side)
        out = _leaves(inverse[-1] * basis[:, -1], side * (entering @ inverse) * basis[:, -1], step, rows)
        rows[out] = worst
        basis[out] = entering
    raise refuse("points", "The minimum zone did not settle in {n} exchanges.", "Remove repeated points.", n=MOST_STEPS)


def _leaves(weights: Floats, rates: Floats, step: int, rows: list[int]) -> int:
    """The reference point whose weight reaches zero first; ties go to the lowest row, which cannot go round in circles for long."""
    ratios = [
        (max(float(weight), 0.0) / float(rate), row if step > 30 else -float(rate), k)
        for k, (weight, rate, row) in enumerate(zip(weights, rates, rows, strict=True))
        if rate > 1e-13
    ]
    return min(ratios)[2]


def _radon_sides(chosen: Floats) -> Floats:
    """Sides from the one linear relation between k + 1 points (Radon's partition)."""
    import numpy as np

    relation = np.linalg.svd(chosen.T)[2][-1]
    return np.where(relation >= 0.0, 1.0, -1.0)
