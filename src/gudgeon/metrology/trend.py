"""Wear over hours: a line or a power law through a few points, and how far it can be trusted ahead."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from gudgeon.metrology.given import finite, share
from gudgeon.metrology.student import coverage
from gudgeon.problem import refuse

Law = Literal["line", "power"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Prediction:
    """The fitted value at a place, where the curve itself lies, and where the next reading will lie."""

    value: float
    u: float
    curve: tuple[float, float]
    next_reading: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trend:
    """A least-squares straight line y = intercept + slope·x; for a power law the same in logarithms, y = e^intercept · x^slope.

    `s` is the residual standard deviation with `nu` degrees of freedom, `correlation` that of intercept and slope.
    """

    law: Law
    intercept: float
    slope: float
    u_intercept: float
    u_slope: float
    correlation: float
    s: float
    nu: int
    r_squared: float
    x_mean: float = field(repr=False)
    x_square: float = field(repr=False)

    def at(self, x: float, level: float = 0.95) -> Prediction:
        """The value at `x` with its confidence and prediction intervals.

        Notes
        -----
        ŷ ± t·s·√(1/n + (x - x̄)²/S_xx), and √(1 + …) for the next reading; of a power law in logarithms, then taken back, so that the
        interval is not symmetric. Source: GUM (JCGM 100:2008) H.3.4 and H.3.5; Draper & Smith, Applied Regression Analysis (memory).

        Examples
        --------
        >>> round(straight_line([0, 100, 200, 300], [0.0, 0.011, 0.019, 0.031]).at(400).value, 4)
        0.0405
        """
        place = self._in(finite("x", x), "x")
        n = self.nu + 2
        middle = self.intercept + self.slope * place
        u = self.s * math.sqrt(1.0 / n + (place - self.x_mean) ** 2 / self.x_square)
        k = coverage(self.nu, share("level", level))
        reach, wide = k * u, k * math.hypot(u, self.s)
        value = self._out(middle)
        return Prediction(
            value=value,
            u=u if self.law == "line" else value * u,
            curve=(self._out(middle - reach), self._out(middle + reach)),
            next_reading=(self._out(middle - wide), self._out(middle + wide)),
        )

    def reaches(self, limit: float, level: float = 0.95) -> tuple[float, tuple[float, float] | None]:
        """Where the curve reaches `limit`, and between which places with probability `level`; ``None`` if that is open-ended.

        Notes
        -----
        The places where the confidence band of the curve crosses the limit. Source: E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175
        (from memory).

        Examples
        --------
        >>> round(straight_line([0, 100, 200, 300], [0.0, 0.011, 0.019, 0.031]).reaches(0.050)[0])
        494
        """
        if self.slope == 0.0:
            raise refuse("limit", "The trend is level and reaches nothing.", "Take more readings.")
        wanted = self._in(finite("limit", limit), "limit")
        gap = wanted - self.intercept - self.slope * self.x_mean
        k = coverage(self.nu, share("level", level))
        centre = self._back((wanted - self.intercept) / self.slope)
        quarter = (k * self.s) ** 2
        a = self.slope**2 - quarter / self.x_square
        root = gap**2 * self.slope**2 - a * (gap**2 - quarter / (self.nu + 2))
        if a <= 0.0 or root < 0.0:
            return centre, None
        ends = sorted(self.x_mean + (gap * self.slope + sign * math.sqrt(root)) / a for sign in (-1.0, 1.0))
        return centre, (self._back(ends[0]), self._back(ends[1]))

    def _in(self, value: float, where: str) -> float:
        if self.law == "line":
            return value
        if value <= 0.0:
            raise refuse(where, "A power law has no {given}.", "Give more than 0.", given=value)
        return math.log(value)

    def _out(self, value: float) -> float:
        return value if self.law == "line" else math.exp(min(value, 700.0))

    _back = _out


def straight_line(x: Sequence[float], y: Sequence[float]) -> Trend:
    """Least-squares straight line through three points or more.

    Notes
    -----
    Slope S_xy/S_xx about the means, s² = Σr²/(n - 2), summed exactly. Source: GUM (JCGM 100:2008) H.3.2; NIST StRD for the digits.

    Examples
    --------
    >>> line = straight_line([0, 1, 2], [1.0, 3.0, 5.0])
    >>> line.slope, line.intercept
    (2.0, 1.0)
    """
    return _fit("line", *_points(x, y))


def power_law(x: Sequence[float], y: Sequence[float]) -> Trend:
    """Least-squares power law y = a·x^b through three points or more with x and y above zero.

    Notes
    -----
    A straight line of ln y on ln x: equal *relative* errors are assumed. Running-in wear often follows it with b below 1: common
    practice, no source. Source of the fit: as `straight_line`.

    Examples
    --------
    >>> wear = power_law([100, 200, 400], [0.010, 0.014142135623730951, 0.020])
    >>> round(wear.slope, 9), round(wear.at(800).value, 6)
    (0.5, 0.028284)
    """
    xs, ys = _points(x, y)
    for where, values in (("x", xs), ("y", ys)):
        if min(values) <= 0.0:
            raise refuse(where, "A power law has no {given}.", "Give values above 0.", given=min(values))
    return _fit("power", [math.log(value) for value in xs], [math.log(value) for value in ys])


def _points(x: Sequence[float], y: Sequence[float]) -> tuple[list[float], list[float]]:
    if len(x) != len(y):
        raise refuse("y", "{m} values do not match {n} places.", "Give as many.", m=len(y), n=len(x))
    if len(x) < 3:
        raise refuse("points", "{n} points are too few for a trend.", "Give three or more.", n=len(x))
    xs = [finite(f"x, point {n}", value) for n, value in enumerate(x, 1)]
    ys = [finite(f"y, point {n}", value) for n, value in enumerate(y, 1)]
    if max(xs) == min(xs):
        raise refuse("x", "All points lie at {given}.", "Give different places.", given=xs[0])
    return xs, ys


def _fit(law: Law, x: list[float], y: list[float]) -> Trend:
    n = len(x)
    x_mean, y_mean = math.fsum(x) / n, math.fsum(y) / n
    dx = [value - x_mean for value in x]
    dy = [value - y_mean for value in y]
    x_square, y_square = math.fsum(a * a for a in dx), math.fsum(b * b for b in dy)
    slope = math.fsum(a * b for a, b in zip(dx, dy, strict=True)) / x_square
    left = math.fsum((b - slope * a) ** 2 for a, b in zip(dx, dy, strict=True))
    s = math.sqrt(left / (n - 2))
    about_zero = math.sqrt(1.0 / n + x_mean**2 / x_square)
    return Trend(
        law=law,
        intercept=y_mean - slope * x_mean,
        slope=slope,
        u_intercept=s * about_zero,
        u_slope=s / math.sqrt(x_square),
        correlation=-x_mean / (about_zero * math.sqrt(x_square)),
        s=s,
        nu=n - 2,
        r_squared=1.0 - left / y_square if y_square > 0.0 else 1.0,
        x_mean=x_mean,
        x_square=x_square,
    )
