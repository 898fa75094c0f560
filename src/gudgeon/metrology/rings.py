"""What circles and cylinders have in common: distances to a centre or axis that are nearly linear in its place."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from gudgeon.metrology.exchange import Reference, smallest_band
from gudgeon.problem import refuse

if TYPE_CHECKING:
    from gudgeon.metrology.given import Floats

Radii = Callable[["Floats"], tuple["Floats", "Floats"]]
"""Parameters → distances ρ and columns (1, -∂ρ/∂parameter…)."""

EPSILON = 2.220446049250313e-16


def least_squares(radii: Radii, start: Floats, scale: float) -> Floats:
    """Parameters with the smallest Σ(ρ - mean ρ)², by Gauss–Newton steps that are halved while they do not help.

    Very small steps are taken unseen: the sum of squares is too rounded to judge them.

    Source: geometric fit as in Gander, Golub & Strebel, BIT 34 (1994) 558, with the radius eliminated.

    Examples
    --------
    >>> import numpy as np
    >>> at = least_squares(_about_four_points, np.array([0.3, 0.2]), 1.0)
    >>> bool(np.abs(at).max() < 1e-12)
    True
    """
    import numpy as np

    at, moved = start, np.inf
    rho, columns = radii(at)
    cost = _spread(rho)
    for _ in range(200):
        step = solved(columns.T @ columns, columns.T @ rho)[1:]
        share, before, small = 1.0, moved, float(np.abs(step).max()) <= 1e-6 * scale
        while True:
            after = at + share * step
            rho_after, columns_after = radii(after)
            cost_after = _spread(rho_after)
            if cost_after <= cost or share < 1e-6 or small:
                break
            share *= 0.5
        if share < 1e-6:
            break
        moved = share * float(np.abs(step).max())
        at, rho, columns, cost = after, rho_after, columns_after, cost_after
        if moved <= 4.0 * EPSILON * scale or (moved <= 1e-11 * scale and moved > 0.5 * before):
            break
    return at


def solved(square: Floats, right: Floats) -> Floats:
    """Solution of normal equations, or a refusal of points that leave it open. Source: textbook linear algebra.

    Examples
    --------
    >>> import numpy as np
    >>> solved(np.array([[2.0, 0.0], [0.0, 4.0]]), np.array([2.0, 2.0])).tolist()
    [1.0, 0.5]
    """
    import numpy as np

    try:
        found: Floats = np.linalg.solve(square, right).astype(np.float64, copy=False)
    except np.linalg.LinAlgError:
        raise refuse("points", "The points leave the fit open.", "Spread them over the whole surface.") from None
    return found


def narrowest(
    radii: Radii, start: Floats, scale: float, rows: tuple[int, ...] | None = None
) -> tuple[Floats, Reference]:
    """Parameters with the smallest max ρ - min ρ, and the points that carry the ring.

    A linear Chebyshev fit, a step, and again: near the solution each round doubles the digits, because the solution stands on as
    many points as it has unknowns. Source: sequential linear programming as in Shakarji & Clement, J. Res. NIST 109 (2004) 119.

    Examples
    --------
    >>> import numpy as np
    >>> at, found = narrowest(_about_four_points, np.array([0.3, 0.2]), 1.0)
    >>> bool(np.abs(at).max() < 1e-12), found.half < 1e-12
    (True, True)
    """
    import numpy as np

    at, slack = start, 8.0 * EPSILON * scale
    rho, columns = radii(at)
    found = smallest_band(columns, rho, rows or _spread_rows(columns), slack)
    for _ in range(100):
        width = float(np.ptp(rho))
        if width - 2.0 * found.half <= 2.0 * slack:
            break
        share = 1.0
        while share > 1e-6:
            step = share * found.coefficients[1:]
            after = at + step
            rho_after, columns_after = radii(after)
            if np.ptp(rho_after) < width:
                break
            share *= 0.5
        else:
            break
        at, rho, columns = after, rho_after, columns_after
        if share == 1.0 and float(step @ step) <= slack * float(rho[0]):
            break
        found = smallest_band(columns, rho, found, slack)
    return at, found


def _spread(rho: Floats) -> float:
    rest = rho - rho.mean()
    return float(rest @ rest)


def _spread_rows(columns: Floats) -> tuple[int, ...]:
    """k + 1 rows of which k are independent, by pivoting; refuses columns that are not independent."""
    import numpy as np

    rest, rows, first = columns.copy(), [], 0.0
    for _ in range(columns.shape[1]):
        sizes = np.einsum("ij,ij->i", rest, rest)
        row = int(sizes.argmax())
        first = first or float(sizes[row])
        if sizes[row] <= 1e-16 * first:
            raise refuse("points", "The points do not surround the axis.", "Spread them over the whole surface.")
        rows.append(row)
        direction = rest[row] / np.sqrt(sizes[row])
        rest -= np.outer(rest @ direction, direction)
    rows.append(next(n for n in range(len(columns)) if n not in rows))
    return tuple(rows)


def _about_four_points(at: Floats) -> tuple[Floats, Floats]:
    """Distances to the corners of a square about zero, for the examples above."""
    import numpy as np

    away = np.array([[1.0, 0.0, -1.0, 0.0], [0.0, 1.0, 0.0, -1.0]]) - at[:, None]
    rho = np.hypot(*away)
    return rho, np.stack([np.ones(4), *(away / rho)]).T
