"""How far a face is from flat: the zone that a straightedge and a feeler only guess at."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gudgeon.metrology import zones
from gudgeon.metrology.given import table
from gudgeon.metrology.zones import Zone

if TYPE_CHECKING:
    from numpy.typing import ArrayLike

__all__ = ["Zone", "least_squares", "minimum_zone"]


def minimum_zone(points: ArrayLike) -> Zone:
    """Minimum-zone flatness: the distance of the two closest parallel planes that hold all points.

    Parameters
    ----------
    points : rows of x, y, z
        All in the same unit; four rows or more, spread over the face. Any tilt below a right angle.

    Notes
    -----
    min over planes of max distance, by exchange on the levelled points (`exchange.smallest_band`); proven by the contact pattern,
    3-1 (three of one side around one of the other) or 2-2 (two lines that cross), 2-1 where one point lies on the line between two.
    Where several planes tie, any of them; the width then differs by less than the square of the tilt between them.
    Source: ISO 12781-1 (definition, from memory); reference algorithms after Shakarji & Clement, J. Res. NIST 109 (2004).

    Examples
    --------
    >>> z = [[0, 4, 6], [-5, 20, -9], [-10, -3, 8]]
    >>> grid = [(100.0 * i, 100.0 * j, z[j][i] / 1000) for j in range(3) for i in range(3)]
    >>> round(1000 * minimum_zone(grid).width, 6)
    27.0
    """
    return zones.minimum_zone(table("points", points, columns=3, least=4))


def least_squares(points: ArrayLike) -> Zone:
    """Flatness across the least-squares plane: never less than the minimum zone, and steadier against one bad point.

    Parameters
    ----------
    points : rows of x, y, z
        All in the same unit; four rows or more.

    Notes
    -----
    Largest less smallest orthogonal distance from the total least-squares plane. Source: ISO 12781-1 (FLTt, from memory).

    Examples
    --------
    >>> z = [[0, 4, 6], [-5, 20, -9], [-10, -3, 8]]
    >>> grid = [(100.0 * i, 100.0 * j, z[j][i] / 1000) for j in range(3) for i in range(3)]
    >>> round(1000 * least_squares(grid).width, 4)
    32.3333
    """
    return zones.least_squares_zone(table("points", points, columns=3, least=4))
