"""Which new parts bring a failed fit back: both may pass alone, so every combination is tried over its whole new range."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import chain, combinations

from gudgeon.characteristics.own import characteristics
from gudgeon.metrology.student import t_inverse
from gudgeon.plans.prices import price_of
from gudgeon.plans.remedies import subjects
from gudgeon.plans.shape import Given
from gudgeon.verdicts.shape import Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedied:
    """A combination of new parts for a fit: the clearance it gives over their whole range, and whether it holds."""

    slots: tuple[str, ...]
    low: float
    high: float
    holds: bool
    price: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Side:
    """One of the two sizes of a fit: as measured with its doubt, and as a new part may be."""

    slot: str
    value: float
    u: float
    new: tuple[float, float] | None


def ways(given: Given, verdict: Verdict) -> tuple[Remedied, ...]:
    """Every combination of new parts for a fit of two sizes, the best first; nothing for any other characteristic."""
    sides = _sides(given, verdict)
    if len(sides) != 2:
        return ()
    able = [s.slot for s in sides if s.new is not None]
    sets = chain.from_iterable(combinations(able, n) for n in range(1, len(able) + 1))
    return tuple(sorted((_way(given, verdict, sides, chosen) for chosen in sets), key=_rank))


def holding(given: Given, verdict: Verdict) -> dict[tuple[str, ...], bool]:
    """For every combination of new parts of a fit whether it holds over their whole range."""
    return {way.slots: way.holds for way in ways(given, verdict)}


def _sides(given: Given, verdict: Verdict) -> tuple[_Side, ...]:
    kind = characteristics(given.state.anatomy)[verdict.key]
    found = []
    for want, slot in zip(kind.wants, subjects(verdict, given.state.anatomy), strict=True):
        there = want.at(given.state.anatomy, verdict.place)
        single = given.judged.at(want.measurand, there)
        if not slot or single is None or single.value is None or single.u is None:
            return ()
        new = (single.new_low, single.new_high)
        whole = (new[0], new[1]) if new[0] is not None and new[1] is not None else None
        found.append(_Side(slot=slot, value=single.value, u=single.u, new=whole))
    return tuple(found)


def _way(given: Given, verdict: Verdict, sides: tuple[_Side, ...], chosen: tuple[str, ...]) -> Remedied:
    reach = t_inverse(1.0 - given.rules.risk) if given.rules.wear == "guarded" else 0.0
    outer, inner = (_span(side, side.slot in chosen) for side in sides)
    low, high = outer[0] - inner[1], outer[1] - inner[0]
    guard = reach * sum(side.u**2 for side in sides if side.slot not in chosen) ** 0.5
    every = len(chosen) == len(sides)
    least = verdict.new_low if every else (verdict.row.least if verdict.row else None)
    most = verdict.new_high if every else (verdict.row.most if verdict.row else None)
    holds = (least is None or low - guard >= least - 1e-9) and (most is None or high + guard <= most + 1e-9)
    prices = [price_of(given, parts[0].number) if (parts := given.book.parts_in(s)) else None for s in chosen]
    price = sum(p for p in prices if p is not None) if all(p is not None for p in prices) else None
    return Remedied(slots=chosen, low=low, high=high, holds=holds, price=price)


def _span(side: _Side, renewed: bool) -> tuple[float, float]:
    return side.new if renewed and side.new is not None else (side.value, side.value)


def _rank(way: Remedied) -> tuple[bool, bool, float]:
    """Those that hold first, then those without a price last, then the cheapest."""
    return not way.holds, way.price is None, way.price if way.price is not None else len(way.slots)
