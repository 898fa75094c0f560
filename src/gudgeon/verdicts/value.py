"""What one reading says: a value with its labelled doubt, a bound, or a word."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from math import hypot, sqrt

from gudgeon import units
from gudgeon.job.entries import GoNoGo, Reading
from gudgeon.job.state import Taken
from gudgeon.measurands.shape import Measurand
from gudgeon.metrology.known import Known
from gudgeon.metrology.temperature import REFERENCE_C, expansion, length_change
from gudgeon.problem import Refused
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.units import Indication, Quantity

ALUMINIUM_PER_K = expansion("aluminium").value


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """One reading as a value (`known`), as bounds (`above`, `below`), as a word, or as "no gap"; `pair`: what goes, what does not."""

    seq: int
    gauge: str
    kind: str
    known: Known | None = None
    above: float | None = None
    below: float | None = None
    word: str = ""
    no_gap: bool = False
    pair: tuple[float, float] | None = None

    @property
    def u(self) -> float:
        """Its standard uncertainty; a bound or a word has none."""
        return self.known.u if self.known else 0.0

    @property
    def sized(self) -> Known | None:
        """The value with its doubt; none where it is open on one side, a word, or "no gap"."""
        return self.known if self.above is None else None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shown:
    """What a gauge showed, in the inside unit: its value, the doubt all its readings share, this one's own, a bound."""

    value: float = 0.0
    shared: float = 0.0
    own: float = 0.0
    above: float | None = None
    no_gap: bool = False
    pair: tuple[float, float] | None = None


class _Eyes:
    """One gauge's card, and what was read by it: the same text means the same, so that it is worked out once."""

    def __init__(self, card: GaugeCard) -> None:
        self.card = card
        self.shown = lru_cache(maxsize=4096)(self._shown)

    def _shown(self, text: str, kind: Measurand, unit: str) -> _Shown:
        indication = indicated(text, kind, self.card, unit, where="")
        if indication.no_gap:
            return _Shown(no_gap=True)
        return _numbers(indication, self.card)


@lru_cache(maxsize=512)
def _eyes(card: tuple[tuple[str, str], ...]) -> _Eyes:
    return _Eyes(GaugeCard.from_pinned(dict(card)))


class Interpreter:
    """Reads what was typed by the card of the gauge that was pinned; a text that cannot be read is worked out once, too."""

    def __init__(self, cards: Mapping[str, Mapping[str, str]]) -> None:
        self._pinned, self._known = cards, dict[str, _Eyes]()
        self._values: dict[int, Value | Refused] = {}

    def card(self, gauge: str) -> GaugeCard:
        """The pinned card of a gauge."""
        return self._of(gauge).card

    def _of(self, gauge: str) -> _Eyes:
        if gauge not in self._known:
            self._known[gauge] = _eyes(tuple(sorted(self._pinned.get(gauge, {"id": gauge}).items())))
        return self._known[gauge]

    def value(self, taken: Taken, kind: Measurand) -> Value | None:
        """A reading in the inside unit; nothing where it cannot be read, which the contradictions say."""
        found = self._kept(taken, kind)
        return None if isinstance(found, Refused) else found

    def read(self, taken: Taken, kind: Measurand) -> Value:
        """A reading in the inside unit, or why it cannot be read."""
        found = self._kept(taken, kind)
        if isinstance(found, Refused):
            raise found
        return found

    def _kept(self, taken: Taken, kind: Measurand) -> Value | Refused:
        seq = taken.entry.seq
        if seq not in self._values:
            try:
                self._values[seq] = self._read(taken, kind)
            except Refused as refused:
                self._values[seq] = Refused(replace(p, where=f"entry {seq}") for p in refused.problems)
        return self._values[seq]

    def _read(self, taken: Taken, kind: Measurand) -> Value:
        fact, seq = taken.fact, taken.entry.seq
        eyes = self._of(fact.gauge)
        card = eyes.card
        if isinstance(fact, GoNoGo):
            size = units.read(fact.size, kind.dimension, unit=fact.unit).value
            above, below = (size, None) if fact.enters else (None, size)
            return Value(seq=seq, gauge=fact.gauge, kind=card.kind, above=above, below=below)
        if kind.dimension == "words":
            return Value(seq=seq, gauge=fact.gauge, kind=card.kind, word=fact.text.strip().lower())
        shown = eyes.shown(fact.text, kind, fact.unit)
        if shown.no_gap:
            thinnest = card.low.value if card.low is not None else None
            return Value(seq=seq, gauge=fact.gauge, kind=card.kind, no_gap=True, below=thinnest)
        parts = ((f"gauge {card.id}", shown.shared), (f"entry {seq}", shown.own), *_warmth(fact, kind, shown.value))
        return Value(seq=seq, gauge=fact.gauge, kind=card.kind, known=Known(value=shown.value, parts=parts),
                     above=shown.above, pair=shown.pair)  # fmt: skip


def _warmth(fact: Reading, kind: Measurand, size: float) -> tuple[tuple[str, float], ...]:
    """What a part away from 20 °C (ISO 1) may have grown, as doubt of all its readings: of what it is made, and whether the
    gauge was as warm, nobody wrote. Half-width: the whole growth of aluminium, the most of these materials; rectangular."""
    if "room" not in kind.needs or not fact.temperature:
        return ()
    at = units.read(fact.temperature, "temperature", unit="°C").value
    grown = length_change(size, ALUMINIUM_PER_K, REFERENCE_C, at)
    return ((f"temperature of {kind.name}", abs(grown) / sqrt(3.0)),)


def indicated(text: str, kind: Measurand, card: GaugeCard, unit: str, *, where: str) -> Indication:
    """What was typed, a deviation from the setting master turned into a size."""
    if card.deviation and card.master is not None and is_deviation(text, kind, card.master, unit, where):
        size = units.read_deviation(text, master=card.master, unit=unit, direction=card.direction, where=where)
        return Indication(text=text, low=size, high=size)
    return units.read_indication(text, kind.dimension, unit=unit, where=where, within=kind.plausible)


def is_deviation(text: str, kind: Measurand, master: Quantity, unit: str, where: str) -> bool:
    """Signed, or far smaller than what the dial was set on; a whole size typed on such a gauge is taken as it is."""
    if text.strip()[:1] in ("+", "-", "−", "±"):
        return True
    return (
        abs(units.read(text, kind.dimension, unit=unit, where=where, within=kind.plausible).value) < master.value / 2.0
    )


def _numbers(indication: Indication, card: GaugeCard) -> _Shown:
    """The middle of what is possible, with the gauge's common part and this reading's own; and an open upper side."""
    low, high = indication.low, indication.high
    if low is not None and high is not None:
        between = _between(low.value, high.value, card)
        return _plain(low, card) if low.exact == high.exact else replace(between, pair=(low.value, high.value))
    if high is not None:
        return _between(0.0, high.value, card)
    assert low is not None
    return replace(_plain(low, card), above=low.value)


def _plain(size: Quantity, card: GaugeCard) -> _Shown:
    value = size.value
    written = size.step if size.exact else 0.0  # a plain 0 does not say how finely it was read: the gauge does
    step = max(written, card.resolution.value if card.resolution else 0.0)
    return _Shown(value=value, shared=card.shared_u(value), own=hypot(step / sqrt(12.0), card.repeat_u))


def _between(low: float, high: float, card: GaugeCard) -> _Shown:
    middle = (low + high) / 2.0
    return _Shown(value=middle, shared=card.shared_u(middle), own=hypot((high - low) / sqrt(12.0), card.repeat_u))
