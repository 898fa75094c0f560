"""The normal distribution without numpy, because ``gudgeon calc conformity`` should start as fast as Python does."""

from __future__ import annotations

import math

from gudgeon.metrology.given import share

ROOT_2 = math.sqrt(2.0)
ROOT_2_PI = math.sqrt(2.0 * math.pi)


def density(x: float) -> float:
    """Density of the standard normal distribution.

    Notes
    -----
    exp(-x²/2)/√(2π). Source: JCGM 101:2008, 6.4.7.

    Examples
    --------
    >>> round(density(0.0), 6)
    0.398942
    """
    return math.exp(-0.5 * x * x) / ROOT_2_PI


def phi(x: float) -> float:
    """Standard normal distribution function, accurate to rounding in both tails.

    Notes
    -----
    Φ(x) = erfc(-x/√2)/2; valid for every x, infinities included. Source: NIST DLMF 7.17 and 7.2.2.

    Examples
    --------
    >>> round(phi(1.644853627), 9)
    0.95
    """
    return 0.5 * math.erfc(-x / ROOT_2)


def phi_inverse(p: float) -> float:
    """The x with Φ(x) = p, for 0 < p < 1.

    Notes
    -----
    A rational start (Abramowitz & Stegun 26.2.23, error below 4.5e-4), then three Halley steps on the smaller tail, so
    that 1e-300 is as good as 0.5. Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.2.

    Examples
    --------
    >>> round(phi_inverse(0.95), 6)
    1.644854
    """
    share("p", p)
    if p == 0.5:
        return 0.0
    tail = min(p, 1.0 - p)
    w = math.sqrt(-2.0 * math.log(tail))
    top = 2.515517 + w * (0.802853 + w * 0.010328)
    x = w - top / (1.0 + w * (1.432788 + w * (0.189269 + w * 0.001308)))
    for _ in range(3):
        step = (phi(-x) - tail) / density(x)
        x += step / (1.0 - 0.5 * x * step) if abs(x * step) < 1.0 else step
    return -x if p < 0.5 else x
