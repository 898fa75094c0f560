"""Inside or outside a limit, given how well the value is known: the rule behind every verdict word."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, assert_never

from gudgeon.metrology.given import at_least, finite, freedom, limits, risk_share
from gudgeon.metrology.student import t_cdf, t_inverse

Rule = Literal["guarded", "simple", "guard band"]
Proven = Literal["inside", "outside", "neither"]

ILAC_G8 = (("simple", 0.0), ("0.83 U", 0.83), ("U", 1.0), ("1.5 U", 1.5), ("3 U", 3.0))
"""Guard bands as multiples of U, ILAC-G8:09/2019 table 1 (read in a secondary quotation)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """What a decision rule says, with the probability behind the word and the limits that were used."""

    proven: Proven
    probability: float
    guard: float
    accept_from: float
    accept_to: float


def conformance_probability(
    value: float, u: float, lower: float | None = None, upper: float | None = None, nu: float = math.inf
) -> float:
    """Probability that the true value lies within the limits.

    Notes
    -----
    p = F((T_U - y)/u) - F((T_L - y)/u), F normal or, with few degrees of freedom, Student's t; both tails are always counted.
    Any unit, the same for all. `u` = 0 gives 0 or 1, a value on the limit is inside. Source: JCGM 106:2012, 7.2 to 7.4.

    Examples
    --------
    >>> round(conformance_probability(-5.47, 0.05, upper=-5.40), 5)
    0.91924
    """
    low, high = limits(lower, upper)
    y, spread = finite("value", value), at_least("u", u)
    freedom("nu", nu)
    if spread == 0.0:
        return 1.0 if low <= y <= high else 0.0
    above, below = (high - y) / spread, (low - y) / spread
    if below > 0.0:
        return t_cdf(-below, nu) - t_cdf(-above, nu)
    return t_cdf(above, nu) - t_cdf(below, nu)


def guard_factor(
    risk: float = 0.05, u: float = 0.0, lower: float | None = None, upper: float | None = None, nu: float = math.inf
) -> float | None:
    """How many u an accepted value must keep from its limit, so that at most `risk` of it lies outside.

    Notes
    -----
    One limit: t_{1-risk}(ν), 1.645 for 5 % and a normal value. Two limits: the g with F(g) - F(g - (T_U - T_L)/u) = 1 - risk,
    larger than the one-sided factor; ``None`` if even the middle does not reach it. Source: JCGM 106:2012, 8.3.2 and 7.4.

    Examples
    --------
    >>> round(guard_factor(0.05), 6), round(guard_factor(0.05, 1.0, -2.0, 2.0), 5)
    (1.644854, 1.79621)
    """
    one_sided = t_inverse(1.0 - risk_share("risk", risk), nu)
    if lower is None or upper is None or at_least("u", u) == 0.0:
        return one_sided
    low, high = limits(lower, upper)
    width = (high - low) / u
    if 2.0 * t_cdf(0.5 * width, nu) - 1.0 < 1.0 - risk:
        return None
    small, large = max(0.0, min(one_sided, 0.5 * width)), 0.5 * width
    if t_cdf(small, nu) - t_cdf(small - width, nu) >= 1.0 - risk:
        return small
    for _ in range(60):
        middle = 0.5 * (small + large)
        enough = t_cdf(-middle, nu) + t_cdf(middle - width, nu) <= risk
        small, large = (small, middle) if enough else (middle, large)
    return large


def acceptance_limits(
    u: float, lower: float | None = None, upper: float | None = None, risk: float = 0.05, nu: float = math.inf
) -> tuple[float, float] | None:
    """The values that may be accepted (−inf or +inf on an open side), or ``None`` if no value can.

    Notes
    -----
    A_L = T_L + g·u, A_U = T_U - g·u with g from `guard_factor`. Source: JCGM 106:2012, 8.3.2.

    Examples
    --------
    >>> round(acceptance_limits(0.002, upper=0.05)[1], 5)
    0.04671
    """
    low, high = limits(lower, upper)
    factor = guard_factor(risk, u, lower, upper, nu)
    if factor is None:
        return None
    accept = low + factor * at_least("u", u), high - factor * u
    return accept if accept[0] <= accept[1] else None


def rejection_limits(
    u: float, lower: float | None = None, upper: float | None = None, risk: float = 0.05, nu: float = math.inf
) -> tuple[float, float]:
    """The values beyond which the item is proven outside: below the first or above the second.

    Notes
    -----
    Each limit alone, T_L - g·u and T_U + g·u with the one-sided g. A two-sided probability must not be used here: with a poor
    gauge it is small everywhere, and would call every value outside. Source: JCGM 106:2012, 8.3.3.

    Examples
    --------
    >>> round(rejection_limits(2.0, upper=100.0, risk=0.001)[1], 2)
    106.18
    """
    low, high = limits(lower, upper)
    reach = t_inverse(1.0 - risk_share("risk", risk), nu) * at_least("u", u)
    return low - reach, high + reach


def guard_band(expanded: float, multiple: float = 1.0) -> tuple[float, float]:
    """Guard band w = multiple·U, and the share of true values outside at a value accepted right on the acceptance limit.

    Notes
    -----
    AL = TL - w, risk Φ(-2·multiple) for U = 2u, one limit. Source: ILAC-G8:09/2019, 4.2.2 and its table of guard bands.

    Examples
    --------
    >>> guard_band(0.010, 0.83)[0], round(guard_band(0.010, 0.83)[1], 4)
    (0.0083, 0.0485)
    """
    width = at_least("expanded", expanded) * at_least("multiple", multiple)
    return width, t_cdf(-2.0 * multiple)


def decide(
    value: float,
    u: float,
    lower: float | None = None,
    upper: float | None = None,
    *,
    rule: Rule = "guarded",
    risk: float = 0.05,
    multiple: float = 1.0,
    nu: float = math.inf,
) -> Decision:
    """Proven inside, proven outside, or neither.

    Notes
    -----
    ``guarded``: inside if at least 1 - risk of the value lies within the limits, outside if at least 1 - risk lies beyond one of
    them (ISO 14253-1, 5 % by default since 2017, from memory and secondary pages). ``simple``: the value as read (ILAC-G8 4.2.1).
    ``guard band``: acceptance and rejection limits a `multiple` of U = 2u from the limit (ILAC-G8 4.2.2).
    A larger u never turns *neither* into proven.

    Examples
    --------
    >>> decide(0.036, 0.003, upper=0.050).proven, decide(0.048, 0.003, upper=0.050).proven
    ('inside', 'neither')
    """
    low, high = limits(lower, upper)
    probability = conformance_probability(value, u, lower, upper, nu)
    match rule:
        case "simple":
            guard, accept, reject = 0.0, (low, high), (low, high)
        case "guard band":
            guard = guard_band(2.0 * u, multiple)[0]
            accept, reject = (low + guard, high - guard), (low - guard, high + guard)
        case "guarded":
            reject = rejection_limits(u, lower, upper, risk, nu)
            accept = acceptance_limits(u, lower, upper, risk, nu) or (math.inf, -math.inf)
            factor = guard_factor(risk, u, lower, upper, nu)
            guard = math.inf if factor is None else factor * u
        case _:
            assert_never(rule)
    proven: Proven = "neither"
    if accept[0] <= value <= accept[1]:
        proven = "inside"
    elif value < reject[0] or value > reject[1]:
        proven = "outside"
    return Decision(proven=proven, probability=probability, guard=guard, accept_from=accept[0], accept_to=accept[1])
