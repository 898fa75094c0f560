"""How far a line is from straight: cam bearings, gasket faces along one edge, a push-rod on blocks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gudgeon.metrology import zones
from gudgeon.metrology.given import table
from gudgeon.metrology.zones import Zone
from gudgeon.problem import refuse

if TYPE_CHECKING:
    from numpy.typing import ArrayLike

__all__ = ["Zone", "end_points", "least_squares", "minimum_zone"]


def minimum_zone(points: ArrayLike) -> Zone:
    """Minimum-zone straightness: the distance of the two closest parallel lines that hold all points.

    Parameters
    ----------
    points : rows of x, z
        In the same unit; three rows or more.

    Notes
    -----
    Proven by the contact pattern 2-1 (high, low, high or the reverse). Source: ISO 12780-1 (definition, from memory).

    Examples
    --------
    >>> line = [(10.0 * n, z / 1000) for n, z in enumerate((0, 5, 2, 6, 0))]
    >>> round(1000 * minimum_zone(line).width, 6)
    6.0
    """
    return zones.minimum_zone(table("points", points, columns=2, least=3))


def least_squares(points: ArrayLike) -> Zone:
    """Straightness across the least-squares line (STRt of ISO 12780-1, from memory).

    Examples
    --------
    >>> line = [(10.0 * n, z / 1000) for n, z in enumerate((0, 5, 2, 6, 0))]
    >>> round(1000 * least_squares(line).width, 4)
    6.1
    """
    return zones.least_squares_zone(table("points", points, columns=2, least=3))


def end_points(points: ArrayLike) -> float:
    """Straightness across lines parallel to the one through the first and last point, as a straightedge on its ends reads it.

    Notes
    -----
    Source: the definition of the surface-plate literature (J. C. Moody, The Tool Engineer, October 1955).

    Examples
    --------
    >>> round(end_points([(0.0, 0.0), (1.0, 0.5), (2.0, 0.0), (3.0, -0.25), (4.0, 0.0)]), 6)
    0.75
    """
    import numpy as np

    line = table("points", points, columns=2, least=3)
    ends = line[-1] - line[0]
    length = float(np.hypot(*ends))
    if length == 0.0:
        raise refuse("points", "The first and the last point are the same.", "Give the points along the line.")
    across = (line - line[0]) @ np.array([-ends[1], ends[0]]) / length
    return float(np.ptp(across))
