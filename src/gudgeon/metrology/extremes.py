"""Wear limits ask for the smallest stem and the largest guide: the extreme of several doubtful readings has its own law."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from gudgeon.metrology.known import Known, Parts
from gudgeon.metrology.normal import density, phi
from gudgeon.problem import refuse

if TYPE_CHECKING:
    from gudgeon.metrology.given import Floats

Pairs = list[tuple[float, float]]
Which = Literal["smallest", "largest"]

REACH = 9.0
"""Standard deviations beyond which a normal value is taken as impossible (1e-19)."""

BREAKS = (-REACH, -4.5, -2.2, -0.8, 0.8, 2.2, 4.5, REACH)

GAUSS_10 = (
    (0.1488743389816312, 0.2955242247147529),
    (0.4333953941292472, 0.2692667193099963),
    (0.6794095682990244, 0.2190863625159820),
    (0.8650633666889845, 0.1494513491505806),
    (0.9739065285171717, 0.0666713443086881),
)
"""Gauss–Legendre nodes and weights, ten points, symmetric about zero (Abramowitz & Stegun table 25.4)."""


@dataclass(frozen=True, slots=True)
class Largest:
    """The largest of independent normal values: mean, standard deviation, and how likely each one is the largest."""

    mean: float
    u: float
    chances: tuple[float, ...]


def largest_of(means: Sequence[float], us: Sequence[float]) -> Largest:
    """The largest of independent normal values N(mᵢ, uᵢ²), exactly.

    Notes
    -----
    P(max ≤ x) = ∏ Φ((x - mᵢ)/uᵢ); mean and variance from E = b - ∫F dx and E(b - X)² = 2∫(b - x)F dx up to a b that is never
    exceeded, by ten-point Gauss panels laid at the scale of each value. Any uᵢ ≥ 0 (zero is a sure value).
    Source: order statistics of independent variables, e.g. David & Nagaraja, Order Statistics, 2.1 and 3.1 (from memory).

    Examples
    --------
    >>> two = largest_of((0.0, 0.0), (1.0, 1.0))
    >>> round(two.mean, 9) == round(1 / math.sqrt(math.pi), 9), round(two.u ** 2, 9) == round(1 - 1 / math.pi, 9)
    (True, True)
    """
    low = max(m - REACH * u for m, u in zip(means, us, strict=True))
    live = [i for i, (m, u) in enumerate(zip(means, us, strict=True)) if m + REACH * u >= low]
    pairs = [(means[i], us[i]) for i in live]
    high = max(m + REACH * u for m, u in pairs)
    area, moment, shares = 0.0, 0.0, [0.0] * len(pairs)
    for x, weight in _nodes(pairs, low, high):
        each = [phi((x - m) / u) if u else float(x >= m) for m, u in pairs]
        below = math.prod(each)
        area += weight * below
        moment += weight * below * (high - x)
        if below > 0.0:
            for k, (m, u) in enumerate(pairs):
                if u:
                    shares[k] += weight * below / each[k] * density((x - m) / u) / u
    _sure_values(pairs, shares)
    chances = [0.0] * len(means)
    for i, one in zip(live, shares, strict=True):
        chances[i] = one / math.fsum(shares)
    return Largest(high - area, math.sqrt(max(0.0, 2.0 * moment - area * area)), tuple(chances))


def extreme(readings: Sequence[Known], which: Which, label: str) -> Known:
    """The smallest or largest of several readings as a value with labelled parts.

    Parameters
    ----------
    readings : sequence of Known
    which : "smallest" or "largest"
    label : str
        Name for the doubt that is left over: which reading it is.

    Notes
    -----
    Labels that occur in more than one reading are shared; everything else is independent and goes through `largest_of`. Every label is
    kept with Σ Pᵢcᵢ, Pᵢ the chance that reading i is the extreme: that is its exact covariance with the extreme (Stein's lemma), and the
    rest of the variance stands under `label`. Exact where all readings carry the same shared contribution (one gauge), first order
    otherwise. The value is the mean of the distribution, so the smallest of equal readings lies a little below each of them.
    Source: see `largest_of`; Cov(max, Xᵢ) = Pᵢuᵢ², C. Stein, Ann. Statist. 9 (1981) 1135 (from memory).

    Examples
    --------
    >>> stem = [Known(value=4.970, parts=(("micrometer", 0.001), (f"at {n}", 0.001))) for n in range(3)]
    >>> least = extreme(stem, "smallest", "stem")
    >>> round(least.value, 5), round(least.u, 5), round(dict(least.parts)["micrometer"], 5)
    (4.96915, 0.00125, 0.001)
    """
    sign = 1.0 if which == "largest" else -1.0
    found = largest_of([sign * each.value for each in readings], own_us(readings))
    return _assembled(readings, sign * found.mean, found.chances, found.u, label)


def spread_between(readings: Sequence[Known], label: str) -> Known:
    """Largest less smallest (taper, out-of-round) of several readings; a shared bias cancels.

    Notes
    -----
    P(R ≤ r) = ∫ Σ fᵢ(a) ∏_{j≠i} (Fⱼ(a + r) - Fⱼ(a)) da; the two ends are treated jointly. Labels are kept with the difference of
    their chances at the two ends, as in `extreme`. Two readings or more. Source: David & Nagaraja, Order Statistics, 2.3 (from memory).

    Examples
    --------
    >>> pair = [Known(value=v, parts=(("gauge", 0.01), (f"at {v}", 0.001))) for v in (5.0, 5.1)]
    >>> round(spread_between(pair, "taper").value, 6), round(spread_between(pair, "taper").u, 6)
    (0.1, 0.001414)
    """
    if len(readings) < 2:
        raise refuse("readings", "{n} are too few.", "Give two readings or more.", n=len(readings))
    us, values = own_us(readings), [each.value for each in readings]
    top, bottom = largest_of(values, us), largest_of([-value for value in values], us)
    mean = top.mean + bottom.mean
    differences = tuple(t - b for t, b in zip(top.chances, bottom.chances, strict=True))
    return _assembled(readings, mean, differences, _range_u(values, us, mean), label)


def shared_labels(readings: Sequence[Known]) -> frozenset[str]:
    """Labels that more than one of the readings carries. Source: GUM (JCGM 100:2008) F.1.2.3, a common cause is one cause.

    Examples
    --------
    >>> pair = [Known(value=1.0, parts=(("gauge", 0.1), (f"at {n}", 0.1))) for n in range(2)]
    >>> sorted(shared_labels(pair))
    ['gauge']
    """
    count: dict[str, int] = {}
    for each in readings:
        for label, _ in each.parts:
            count[label] = count.get(label, 0) + 1
    return frozenset(label for label, n in count.items() if n > 1)


def own_us(readings: Sequence[Known], shared: frozenset[str] | None = None) -> list[float]:
    """Standard uncertainty of each reading from what it shares with no other. Source: GUM (JCGM 100:2008) 5.1.2.

    Examples
    --------
    >>> own_us([Known(value=1.0, parts=(("gauge", 0.1), (f"at {n}", 0.2))) for n in range(2)])
    [0.2, 0.2]
    """
    if not readings:
        raise refuse("readings", "There is no reading.", "Give one reading or more.")
    common = shared_labels(readings) if shared is None else shared
    return [math.hypot(*(part for label, part in each.parts if label not in common)) for each in readings]


def weighted(readings: Sequence[Known], weights: Sequence[float]) -> Parts:
    """Every part times the weight of its reading. Source: GUM (JCGM 100:2008) 5.1.3, weights as sensitivities.

    Examples
    --------
    >>> weighted([Known(value=1.0, parts=(("gauge", 0.1),))], [0.5])
    (('gauge', 0.05),)
    """
    return tuple(
        (label, weight * part) for each, weight in zip(readings, weights, strict=True) for label, part in each.parts
    )


def _assembled(readings: Sequence[Known], value: float, weights: Sequence[float], own_u: float, label: str) -> Known:
    common = shared_labels(readings)
    parts = weighted(readings, weights)
    rest = own_u**2 - math.fsum(part**2 for name, part in parts if name not in common)
    left = math.sqrt(rest) if rest > 1e-12 * own_u**2 else 0.0
    nu = tuple(pair for each in readings for pair in each.nu)
    return Known(value=value, parts=(*parts, (label, left)), nu=nu)


def _sure_values(pairs: Pairs, shares: list[float]) -> None:
    """Chances of values without spread: an atom, split evenly between equal ones."""
    for k, (m, u) in enumerate(pairs):
        if u == 0.0:
            ties = sum(1 for other, spread in pairs if spread == 0.0 and other == m)
            shares[k] = math.prod(phi((m - o) / s) if s else float(m >= o) for o, s in pairs) / ties


def _nodes(pairs: Pairs, low: float, high: float) -> Pairs:
    """Gauss nodes and weights on panels that follow every value's own scale."""
    marks = sorted((m + c * u, u) for m, u in pairs for c in BREAKS)
    edges = [low]
    for at, u in marks:
        if at < high and at - edges[-1] > 0.6 * u:
            edges.append(at)
    edges.append(high)
    nodes = []
    for left, right in itertools.pairwise(edges):
        middle, half = 0.5 * (left + right), 0.5 * (right - left)
        for x, weight in GAUSS_10:
            nodes += [(middle - half * x, half * weight), (middle + half * x, half * weight)]
    return nodes


def _range_u(values: Sequence[float], us: Sequence[float], mean: float) -> float:
    """Standard deviation of largest less smallest: E R² = 2∫ r P(R > r) dr, over every r that is neither sure nor impossible."""
    import numpy as np

    widest = max(us)
    if widest == 0.0:
        return 0.0
    pairs = [(m, max(u, 1e-6 * widest)) for m, u in zip(values, us, strict=True)]
    tops, bottoms = [m + REACH * u for m, u in pairs], [m - REACH * u for m, u in pairs]
    start, far = max(0.0, max(bottoms) - min(tops)), max(tops) - min(bottoms)
    gaps = [(abs(p - q), math.hypot(s, t)) for i, (p, s) in enumerate(pairs) for q, t in pairs[:i]]
    r, weights = np.array(_nodes(gaps, start, far)).T
    if widest <= 2.0 * min(u for _, u in pairs):
        within = _range_within(r, pairs, pairs, min(bottoms), min(tops))
    else:
        steps = [(one, pairs + [(m - float(one), u) for m, u in pairs]) for one in r]
        within = np.array([_range_within(np.array([one]), pairs, at, min(bottoms), min(tops))[0] for one, at in steps])
    return math.sqrt(max(0.0, start**2 + 2.0 * float(weights @ (r * (1.0 - within))) - mean**2))


def _range_within(r: Floats, pairs: Pairs, scales: Pairs, low: float, high: float) -> Floats:
    """P(R ≤ r): over each place a of the smallest value, the chance that all others lie between a and a + r."""
    import numpy as np
    from scipy.special import ndtr

    m, u = np.array(pairs).T[:, :, None]
    a, weights = np.array(_nodes(scales, low, high)).T
    z = (a - m) / u
    between = np.maximum(ndtr(z + r[:, None, None] / u) - ndtr(z), 1e-300)
    smallest_here = np.exp(-0.5 * z * z) / (u * math.sqrt(2.0 * math.pi)) / between
    inner: Floats = (between.prod(axis=1) * smallest_here.sum(axis=1)) @ weights
    return inner
