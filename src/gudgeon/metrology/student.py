"""Student's t without numpy: few repeats make a wide interval, and every verdict must be able to say so."""

from __future__ import annotations

import math
from functools import lru_cache

from gudgeon.metrology.given import finite, freedom, share
from gudgeon.metrology.normal import phi, phi_inverse

MANY = 1e6
"""Degrees of freedom from which the expansions about the normal distribution are exact to rounding."""


def t_cdf(t: float, nu: float = math.inf) -> float:
    """Distribution function of Student's t with `nu` degrees of freedom.

    Notes
    -----
    The tail is I_x(ν/2, 1/2)/2 with x = ν/(ν + t²), the regularised incomplete beta function. Above 10⁶ degrees of freedom
    it is Φ(t(1 - 1/(4ν))/√(1 + t²/(2ν))). `nu` is positive, not necessarily whole, or infinite.
    Source: Abramowitz & Stegun 26.7.1 and 26.7.8.

    Examples
    --------
    >>> round(t_cdf(2.776445, 4), 6)
    0.975
    """
    freedom("nu", nu)
    if math.isnan(t):
        finite("t", t)
    if math.isinf(nu) or math.isinf(t):
        return phi(t)
    if nu > MANY:
        return phi(t * (1.0 - 0.25 / nu) / math.sqrt(1.0 + 0.5 * t * t / nu))
    tail = 0.5 * _beta_share(nu, t * t)
    return tail if t < 0 else 1.0 - tail


@lru_cache(maxsize=1024)
def t_inverse(p: float, nu: float = math.inf) -> float:
    """The t with `t_cdf` (t, `nu`) = p, for 0 < p < 1.

    Notes
    -----
    Newton steps on the logarithm of the smaller tail, kept inside a bracket. Source: the inverse of Abramowitz & Stegun 26.7.1.

    Examples
    --------
    >>> round(t_inverse(0.975, 4), 3)
    2.776
    """
    share("p", p)
    freedom("nu", nu)
    z = phi_inverse(p)
    if math.isinf(nu) or p == 0.5:
        return z
    if nu > MANY:
        return z + z * (z * z + 1.0) / (4.0 * nu)
    found = _tail_inverse(min(p, 1.0 - p), nu, abs(z))
    return math.copysign(found, z)


def coverage(nu: float = math.inf, p: float = 0.95) -> float:
    """Coverage factor k for a two-sided interval of probability `p`.

    Notes
    -----
    k = t_{(1+p)/2}(ν), √-free and untruncated; the GUM also allows ν to be cut to the next whole number below (pass
    ``math.floor(nu)``). Source: GUM (JCGM 100:2008) G.3.2, G.4.1 and table G.2.

    Examples
    --------
    >>> round(coverage(16, 0.99), 2)
    2.92
    """
    return t_inverse(0.5 * (1.0 + share("p", p)), nu)


def _tail_inverse(tail: float, nu: float, start: float) -> float:
    low, high = 0.0, max(1.0, 2.0 * start)
    while 0.5 * _beta_share(nu, high * high) > tail:
        low, high = high, 4.0 * high
    t = min(max(start, low), high)
    log_scale = _log_gamma_half_step(0.5 * nu) - 0.5 * math.log(nu * math.pi)
    for _ in range(200):
        now = 0.5 * _beta_share(nu, t * t)
        low, high = (t, high) if now > tail else (low, t)
        slope = math.exp(log_scale - 0.5 * (nu + 1.0) * math.log1p(t * t / nu)) / now
        after = t + math.log(now / tail) / slope
        if not low < after < high:
            after = 0.5 * (low + high)
        if abs(after - t) <= 1e-15 * after:
            return after
        t = after
    return t


def _beta_share(nu: float, square: float) -> float:
    """I_x(ν/2, 1/2) at x = ν/(ν + t²): the share of both tails together."""
    if square == 0.0:
        return 1.0
    a, x = 0.5 * nu, nu / (nu + square)
    rest = square / (nu + square)
    log_front = _log_gamma_half_step(a) - math.lgamma(0.5) - a * math.log1p(square / nu) + 0.5 * math.log(rest)
    front = math.exp(log_front)
    if x < (a + 1.0) / (a + 2.5):
        return front * _fraction(a, 0.5, x) / a
    return 1.0 - front * _fraction(0.5, a, rest) / 0.5


def _log_gamma_half_step(a: float) -> float:
    """ln Γ(a + 1/2) - ln Γ(a), without cancellation for large a (Abramowitz & Stegun 6.1.47, its logarithm)."""
    if a < 100.0:
        return math.lgamma(a + 0.5) - math.lgamma(a)
    return 0.5 * math.log(a) - 1.0 / (8.0 * a) + 1.0 / (192.0 * a**3) - 1.0 / (640.0 * a**5)


def _fraction(a: float, b: float, x: float) -> float:
    """Continued fraction of the incomplete beta function (NIST DLMF 8.17.22) by the modified Lentz method."""
    tiny = 1e-300
    c, d = 1.0, 1.0 / max(1.0 - (a + b) * x / (a + 1.0), tiny)
    value = d
    for m in range(1, 10_000):
        even = m * (b - m) * x / ((a + 2 * m - 1.0) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1.0))
        for term in (even, odd):
            d = 1.0 / ((1.0 + term * d) or tiny)
            c = (1.0 + term / c) or tiny
            value *= c * d
        if abs(c * d - 1.0) < 1e-16:
            break
    return value
