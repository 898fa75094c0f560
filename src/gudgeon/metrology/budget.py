"""What a written-down bound, a certificate or a handful of repeats is worth as a standard uncertainty."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.metrology.given import above, at_least, finite
from gudgeon.metrology.known import Known, known
from gudgeon.metrology.normal import phi_inverse
from gudgeon.problem import refuse


def rectangular(half_width: float) -> float:
    """Standard uncertainty of a value anywhere within ± `half_width`: a/√3. Source: GUM (JCGM 100:2008) 4.3.7.

    Examples
    --------
    >>> round(rectangular(4.0), 3)
    2.309
    """
    return at_least("half_width", half_width) / math.sqrt(3.0)


def triangular(half_width: float) -> float:
    """The same when the middle is likelier than the ends: a/√6. Source: GUM (JCGM 100:2008) 4.3.9.

    Examples
    --------
    >>> round(triangular(4.0), 4)
    1.633
    """
    return at_least("half_width", half_width) / math.sqrt(6.0)


def arcsine(half_width: float) -> float:
    """The same for something that swings between the ends: a/√2. Source: GUM (JCGM 100:2008) H.1.3.4, JCGM 101:2008 6.4.6.

    Examples
    --------
    >>> round(arcsine(0.5), 6)
    0.353553
    """
    return at_least("half_width", half_width) / math.sqrt(2.0)


def resolution(step: float) -> float:
    """Standard uncertainty of reading to the nearest `step`: d/(2√3). Source: GUM (JCGM 100:2008) F.2.2.1.

    Examples
    --------
    >>> round(resolution(0.01), 6)
    0.002887
    """
    return at_least("step", step) / math.sqrt(12.0)


def certificate(expanded: float, k: float = 2.0) -> float:
    """Standard uncertainty from a certificate's U and k: U/k. Source: GUM (JCGM 100:2008) 4.3.3.

    Examples
    --------
    >>> certificate(0.003)
    0.0015
    """
    return at_least("expanded", expanded) / above("k", k)


def even_odds(half_width: float) -> float:
    """Standard uncertainty when the chance of lying within ± `half_width` is one half: a/Φ⁻¹(0.75). Source: GUM 4.3.5.

    Examples
    --------
    >>> round(even_odds(0.04), 4)
    0.0593
    """
    return at_least("half_width", half_width) / phi_inverse(0.75)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """Standard deviation of single readings, and on how many degrees of freedom it rests."""

    mean: float
    s: float
    nu: float
    n: int


def spread(readings: Sequence[float]) -> Spread:
    """Mean and standard deviation of repeats.

    Notes
    -----
    s² = Σ(xᵢ - x̄)²/(n - 1), ν = n - 1, from deviations (never from a sum of squares, which loses every digit of readings such
    as 10000000.2). Two readings or more. Source: GUM (JCGM 100:2008) 4.2.1, 4.2.2; NIST StRD NumAcc for the trap.

    Examples
    --------
    >>> spread((10000001.0, 10000003.0, 10000002.0)).s
    1.0
    """
    values = _finite_all(readings, 2)
    origin = values[0]
    rest = [value - origin for value in values]
    middle = math.fsum(rest) / len(rest)
    square = math.fsum((value - middle) ** 2 for value in rest)
    return Spread(mean=origin + middle, s=math.sqrt(square / (len(rest) - 1)), nu=len(rest) - 1, n=len(rest))


def pooled(groups: Sequence[Sequence[float]]) -> Spread:
    """One standard deviation from several short series on different parts: three series of three say more than one of three.

    Notes
    -----
    s_p² = Σ νⱼsⱼ²/Σ νⱼ, ν = Σ νⱼ. Each group has two readings or more. Source: GUM (JCGM 100:2008) H.3.6 note, 4.2.4;
    the residual standard deviation of a one-way analysis of variance (NIST StRD).

    Examples
    --------
    >>> round(pooled(((1.0, 3.0), (10.0, 12.0))).s, 6)
    1.414214
    """
    if not groups:
        raise refuse("groups", "No series is given.", "Give one series or more.")
    each = [spread(group) for group in groups]
    nu = sum(one.nu for one in each)
    s = math.sqrt(math.fsum(one.nu * one.s**2 for one in each) / nu)
    n = sum(one.n for one in each)
    return Spread(mean=math.fsum(one.n * one.mean for one in each) / n, s=s, nu=nu, n=n)


def type_a(readings: Sequence[float], label: str, of: Spread | None = None) -> Known:
    """The mean of repeats with its standard uncertainty.

    Notes
    -----
    u = s/√n, ν = n - 1; with `of`, s and ν come from earlier series and one reading is enough. With few readings the interval
    widens by Student's t (`Known.expanded`): 8.98 s for two, 2.48 s for three. Source: GUM (JCGM 100:2008) 4.2.3, 4.2.4, G.3.2.

    Examples
    --------
    >>> mean = type_a((4.970, 4.971, 4.969), "stem repeats")
    >>> round(mean.u, 6), round(mean.expanded() / 0.001, 3)
    (0.000577, 2.484)
    """
    values = _finite_all(readings, 1 if of else 2)
    source = of or spread(values)
    mean = math.fsum(values) / len(values)
    return known(mean, label, source.s / math.sqrt(len(values)), source.nu)


def _finite_all(readings: Sequence[float], least: int) -> list[float]:
    if len(readings) < least:
        raise refuse("readings", "{n} are too few.", "Give {least} readings or more.", n=len(readings), least=least)
    return [finite(f"reading {n}", value) for n, value in enumerate(readings, 1)]
