"""What on this shelf would settle a value that is too close to call, and with how many readings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot, sqrt

from gudgeon.anatomy import Anatomy
from gudgeon.characteristics.shape import Wants
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.measurands.own import measurands
from gudgeon.metrology.known import Known
from gudgeon.metrology.settle import Candidate, what_settles
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.verdicts.decide import Limits
from gudgeon.verdicts.gather import Gathered
from gudgeon.verdicts.shape import Settles
from gudgeon.verdicts.value import Value

#: More readings than this at one place nobody takes (common practice, no source).
MOST_READINGS = 4
#: A gauge with this share of the doubt is worth a reading even where the value, if it stayed, would stay open: it will not stay.
FINER = 0.5
#: Sizes that differ by less are the same leaf.
LEAST_MM = 1e-6


def settling(
    wants: Sequence[Wants],
    gathered: Sequence[Gathered],
    whole: Known,
    walls: Limits,
    cards: Sequence[GaugeCard],
    risk: float,
    anatomy: Anatomy | None = None,
) -> tuple[Settles, ...]:
    """Gauges that would settle it if the value stayed, fewest readings first, else clearly finer ones. Each part of a fit is tried."""
    found: list[Settles] = []
    known = measurands(anatomy) if anatomy else MEASURANDS
    for n, (want, part) in enumerate(zip(wants, gathered, strict=True)):
        size = max((v.sized.value for v in part.values if v.sized), default=None)
        if part.known is None or size is None:
            continue
        kinds = known[want.measurand].gauges
        able = {card.id: card for card in cards if card.kind in kinds and card.kind != "eye" and card.covers(size)}
        sign = 1.0 if n == 0 else -1.0
        rest = whole.plus(part.known, -sign)
        spread = want.statistic.startswith("spread")
        tried = [_candidate(card, size, rest, sign, spread=spread) for card in able.values()]
        ways = what_settles(whole.value, walls.low, walls.high, tried, risk=risk, most_repeats=MOST_READINGS)
        for way in ways:
            more = max(1, way.repeats - _taken(way.label, part, spread=spread))
            found.append(Settles(gauge=way.label, name=able[way.label].name, readings=more))
        finer = [] if ways else [c for c in tried if c.u(1) <= FINER * whole.u]
        found += [
            Settles(gauge=c.label, name=able[c.label].name, readings=1) for c in sorted(finer, key=lambda c: c.u(1))
        ]
    return tuple(sorted(dict.fromkeys(found), key=lambda s: s.readings))


def _candidate(card: GaugeCard, size: float, rest: Known, sign: float, *, spread: bool) -> Candidate:
    """What is left in doubt with this gauge; what it got wrong on the other part of a fit cancels, and in a spread."""
    own, others = f"gauge {card.id}", dict(rest.parts)
    shared = others.pop(own, 0.0) + (0.0 if spread else sign * card.shared_u(size))
    reading = card.reading_u(size) * (sqrt(2.0) if spread else 1.0)
    return Candidate(label=card.id, u_bias=abs(shared), u_reading=reading, u_part=hypot(*others.values()))


def _taken(gauge: str, part: Gathered, *, spread: bool) -> int:
    """How often this gauge has read the place that decides already."""
    decides = {label for label, _ in part.known.parts} if part.known else set()
    count = sum(1 for v in part.values if v.gauge == gauge and f"entry {v.seq}" in decides)
    return count // 2 if spread else count


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """A leaf of a feeler set that nobody tried, and what it settles."""

    size_mm: float
    gauge: Settles


def leaf_between(values: Sequence[Value], walls: Limits, cards: Sequence[GaugeCard]) -> Leaf | None:
    """The leaf nearest a wall that lies between the one that goes and the one that does not, where one was passed over.

    A pair one leaf apart is all that a feeler can say; over a wider pair with a wall inside nobody has asked the feeler yet.
    """
    pairs = [v for v in values if v.pair is not None]
    card = next((c for v in pairs for c in cards if c.id == v.gauge and c.resolution is not None), None)
    if card is None or card.resolution is None or len(pairs) < len(values):
        return None
    step = card.resolution.value
    goes, stops = max(v.pair[0] for v in pairs if v.pair), min(v.pair[1] for v in pairs if v.pair)
    leaves = [goes + n * step for n in range(1, round((stops - goes) / step))]
    inside = [w for w in (walls.low, walls.high) if w is not None and goes + LEAST_MM < w < stops - LEAST_MM]
    if not leaves or not inside:
        return None
    size = min(leaves, key=lambda leaf: abs(leaf - inside[0]))
    return Leaf(size_mm=size, gauge=Settles(gauge=card.id, name=card.name, readings=1))
