"""Cylindricity: a bore can be round at every level and straight on every side and still not be a cylinder."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gudgeon.metrology import rings
from gudgeon.metrology.given import table
from gudgeon.problem import refuse

if TYPE_CHECKING:
    from numpy.typing import ArrayLike

    from gudgeon.metrology.given import Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Cylinder:
    """An axis and the deviations from it, in the unit of the points.

    The axis passes through (`x`, `y`) at the mean height of the points and leans by `lean_x`, `lean_y` per unit of height;
    `width` is the cylindricity, `contacts` the rows that carry it (minimum zone only).
    """

    x: float
    y: float
    lean_x: float
    lean_y: float
    radius: float
    width: float
    contacts: tuple[int, ...] = ()


def least_squares(points: ArrayLike) -> Cylinder:
    """Cylindricity across the least-squares cylinder.

    Parameters
    ----------
    points : rows of x, y, z
        Same unit, the axis roughly along z (within 45°); six rows or more, all the way round at two levels or more.

    Notes
    -----
    Smallest Σ(ρ - mean ρ)² over the axis, ρ the distance from it. Source: ISO 12180-1 (definition, from memory).

    Examples
    --------
    >>> eighths = [math.radians(45 * n) for n in range(8)]
    >>> taper = [((26 + z / 6000) * math.cos(t), (26 + z / 6000) * math.sin(t), float(z)) for z in (0, 30, 60) for t in eighths]
    >>> round(least_squares(taper).width, 6)
    0.01
    """
    xyz, middle, scale = _prepared(points)
    at = rings.least_squares(_radii(xyz, scale), _start(xyz), scale)
    return _cylinder(xyz, middle, at, scale)


def minimum_zone(points: ArrayLike) -> Cylinder:
    """Minimum-zone cylindricity: the smallest distance of two coaxial cylinders that hold all points between them.

    Notes
    -----
    Started from the least-squares axis, carried by six points; a local optimum, the only one for a form error that is small against
    the radius. Source: ISO 12180-1 (definition, from memory); Shakarji & Clement, J. Res. NIST 109 (2004).

    Examples
    --------
    >>> eighths = [math.radians(45 * n) for n in range(8)]
    >>> taper = [((26 + z / 6000) * math.cos(t), (26 + z / 6000) * math.sin(t), float(z)) for z in (0, 30, 60) for t in eighths]
    >>> round(minimum_zone(taper).width, 6)
    0.01
    """
    xyz, middle, scale = _prepared(points)
    start = rings.least_squares(_radii(xyz, scale), _start(xyz), scale)
    at, found = rings.narrowest(_radii(xyz, scale), start, scale)
    return _cylinder(xyz, middle, at, scale, tuple(sorted(found.rows)))


def _prepared(points: ArrayLike) -> tuple[Floats, Floats, float]:
    """Rows x, y, z about their mean, the mean, and the size of the numbers; refuses a single level."""
    import numpy as np

    given = table("points", points, columns=3, least=6).T.copy()
    scale = float(np.abs(given).max())
    middle = given.mean(axis=1)
    given -= middle[:, None]
    if float(np.ptp(given[2])) <= 1e-6 * scale:
        raise refuse("points", "All points lie at one level.", "Take points at two levels or more.")
    return given, middle, scale


def _start(xyz: Floats) -> Floats:
    """An upright axis through the middle of the algebraic circle."""
    import numpy as np

    xy = xyz[:2]
    square = xy[0] * xy[0] + xy[1] * xy[1]
    scatter = xy @ xy.T
    if np.linalg.det(scatter) <= 1e-14 * np.trace(scatter) ** 2:
        raise refuse("points", "The points lie in one plane.", "Take points all the way round.")
    centre = rings.solved(2.0 * scatter, xy @ (square - square.mean()))
    return np.concatenate([centre, [0.0, 0.0]])


def _radii(xyz: Floats, scale: float) -> rings.Radii:
    """Parameters: the axis at mean height, and its ends' sideways travel over `scale` (so that all four are lengths)."""
    import numpy as np

    def radii(at: Floats) -> tuple[Floats, Floats]:
        lean = at[2:] / scale
        along = np.array([lean[0], lean[1], 1.0]) / math.sqrt(1.0 + float(lean @ lean))
        away = xyz - np.array([at[0], at[1], 0.0])[:, None]
        height = along @ away
        across = away - along[:, None] * height
        rho = np.maximum(np.sqrt(np.einsum("ij,ij->j", across, across)), 1e-300)
        columns = np.ones((5, len(rho)))
        columns[1:3] = across[:2] / rho
        columns[3:5] = columns[1:3] * (height * along[2] / scale)
        return rho, columns.T

    return radii


def _cylinder(xyz: Floats, middle: Floats, at: Floats, scale: float, rows: tuple[int, ...] = ()) -> Cylinder:
    rho = _radii(xyz, scale)(at)[0]
    low, high = float(rho.min()), float(rho.max())
    return Cylinder(
        x=float(middle[0] + at[0]),
        y=float(middle[1] + at[1]),
        lean_x=float(at[2] / scale),
        lean_y=float(at[3] / scale),
        radius=0.5 * (low + high) if rows else float(rho.mean()),
        width=high - low,
        contacts=rows,
    )
