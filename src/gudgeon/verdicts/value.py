"""What one reading says: a value with its labelled doubt, a bound, or a word."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot, sqrt

from gudgeon import units
from gudgeon.job.entries import GoNoGo
from gudgeon.job.state import Taken
from gudgeon.measurands.shape import Measurand
from gudgeon.metrology.known import Known
from gudgeon.problem import Refused
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.units import Indication, Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """One reading as a value (`known`), as bounds (`above`, `below`), as a word, or as "no gap"."""

    seq: int
    gauge: str
    kind: str
    known: Known | None = None
    above: float | None = None
    below: float | None = None
    word: str = ""
    no_gap: bool = False

    @property
    def u(self) -> float:
        """Its standard uncertainty; a bound or a word has none."""
        return self.known.u if self.known else 0.0

    @property
    def sized(self) -> Known | None:
        """The value with its doubt; none where it is open on one side, a word, or "no gap"."""
        return self.known if self.above is None else None


class Interpreter:
    """Reads what was typed by the card of the gauge that was pinned; keeps each card parsed."""

    def __init__(self, cards: Mapping[str, Mapping[str, str]]) -> None:
        self._pinned, self._cards = cards, dict[str, GaugeCard]()
        self._values: dict[int, Value | None] = {}

    def card(self, gauge: str) -> GaugeCard:
        """The pinned card of a gauge."""
        if gauge not in self._cards:
            self._cards[gauge] = GaugeCard.from_pinned(self._pinned.get(gauge, {"id": gauge}))
        return self._cards[gauge]

    def value(self, taken: Taken, kind: Measurand) -> Value | None:
        """A reading in the inside unit; nothing where it cannot be read, which replay has said already."""
        seq = taken.entry.seq
        if seq not in self._values:
            try:
                self._values[seq] = self.read(taken, kind)
            except Refused:
                self._values[seq] = None
        return self._values[seq]

    def read(self, taken: Taken, kind: Measurand) -> Value:
        """A reading in the inside unit, or why it cannot be read."""
        fact, seq = taken.fact, taken.entry.seq
        card = self.card(fact.gauge)
        if isinstance(fact, GoNoGo):
            size = units.read(fact.size, kind.dimension, unit=fact.unit, where=f"entry {seq}").value
            above, below = (size, None) if fact.enters else (None, size)
            return Value(seq=seq, gauge=fact.gauge, kind=card.kind, above=above, below=below)
        if kind.dimension == "words":
            return Value(seq=seq, gauge=fact.gauge, kind=card.kind, word=fact.text.strip().lower())
        indication = indicated(fact.text, kind, card, fact.unit, where=f"entry {seq}")
        if indication.no_gap:
            thinnest = card.low.value if card.low is not None else None
            return Value(seq=seq, gauge=fact.gauge, kind=card.kind, no_gap=True, below=thinnest)
        known, above = _known(indication, card, seq)
        return Value(seq=seq, gauge=fact.gauge, kind=card.kind, known=known, above=above)


def indicated(text: str, kind: Measurand, card: GaugeCard, unit: str, *, where: str) -> Indication:
    """What was typed, a deviation from the setting master turned into a size."""
    if card.deviation and card.master is not None and is_deviation(text, kind, card.master, unit, where):
        size = units.read_deviation(text, master=card.master, unit=unit, direction=card.direction, where=where)
        return Indication(text=text, low=size, high=size)
    return units.read_indication(text, kind.dimension, unit=unit, where=where)


def is_deviation(text: str, kind: Measurand, master: Quantity, unit: str, where: str) -> bool:
    """Signed, or far smaller than what the dial was set on; a whole size typed on such a gauge is taken as it is."""
    if text.strip()[:1] in ("+", "-", "−", "±"):
        return True
    return abs(units.read(text, kind.dimension, unit=unit, where=where).value) < master.value / 2.0


def _known(indication: Indication, card: GaugeCard, seq: int) -> tuple[Known, float | None]:
    """The middle of what is possible, with the gauge's common part and this reading's own; and an open upper side."""
    low, high = indication.low, indication.high
    label = f"entry {seq}"
    if low is not None and high is not None:
        if low.exact == high.exact:
            return _plain(low, card, label), None
        return _between(low.value, high.value, card, label), None
    if high is not None:
        return _between(0.0, high.value, card, label), None
    assert low is not None
    return _plain(low, card, label), low.value


def _plain(size: Quantity, card: GaugeCard, label: str) -> Known:
    value = size.value
    written = size.step if size.exact else 0.0  # a plain 0 does not say how finely it was read: the gauge does
    step = max(written, card.resolution.value if card.resolution else 0.0)
    own = hypot(step / sqrt(12.0), card.repeat_u)
    return Known(value=value, parts=((f"gauge {card.id}", card.shared_u(value)), (label, own)))


def _between(low: float, high: float, card: GaugeCard, label: str) -> Known:
    middle = (low + high) / 2.0
    own = hypot((high - low) / sqrt(12.0), card.repeat_u)
    return Known(value=middle, parts=((f"gauge {card.id}", card.shared_u(middle)), (label, own)))
