"""How likely lashes land in their windows: each alone, and all of them at once with the gauges they share."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from math import hypot, prod

from gudgeon.metrology.conformity import conformance_probability
from gudgeon.metrology.known import Known
from gudgeon.plans.lashes import Window

#: Five-point Gauss–Hermite rule for a normal variable: nodes and weights.
#: Source: Abramowitz & Stegun, Handbook of Mathematical Functions, table 25.10, scaled by √2 and 1/√π.
_NODES = (
    (0.0, 0.533333333333333),
    (1.355626179974266, 0.222075922005613),
    (-1.355626179974266, 0.222075922005613),
    (2.856970013872806, 0.011257411327721),
    (-2.856970013872806, 0.011257411327721),
)
#: More shared causes than this are taken as one's own: the sum over nodes grows fivefold with each.
_MOST_SHARED = 3


def lands(lash: Known, window: Window) -> float:
    """The probability that one lash lies in its window."""
    return conformance_probability(lash.value, lash.u, window.low_mm, window.high_mm)


def all_land(lashes: Sequence[tuple[Known, Window]]) -> float:
    """The probability that every lash lies in its window: a feeler that is off is off for all of them."""
    shared = _shared([known for known, _window in lashes])
    split = [_split(known, shared, window) for known, window in lashes]
    total = 0.0
    for drawn in product(_NODES, repeat=len(shared)):
        weight = prod(node[1] for node in drawn)
        for value, rest, common, window in split:
            moved = value + sum(part * node[0] for part, node in zip(common, drawn, strict=True))
            weight *= conformance_probability(moved, rest, window.low_mm, window.high_mm)
        total += weight
    return min(total, *(lands(known, window) for known, window in lashes), 1.0)


def _shared(knowns: Sequence[Known]) -> tuple[str, ...]:
    """The causes of doubt that several lashes have in common, the largest first."""
    sizes: dict[str, list[float]] = {}
    for known in knowns:
        for label, part in known.parts:
            sizes.setdefault(label, []).append(abs(part))
    common = sorted((label for label, parts in sizes.items() if len(parts) > 1), key=lambda n: -sum(sizes[n]))
    return tuple(common[:_MOST_SHARED])


def _split(known: Known, shared: tuple[str, ...], window: Window) -> tuple[float, float, tuple[float, ...], Window]:
    """A lash as its value, the doubt that is its own, and its share in each common cause."""
    parts = dict(known.parts)
    rest = hypot(*(part for label, part in known.parts if label not in shared))
    return known.value, rest, tuple(parts.get(label, 0.0) for label in shared), window
