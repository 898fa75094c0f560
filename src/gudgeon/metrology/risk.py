"""Risk over a whole population: how often a bad part is passed and a good one thrown away, before anything is measured."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from gudgeon.metrology.given import above, finite, limits, share
from gudgeon.metrology.normal import density, phi, phi_inverse
from gudgeon.problem import refuse


@dataclass(frozen=True, slots=True, kw_only=True)
class NormalPrior:
    """What the process makes, if it is normal."""

    mean: float
    sd: float

    def density(self, x: float) -> float:
        """Density at `x`."""
        return density((x - self.mean) / self.sd) / self.sd

    def marks(self) -> tuple[float, ...]:
        """Places that an integral must not step over; beyond the ends nothing is left."""
        finite("mean", self.mean)
        return tuple(self.mean + c * above("sd", self.sd) for c in (-9.0, -3.0, 0.0, 3.0, 9.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class GammaPrior:
    """What the process makes, if it cannot be negative: density x^(k-1)e^(-x/θ)/(Γ(k)θ^k)."""

    shape: float
    scale: float

    def density(self, x: float) -> float:
        """Density at `x`, zero below zero."""
        if x <= 0.0:
            return 0.0
        z = x / self.scale
        return math.exp((self.shape - 1.0) * math.log(z) - z - math.lgamma(self.shape)) / self.scale

    def marks(self) -> tuple[float, ...]:
        """Places that an integral must not step over; beyond the last one nothing is left."""
        above("scale", self.scale)
        mean = self.scale * above("shape", self.shape)
        sd = self.scale * math.sqrt(self.shape)
        return (0.0, 0.2 * mean, mean, mean + 3.0 * sd, mean + 9.0 * sd, mean + 40.0 * sd + 40.0 * self.scale)


Prior = NormalPrior | GammaPrior


@dataclass(frozen=True, slots=True, kw_only=True)
class GlobalRisk:
    """Shares of all parts: passed though outside, rejected though inside, passed, and outside before measuring."""

    consumer: float
    producer: float
    accepted: float
    nonconforming: float

    @property
    def among_accepted(self) -> float:
        """Share of the accepted parts that are outside."""
        return self.consumer / self.accepted if self.accepted > 0.0 else math.nan


def global_risk(
    prior: Prior,
    u: float,
    lower: float | None = None,
    upper: float | None = None,
    accept_from: float | None = None,
    accept_to: float | None = None,
) -> GlobalRisk:
    """Consumer's and producer's global risk of a tolerance, an acceptance interval and a measurement with normal error `u`.

    Parameters
    ----------
    prior : NormalPrior or GammaPrior
        What the true values are, before measuring.
    u : float
        Standard uncertainty of the measurement, more than 0.
    lower, upper : float, optional
        Tolerance limits.
    accept_from, accept_to : float, optional
        Acceptance limits; an absent one is the tolerance limit.

    Notes
    -----
    R_C = ∫_{outside} g₀(η) P(A|η) dη, R_P = ∫_{inside} g₀(η)(1 - P(A|η)) dη. With one limit the acceptance has one limit too: a
    *measured* value below zero is accepted. Source: JCGM 106:2012, 9.5.2.1 and 9.5.2.2.

    Examples
    --------
    >>> risk = global_risk(GammaPrior(shape=4.0, scale=0.25), 0.25, upper=2.0)
    >>> round(risk.consumer, 6), round(risk.nonconforming, 4)
    (0.008019, 0.0424)
    """
    low, high = limits(lower, upper)
    above("u", u)
    begin = low if accept_from is None else finite("accept_from", accept_from)
    end = high if accept_to is None else finite("accept_to", accept_to)
    if begin >= end:
        raise refuse("accept_from", "{low} is not below {high}.", "Give it below accept_to.", low=begin, high=end)

    def passed(x: float) -> float:
        left, right = (begin - x) / u, (end - x) / u
        return phi(-left) - phi(-right) if left > 0.0 else phi(right) - phi(left)

    def failed(x: float) -> float:
        return phi((begin - x) / u) + phi(-(end - x) / u)

    steps = [side + c * u for side in (begin, end) if math.isfinite(side) for c in (-9.0, -3.0, 0.0, 3.0, 9.0)]
    marks = sorted({*prior.marks(), *steps, *(side for side in (low, high) if math.isfinite(side))})
    floor, ceiling = prior.marks()[0], prior.marks()[-1]
    marks = [x for x in marks if floor <= x <= ceiling]
    consumer = producer = accepted = nonconforming = 0.0
    for left, right in pairwise(marks):
        inside = low <= 0.5 * (left + right) <= high
        good = _integral(lambda x: prior.density(x) * passed(x), left, right)
        accepted += good
        if inside:
            producer += _integral(lambda x: prior.density(x) * failed(x), left, right)
        else:
            consumer += good
            nonconforming += _integral(prior.density, left, right)
    return GlobalRisk(consumer=consumer, producer=producer, accepted=accepted, nonconforming=nonconforming)


def acceptance_for_risk(prior: Prior, u: float, upper: float, consumer: float) -> float | None:
    """The upper acceptance limit that brings the consumer's global risk down to `consumer`; ``None`` if A = T already does.

    Notes
    -----
    Bisection on `global_risk`, which falls as the limit is drawn in. Source: JCGM 106:2012, 9.5.4.

    Examples
    --------
    >>> round(acceptance_for_risk(GammaPrior(shape=4.0, scale=0.25), 0.25, 2.0, 0.001), 5)
    1.67183
    """
    share("consumer", consumer)
    if global_risk(prior, u, upper=upper).consumer <= consumer:
        return None
    low, high = upper - 40.0 * u, upper
    for _ in range(60):
        middle = 0.5 * (low + high)
        if global_risk(prior, u, upper=upper, accept_to=middle).consumer > consumer:
            high = middle
        else:
            low = middle
    return 0.5 * (low + high)


def prior_from_share_inside(lower: float, upper: float, inside: float) -> NormalPrior:
    """The centred normal process of which the share `inside` lies within the limits.

    Notes
    -----
    sd = (T_U - T_L)/(2 Φ⁻¹((1 + inside)/2)). Source: in-tolerance probability as used in NCSL RP-19 (read in a public test file).

    Examples
    --------
    >>> round(prior_from_share_inside(-1.0, 1.0, 0.95).sd, 6)
    0.510213
    """
    low, high = limits(lower, upper)
    half = 0.5 * (high - low)
    return NormalPrior(mean=0.5 * (low + high), sd=half / phi_inverse(0.5 * (1.0 + share("inside", inside))))


def capability_of_measuring(u: float, lower: float, upper: float) -> float:
    """Measurement capability index C_m = (T_U - T_L)/(4 u). Source: JCGM 106:2012, 7.6.3.

    Examples
    --------
    >>> capability_of_measuring(0.01, 0.0, 0.04)
    1.0
    """
    low, high = limits(lower, upper)
    return (high - low) / (4.0 * above("u", u))


def _integral(function: Callable[[float], float], left: float, right: float) -> float:
    from scipy.integrate import quad

    return float(quad(function, left, right, epsabs=1e-15, epsrel=1e-11, limit=200)[0])
