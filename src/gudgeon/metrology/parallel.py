"""Wear of several parts at one rate: lines of one slope, each from its own start, and when the next reading may lie at a limit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.metrology.given import finite, share
from gudgeon.metrology.student import coverage
from gudgeon.problem import refuse

Life = tuple[Sequence[float], Sequence[float]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Parallel:
    """Lines y = ȳ_i + slope·(x - x̄_i), one a life; `means` holds (n, x̄, ȳ) of each, `s` scatters with `nu` degrees of freedom."""

    slope: float
    u_slope: float
    s: float
    nu: int
    means: tuple[tuple[int, float, float], ...]
    x_square: float

    def next_reading(self, life: int, x: float, level: float = 0.95) -> tuple[float, float]:
        """Between what the next reading of a life lies at `x`, two-sided.

        Notes
        -----
        ȳ_i + b·d ± t·s·√(1 + 1/n_i + d²/S_xx), d = x - x̄_i, t with N - L - 1 degrees of freedom for N readings of L lives.
        Source: analysis of covariance with one slope, Snedecor & Cochran, Statistical Methods, ch. 18 (from memory).

        Examples
        --------
        >>> wear = parallel_lines([([0, 100, 200], [0.0, 0.011, 0.020]), ([0, 100], [0.010, 0.019])])
        >>> low, high = wear.next_reading(1, 200)
        >>> round(low, 3), round(high, 3)
        (0.024, 0.034)
        """
        n, x_mean, y_mean = self._mean(life)
        d = finite("x", x) - x_mean
        reach = coverage(self.nu, share("level", level)) * self.s * math.sqrt(1.0 + 1.0 / n + d * d / self.x_square)
        middle = y_mean + self.slope * d
        return middle - reach, middle + reach

    def may_reach(self, life: int, limit: float, level: float = 0.95, *, above: bool = True) -> float | None:
        """The first `x` from the middle of a life on at which its next reading may lie at `limit`; none where it never may.

        `above` says that the limit is the most there may be; else it is the least.

        Notes
        -----
        The edge of `next_reading` nearer the limit set equal to it: (g - b·d)² = t²s²(1 + 1/n + d²/S_xx), g = limit - ȳ_i,
        and of its two roots the one on this side of the line. Source: as `next_reading`.

        Examples
        --------
        >>> wear = parallel_lines([([0, 100, 200], [0.0, 0.011, 0.020]), ([0, 100], [0.010, 0.019])])
        >>> round(wear.may_reach(1, 0.050))
        341
        """
        n, x_mean, y_mean = self._mean(life)
        way = 1.0 if above else -1.0
        g, slope = way * (finite("limit", limit) - y_mean), way * self.slope
        q, c = (coverage(self.nu, share("level", level)) * self.s) ** 2, 1.0 + 1.0 / n
        rest = g * g - q * c
        if g <= 0.0 or rest <= 0.0:
            return x_mean
        root = math.sqrt(q * (slope * slope * c + rest / self.x_square))
        return x_mean + rest / (g * slope + root) if g * slope + root > 0.0 else None

    def _mean(self, life: int) -> tuple[int, float, float]:
        if not 0 <= life < len(self.means):
            raise refuse(
                "life",
                "There are {n} lives, and {life} is none of them.",
                "Count from 0.",
                n=len(self.means),
                life=life,
            )
        return self.means[life]


def parallel_lines(lives: Sequence[Life], least_s: float = 0.0) -> Parallel:
    """Least-squares lines of one slope through the readings of several lives, each with its own start.

    Parameters
    ----------
    lives : (ages, sizes) of each; a life of one reading says nothing of the slope and still has its line
    least_s : what one reading scatters at least, from its gauge; three readings may lie on a line by luck

    Notes
    -----
    b = Σ Σ (x - x̄_i)(y - ȳ_i) / S_xx, S_xx = Σ Σ (x - x̄_i)², s² = Σ r²/(N - L - 1). Valid where parts of a kind wear alike
    and evenly; running-in wears faster at first, then a line predicts too late a wear too early. One life alone is the
    straight line of `gudgeon.metrology.trend`. Source: as `Parallel.next_reading`.

    Examples
    --------
    >>> round(parallel_lines([([0, 1, 2], [1.0, 3.0, 5.0])]).slope, 9)
    2.0
    """
    checked = [_checked(n, life) for n, life in enumerate(lives, 1)]
    means = tuple((len(xs), math.fsum(xs) / len(xs), math.fsum(ys) / len(ys)) for xs, ys in checked)
    about = [
        (x - mx, y - my)
        for (xs, ys), (_, mx, my) in zip(checked, means, strict=True)
        for x, y in zip(xs, ys, strict=True)
    ]
    nu = len(about) - len(means) - 1
    x_square = math.fsum(x * x for x, _ in about)
    if nu < 1 or x_square <= 0.0:
        raise refuse("lives", "{n} readings of {lives} lives give no slope with a doubt.",
                     "Take one more reading than lives and slope need.", n=len(about), lives=len(means))  # fmt: skip
    slope = math.fsum(x * y for x, y in about) / x_square
    scatter = math.sqrt(math.fsum((y - slope * x) ** 2 for x, y in about) / nu)
    s = max(scatter, finite("least_s", least_s))
    return Parallel(slope=slope, u_slope=s / math.sqrt(x_square), s=s, nu=nu, means=means, x_square=x_square)


def _checked(n: int, life: Life) -> tuple[list[float], list[float]]:
    xs = [finite(f"age, life {n}", x) for x in life[0]]
    ys = [finite(f"size, life {n}", y) for y in life[1]]
    if not xs or len(xs) != len(ys):
        raise refuse(f"life {n}", "It has {x} ages and {y} sizes.", "Give as many.", x=len(xs), y=len(ys))
    return xs, ys
