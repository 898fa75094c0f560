"""A zero that moved reopens its series: what a gauge read since its zero last held is read again. Derived, never stored."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from gudgeon.job.entries import Entry, ZeroChecked
from gudgeon.job.freshness import Key, Observed, Position, Touch
from gudgeon.problem import Refused
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.shelf.zero import drifted


class Zeros:
    """The series of each gauge: a check that holds begins a new one, a drifted one touches all that was read in it."""

    def __init__(self, touched: dict[Key, list[Touch]]) -> None:
        self._touched = touched
        self._series: dict[str, int] = {}
        self._off: dict[str, Touch] = {}

    def read(self, observed: Observed, gauge: str) -> Observed:
        """What a reading observed, and with it the zero of its gauge in this series."""
        off = self._off.get(gauge)
        if off is None:
            key = (f"gauge {gauge}", f"zero {self._series.get(gauge, 0)}")
        else:
            key = (f"gauge {gauge}", f"drifted {observed.position}")
            self._touched[key] = [replace(off, position=(*observed.position, 1))]
        return replace(observed, keys=(*observed.keys, key), features=(*observed.features, f"zero of {gauge}"))

    def checked(
        self, position: Position, entry: Entry, fact: ZeroChecked, cards: Mapping[str, Mapping[str, str]]
    ) -> ZeroChecked:
        """A check by the card that the job pinned; `holds` of the answer is what follows from it."""
        if fact.holds and not _drifted(fact, cards):
            self._series[fact.gauge] = entry.seq
            self._off.pop(fact.gauge, None)
            return fact
        did = f"zero of {fact.gauge} drifted, {fact.text} {fact.unit}".rstrip() + ": set it and read again"
        touch = Touch(position=position, seq=entry.seq, bench=entry.typed.bench, how="zero drifted", did=did)
        key = (f"gauge {fact.gauge}", f"zero {self._series.get(fact.gauge, 0)}")
        self._touched.setdefault(key, []).append(touch)
        self._off[fact.gauge] = touch
        return replace(fact, holds=False)


def _drifted(fact: ZeroChecked, cards: Mapping[str, Mapping[str, str]]) -> bool:
    """What cannot be read is taken as the hand said it."""
    try:
        return fact.gauge in cards and drifted(GaugeCard.from_pinned(cards[fact.gauge]), fact.text, fact.unit)
    except Refused:
        return False
