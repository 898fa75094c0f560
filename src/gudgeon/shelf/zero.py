"""A gauge on its zero or its setting master, before and after a series: what has moved, and how much is too much."""

from __future__ import annotations

from gudgeon import units
from gudgeon.problem import refuse
from gudgeon.shelf.gauges import GaugeCard

#: The kinds that have a zero to lose; leaves, pins, edges and scales are what they are.
WITH_ZERO = frozenset(
    {
        "micrometer",
        "small-hole gauge",
        "bore gauge",
        "caliper",
        "depth micrometer",
        "dial indicator",
        "lever dial",
        "dial grid",
        "clay and caliper",
        "spring tester",
        "compression gauge",
        "leak tester",
    }
)
#: The rule in words (common practice, no source).
RULE = "a zero off by more than the gauge's permissible error (or its certificate) has drifted"


def zero_words(card: GaugeCard) -> str:
    """What the gauge is held on: its master, the setting standard at the low end of its range, or its closed zero."""
    if card.master is not None:
        return f"{card.master}, set in {card.set_with}" if card.set_with else f"its master {card.master}"
    if _standard(card) > 0.0:
        return f"its setting standard {card.low}"
    return "its zero"


def drift_of(card: GaugeCard, text: str, unit: str, where: str = "") -> float:
    """How far it stands off, in the inside unit. ``0`` and ``+2`` are deviations; ``25.002`` on a 25 standard is 0.002."""
    where = where or f"zero of {card.name}"
    if card.kind not in WITH_ZERO:
        raise refuse(where, "A {kind} has no zero to lose.", "Read with it as it is.", kind=card.kind)
    shown = units.read(text, card.dimension, unit=unit or card.unit, where=where).value
    standard = card.master.value if card.master is not None else _standard(card)
    whole = standard > 0.0 and shown > standard / 2.0
    return shown - standard if whole else shown


def drift_limit(card: GaugeCard) -> float:
    """How far a zero may move, in the inside unit: what the budget allows the gauge anyway (common practice, no source).

    Its permissible error, or U of its certificate; one step where its error is only a share of what it shows.
    """
    for size in (card.certificate_u, card.permissible_error, card.resolution):
        if size is not None:
            return size.value
    return 0.0


def drifted(card: GaugeCard, text: str, unit: str) -> bool:
    """Whether the zero moved too far; half of the last digit that doubles keep is forgiven."""
    return abs(drift_of(card, text, unit)) > drift_limit(card) * (1.0 + 1e-9)


def _standard(card: GaugeCard) -> float:
    """A micrometer of 25 to 50 has no zero, it has a 25 standard; other kinds begin anywhere."""
    return card.low.value if card.kind == "micrometer" and card.low is not None else 0.0
