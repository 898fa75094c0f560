"""What would settle a value that is too close to its limit: the gauge on the shelf, or how many repeats with it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.metrology.conformity import decide
from gudgeon.metrology.given import at_least, finite
from gudgeon.problem import refuse


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A gauge that could be used: what it gets wrong every time, what it gets wrong each time, and the floor below it.

    `u_part` is whatever no repeat can remove: form of the part, temperature, the other part of a fit.
    """

    label: str
    u_bias: float
    u_reading: float
    u_part: float = 0.0

    def u(self, repeats: int) -> float:
        """Standard uncertainty of the mean of `repeats` readings: √(u_part² + u_bias² + u_reading²/n).

        Source: GUM (JCGM 100:2008) 4.2.3, 5.1.2, F.1.2.3 (a systematic effect does not average away).
        """
        return math.hypot(self.u_part, self.u_bias, self.u_reading / math.sqrt(repeats))


@dataclass(frozen=True, slots=True, kw_only=True)
class Settlement:
    """One way to settle it, if the value stays where it is."""

    label: str
    repeats: int
    u: float
    probability: float


def what_settles(
    value: float,
    lower: float | None,
    upper: float | None,
    candidates: Sequence[Candidate],
    *,
    risk: float = 0.05,
    most_repeats: int = 5,
) -> tuple[Settlement, ...]:
    """The gauges that would prove the value inside or outside, fewest repeats first, then the smallest uncertainty.

    Notes
    -----
    Each candidate gets the fewest repeats n ≤ `most_repeats` for which `decide` (guarded, `risk`) says something, supposing the
    value stays as read. Empty when nothing on the shelf can: then nobody should be told to measure again.
    Source: JCGM 106:2012 8.3.2 solved for u; that repeats beyond five are not worth a mechanic's time is common practice, no source.

    Examples
    --------
    >>> feeler, dial = Candidate(label="feeler", u_bias=0.006, u_reading=0.004), Candidate(label="dial", u_bias=0.002, u_reading=0.003)
    >>> [(s.label, s.repeats) for s in what_settles(0.046, None, 0.050, (feeler, dial))]
    [('dial', 5)]
    """
    finite("value", value)
    if most_repeats < 1:
        raise refuse("most_repeats", "{n} is too small.", "Give 1 or more.", n=most_repeats)
    found = []
    for each in candidates:
        for name in ("u_bias", "u_reading", "u_part"):
            at_least(f"{each.label} {name}", getattr(each, name))
        for n in range(1, most_repeats + 1):
            said = decide(value, each.u(n), lower, upper, risk=risk)
            if said.proven != "neither":
                sure = said.probability if said.proven == "inside" else 1.0 - said.probability
                found.append(Settlement(label=each.label, repeats=n, u=each.u(n), probability=sure))
                break
    return tuple(sorted(found, key=lambda way: (way.repeats, way.u)))


def needed_u(value: float, lower: float | None, upper: float | None, risk: float = 0.05) -> float:
    """The largest standard uncertainty with which the value would be proven one way or the other; 0 right on a limit.

    Notes
    -----
    Bisection on `decide`, whose answer never turns from *neither* to proven as u grows. One limit: |T - y|/z.
    Source: JCGM 106:2012 8.3.2 solved for u.

    Examples
    --------
    >>> round(needed_u(0.046, None, 0.050), 6)
    0.002432
    """
    sides = [abs(value - side) for side in (lower, upper) if side is not None]
    if not sides:
        raise refuse("lower, upper", "No limit is given.", "Give lower, upper or both.")
    low, high = 0.0, 10.0 * max(sides) / max(risk, 1e-3) + 1e-300
    if decide(value, high, lower, upper, risk=risk).proven != "neither":
        return high
    for _ in range(200):
        middle = 0.5 * (low + high)
        if decide(value, middle, lower, upper, risk=risk).proven == "neither":
            high = middle
        else:
            low = middle
    return low
