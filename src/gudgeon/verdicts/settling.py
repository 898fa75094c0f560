"""What on this shelf would settle a value that is too close to call, and with how many readings."""

from __future__ import annotations

from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.metrology.settle import Candidate, what_settles
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.shelf.parse import Shelf
from gudgeon.verdicts.decide import Limits
from gudgeon.verdicts.gather import Gathered
from gudgeon.verdicts.shape import Settles

#: More readings than this at one place nobody takes (common practice, no source).
MOST_READINGS = 4


def settling(
    gathered: tuple[Gathered, ...], measurands: tuple[str, ...], value: float, limits: Limits, shelf: Shelf, risk: float
) -> tuple[Settles, ...]:
    """Gauges that would settle it if the value stayed, best first. For a fit each part is tried on its own."""
    found: list[Settles] = []
    for n, measurand in enumerate(measurands):
        own = gathered[n].known
        rest = sum(g.known.u**2 for m, g in enumerate(gathered) if m != n and g.known) ** 0.5
        if own is None:
            continue
        kinds = MEASURANDS[measurand].gauges
        cards = [
            card for kind in kinds for card in shelf.of_kind(kind) if card.covers(own.value) and card.kind != "eye"
        ]
        candidates = [_candidate(card, own.value, rest) for card in cards]
        names = {card.id: card.name for card in cards}
        for way in what_settles(value, limits.low, limits.high, candidates, risk=risk, most_repeats=MOST_READINGS):
            found.append(Settles(gauge=way.label, name=names[way.label], readings=way.repeats))
    return tuple(dict.fromkeys(found))


def _candidate(card: GaugeCard, value: float, rest: float) -> Candidate:
    return Candidate(label=card.id, u_bias=card.shared_u(value), u_reading=card.reading_u(value), u_part=rest)
