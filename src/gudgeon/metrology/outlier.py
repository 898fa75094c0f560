"""One reading that stands alone among repeats: a slip of the hand must not become the doubt of a gauge, nor be lost in it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.metrology.budget import spread
from gudgeon.metrology.given import share
from gudgeon.metrology.student import t_inverse
from gudgeon.problem import refuse


@dataclass(frozen=True, slots=True, kw_only=True)
class Farthest:
    """The reading farthest from the mean: its place from 0, how many s away, and from where on it stands alone."""

    index: int
    g: float
    critical: float

    @property
    def alone(self) -> bool:
        """Whether the others do not explain it."""
        return self.g > self.critical


def critical_g(n: int, p: float = 0.05, sides: int = 2) -> float:
    """How many standard deviations the farthest of `n` normal readings may be away, at significance `p`.

    Notes
    -----
    G = (n - 1)/√n · √(t²/(n - 2 + t²)) with t at p/(2n) (two sides) or p/n (one side) and n - 2 degrees of freedom; three readings or
    more. Source: F. E. Grubbs, Technometrics 11, 1 (1969), as given in the NIST/SEMATECH e-Handbook 1.3.5.17.1.

    Examples
    --------
    >>> round(critical_g(8, sides=1), 3), round(critical_g(10), 2)
    (2.032, 2.29)
    """
    if n < 3:
        raise refuse("readings", "{n} are too few.", "Give 3 readings or more.", n=n)
    t = t_inverse(1.0 - share("p", p) / (sides * n), n - 2)
    return (n - 1.0) / math.sqrt(n) * math.sqrt(t * t / (n - 2.0 + t * t))


def farthest(readings: Sequence[float], p: float = 0.05, sides: int = 2) -> Farthest:
    """The reading farthest from the mean, held against `critical_g`.

    Notes
    -----
    G = max|xᵢ - x̄|/s; readings that are all the same have none that stands alone. Source: NIST/SEMATECH e-Handbook 1.3.5.17.1.

    Examples
    --------
    >>> farthest((199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57)).alone
    True
    """
    found = spread(readings)
    index = max(range(found.n), key=lambda n: abs(readings[n] - found.mean))
    g = abs(readings[index] - found.mean) / found.s if found.s > 0.0 else 0.0
    return Farthest(index=index, g=g, critical=critical_g(found.n, p, sides))
