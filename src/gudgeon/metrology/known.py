"""A value with labelled contributions, so that a gauge that measured two parts is one cause of doubt and not two.

Source: GUM (JCGM 100:2008) 5.1.2 and 5.2, as said at `Known`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from gudgeon.metrology.given import finite, freedom
from gudgeon.metrology.student import coverage
from gudgeon.problem import refuse

Parts = tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """A value, and how well it is known.

    Parameters
    ----------
    value : float
    parts : tuple of (label, signed standard contribution)
        In the unit of `value`. Equal labels are one cause: they are added with their signs when the object is made.
    nu : tuple of (label, degrees of freedom)
        A label that is absent counts as exactly known.

    Notes
    -----
    u = √Σ cᵢ², over the contributions after equal labels are merged; different labels are independent.
    Source: GUM (JCGM 100:2008) 5.1.2 and 5.2, with every correlation carried by a common cause (F.1.2.3).

    Examples
    --------
    >>> guide = Known(value=5.012, parts=(("dial gauge 3", 0.002), ("guide reading", 0.001)))
    >>> stem = Known(value=4.970, parts=(("dial gauge 3", 0.002), ("stem reading", 0.001)))
    >>> gap = guide.plus(stem, -1.0)
    >>> round(gap.value, 3), round(gap.u, 6)
    (0.042, 0.001414)
    """

    value: float
    parts: Parts = ()
    nu: Parts = ()

    def __post_init__(self) -> None:
        finite("value", self.value)
        object.__setattr__(self, "parts", _merged(self.parts))
        if self.nu:
            object.__setattr__(self, "nu", _freedoms(self.nu))

    @property
    def u(self) -> float:
        """Standard uncertainty, in the unit of the value."""
        return math.hypot(*(part for _, part in self.parts))

    @property
    def effective_nu(self) -> float:
        """Effective degrees of freedom, infinite if every part is exactly known.

        Notes
        -----
        ν_eff = u⁴/Σ(cᵢ⁴/νᵢ). Source: GUM (JCGM 100:2008) G.4.1, Welch–Satterthwaite.
        """
        given = dict(self.nu)
        u = self.u
        if u == 0.0:
            return math.inf
        total = sum((part / u) ** 4 / given[label] for label, part in self.parts if label in given)
        return 1.0 / total if total > 0.0 else math.inf

    def expanded(self, p: float = 0.95) -> float:
        """Half-width of the interval that holds the value with probability `p`; source: GUM (JCGM 100:2008) 6.2.1, G.4.1."""
        return coverage(self.effective_nu, p) * self.u

    def plus(self, other: Known, factor: float = 1.0) -> Known:
        """This value plus `factor` times another one; what they share cancels or adds, as the signs say."""
        scaled = other.times(factor)
        return Known(value=self.value + scaled.value, parts=self.parts + scaled.parts, nu=self.nu + scaled.nu)

    def times(self, factor: float) -> Known:
        """This value times an exactly known number."""
        finite("factor", factor)
        parts = tuple((label, part * factor) for label, part in self.parts)
        return Known(value=self.value * factor, parts=parts, nu=self.nu)

    def shifted(self, value: float) -> Known:
        """The same doubt about another value, as when a known correction is applied."""
        return Known(value=value, parts=self.parts, nu=self.nu)

    def with_part(self, label: str, part: float, nu: float = math.inf) -> Known:
        """One more contribution on top of those that are there."""
        more = ((label, nu),) if nu != math.inf else ()
        return Known(value=self.value, parts=(*self.parts, (label, part)), nu=self.nu + more)


def known(value: float, label: str = "", u: float = 0.0, nu: float = math.inf) -> Known:
    """A value with one contribution, or an exact one if `u` is left out.

    Examples
    --------
    >>> known(4.97, "micrometer", 0.002).u
    0.002
    """
    return Known(value=value).with_part(label, u, nu) if u else Known(value=value)


def mean_of(values: tuple[Known, ...]) -> Known:
    """The mean of several values; what they share does not average away.

    Examples
    --------
    >>> pair = tuple(Known(value=v, parts=(("bias", 3.0), (f"reading {n}", 4.0))) for n, v in enumerate((10.0, 11.0)))
    >>> mean_of(pair).value, round(mean_of(pair).u ** 2, 9)
    (10.5, 17.0)
    """
    if not values:
        raise refuse("values", "There is nothing to average.", "Give one value or more.")
    parts = tuple(part for each in values for part in each.parts)
    nu = tuple(pair for each in values for pair in each.nu)
    return Known(value=math.fsum(each.value for each in values), parts=parts, nu=nu).times(1.0 / len(values))


def _merged(parts: Parts) -> Parts:
    total: dict[str, float] = {}
    for label, part in parts:
        total[label] = total.get(label, 0.0) + finite(label or "parts", part)
    return tuple((label, part) for label, part in total.items() if part != 0.0)


def _freedoms(pairs: Parts) -> Parts:
    found: dict[str, float] = {}
    for label, nu in pairs:
        found[label] = min(freedom(label or "nu", nu), found.get(label, math.inf))
    return tuple((label, nu) for label, nu in found.items() if nu != math.inf)
