"""The whole law of a fit: largest guide less smallest stem, each the extreme of several doubtful readings, with what they share."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gudgeon.metrology.extremes import Pairs, own_us, shared_labels, weighted
from gudgeon.metrology.given import share
from gudgeon.metrology.known import Known
from gudgeon.metrology.normal import phi_inverse
from gudgeon.problem import refuse

if TYPE_CHECKING:
    from gudgeon.metrology.given import Floats

FINEST = 1.0 / 500.0
"""A spread below this share of the largest one counts as this share of it."""

REACH = 8.0


@dataclass(frozen=True, slots=True, eq=False)
class Law:
    """A distribution: the largest of some normal values, plus what is added to it with given weights on a grid."""

    mean: float
    u: float
    largest: Pairs
    at: Floats
    weights: Floats

    def cdf(self, x: float) -> float:
        """Probability of a value of at most `x`."""
        from scipy.special import ndtr

        places = x - self.at
        below = self.weights
        for mean, u in self.largest:
            below = below * ndtr((places - mean) * (1.0 / u))
        return float(below.sum())

    def quantile(self, p: float) -> float:
        """The value that is not exceeded with probability `p`."""
        at = self.mean + self.u * phi_inverse(share("p", p))
        low, high = at - 0.1 * self.u, at + 0.1 * self.u
        below, above = self.cdf(low) - p, self.cdf(high) - p
        while below > 0.0:
            high, above, low = low, below, low - self.u
            below = self.cdf(low) - p
        while above < 0.0:
            low, below, high = high, above, high + self.u
            above = self.cdf(high) - p
        return self._between(p, low, high, below, above)

    def _between(self, p: float, low: float, high: float, below: float, above: float) -> float:
        """Regula falsi in the Illinois form: an end that stays twice counts half."""
        x, before, last = low, high, 0.0
        while abs(x - before) > 1e-9 * self.u and above > below:
            before, x = x, high - above * (high - low) / (above - below)
            now = self.cdf(x) - p
            if now < 0.0:
                low, below = x, now
                above *= 0.5 if last < 0.0 else 1.0
            else:
                high, above = x, now
                below *= 0.5 if last > 0.0 else 1.0
            last = now
        return x


def law_of_clearance(largest: Sequence[Known], smallest: Sequence[Known] = ()) -> Law:
    """Distribution of the largest of some readings less the smallest of others.

    Parameters
    ----------
    largest, smallest : sequence of Known
        `smallest` may be empty: then it is the law of the largest alone.

    Notes
    -----
    P = ∫ ∏Φ((x - t - mᵢ)/uᵢ) g(t) dt, g the density of minus the smallest of the others plus the shared bias, on a grid of half the
    smallest uncertainty, where sums over normal shapes err by less than 1e-9. Shared labels as in `extremes.extreme`.
    Source: convolution of independent laws; trapezoid rule on smooth functions (Trefethen & Weideman, SIAM Rev. 56 (2014) 385).

    Examples
    --------
    >>> guide = [Known(value=5.010 + 0.001 * n, parts=(("gauge", 0.001), (f"g{n}", 0.001))) for n in range(3)]
    >>> stem = [Known(value=4.970, parts=(("mic", 0.001), (f"s{n}", 0.001))) for n in range(3)]
    >>> law = law_of_clearance(guide, stem)
    >>> round(law.mean, 4), round(law.quantile(0.95), 4)
    (0.0431, 0.0461)
    """

    if not largest:
        raise refuse("largest", "There is no reading.", "Give one reading or more.")
    common = shared_labels((*largest, *smallest))
    tops = list(zip((each.value for each in largest), own_us(largest, common), strict=True))
    bottoms = [(-each.value, u) for each, u in zip(smallest, own_us(smallest, common), strict=True)] if smallest else []
    parts = [abs(part) for each in (*largest, *smallest) for label, part in each.parts if label in common]
    least = max(*parts, *(u for _, u in tops + bottoms), 0.0, 0.0) * FINEST or 1e-12
    tops, bottoms = _floored(tops, least), _floored(bottoms, least)
    step = 0.5 * min(u for _, u in tops + bottoms)
    top, bottom = _on_grid(tops, step), _on_grid(bottoms, step)
    kept = weighted(largest, top.chances) + weighted(smallest, [-chance for chance in bottom.chances])
    bias = Known(value=0.0, parts=tuple(part for part in kept if part[0] in common)).u
    u = math.hypot(top.u, bottom.u, bias)
    at, weights = (bottom.at, bottom.weights) if bias < least else _blurred(bottom.at, bottom.weights, bias, step)
    return Law(top.mean + bottom.mean, u, tops, at, weights)


@dataclass(frozen=True, slots=True, eq=False)
class _Gridded:
    """The largest of normal values on a grid: places and weights, moments, and how likely each value is the largest."""

    at: Floats
    weights: Floats
    mean: float
    u: float
    chances: tuple[float, ...]


def _floored(pairs: Pairs, least: float) -> Pairs:
    return [(mean, max(u, least)) for mean, u in pairs]


def _on_grid(pairs: Pairs, step: float) -> _Gridded:
    """A single sure zero if there are no values."""
    import numpy as np
    from scipy.special import ndtr

    if not pairs:
        return _Gridded(np.zeros(1), np.ones(1), 0.0, 0.0, ())
    means, us = np.array(pairs).T
    low, high = float((means - REACH * us).max()), float((means + REACH * us).max())
    at: Floats = low + step * np.arange(math.ceil((high - low) / step) + 1, dtype=np.float64)
    z = (at - means[:, None]) / us[:, None]
    below = np.maximum(ndtr(z), 1e-300)
    each = below.prod(axis=0) * np.exp(-0.5 * z * z) / (us[:, None] * below)
    density = each.sum(axis=0)
    weights = density / density.sum()
    mean = float(weights @ at)
    chances = (each.sum(axis=1) / density.sum()).tolist()
    return _Gridded(at, weights, mean, math.sqrt(float(weights @ (at - mean) ** 2)), tuple(chances))


def _blurred(at: Floats, weights: Floats, bias: float, step: float) -> tuple[Floats, Floats]:
    """The same with a normal bias on top; a step as fine as the bias needs."""
    import numpy as np

    finer = max(1, math.ceil(step / (0.5 * bias))) if len(at) > 1 else 1
    step = step / finer if len(at) > 1 else 0.5 * bias
    spread = np.zeros((len(at) - 1) * finer + 1)
    spread[::finer] = weights
    half = math.ceil(REACH * bias / step)
    kernel = np.exp(-0.5 * (step * np.arange(-half, half + 1) / bias) ** 2)
    blurred: Floats = np.convolve(spread, kernel / kernel.sum())
    places: Floats = at[0] + step * np.arange(-half, len(spread) + half)
    seen = blurred > 1e-17
    return places[seen], blurred[seen]
