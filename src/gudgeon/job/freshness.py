"""Freshness, from its definition: what a piece of evidence observed against what was done, and who had seen it.

Evidence is stale where a live later entry touched a key it observed, where another bench's entry that its maker had not
seen did, or where a slot no longer holds the part that was observed. All reasons are kept, and nothing is stored.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import islice, takewhile
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from gudgeon.job.joints import FIXED_JOINTS
from gudgeon.problem import Said, said

#: A feature after its slot was resolved to the part assigned there: (part id or "@place", name).
Key = tuple[str, str]
#: Where an entry stands in the order in which things happened: ``(seq, 1)``, and ``(seq, 0, late seq, 1)`` for one that
#: was remembered late and names the entry it came before.
Position = tuple[int, ...]
How = Literal["disturbed", "opened", "exchanged", "fitted", "order not known", "zero drifted"]


class Touch(Struct, frozen=True, kw_only=True):
    """One entry's effect on one key."""

    position: Position
    seq: int
    bench: str
    how: How
    did: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why a reading no longer counts: the entry, the feature it touched, how, and the words for it."""

    entry: int
    feature: str
    how: How
    words: Said
    surface: bool


class Observed(Struct, frozen=True, kw_only=True):
    """What a piece of evidence saw: by whom and when, which keys, and which part each slot held (empty: it travels)."""

    position: Position
    bench: str
    seen: int
    keys: tuple[Key, ...]
    features: tuple[str, ...]
    slots: tuple[tuple[str, str], ...]
    travels: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Timeline:
    """Everything that was touched, in the order in which it happened, and which part each slot holds at the end."""

    touched: Mapping[Key, list[Touch]]
    held: Mapping[str, str]

    def fresh(self, what: Observed) -> bool:
        """Whether evidence still counts: two look-ups a key, however long the job."""
        known: Position = (what.seen, 2)
        touched = self.touched
        for key in what.keys:
            touches = touched.get(key)
            if touches and touches[-1].position > what.position:
                return False
            if touches and touches[-1].position > known and _unseen(what, touches):
                return False
        for slot, part in what.slots:
            if not what.travels and self.held.get(slot) != part:
                return False
            exchanges = touched.get(("slot", slot))
            if exchanges and _unseen(what, exchanges):
                return False
        return True

    def reasons(self, what: Observed) -> tuple[Reason, ...]:
        """Every reason why this evidence no longer counts, oldest first, one for each entry and feature."""
        found: dict[tuple[int, str], Reason] = {}
        for key, feature in zip(what.keys, what.features, strict=True):
            touches = self.touched.get(key, [])
            for touch in (*_after(what, touches), *_unseen(what, touches)):
                found.setdefault((touch.seq, feature), _reason(touch, feature, surface=not key[0].startswith("@")))
        for slot, part in what.slots:
            exchanges = self.touched.get(("slot", slot), [])
            for touch in _unseen(what, exchanges):
                found.setdefault((touch.seq, slot), _reason(touch, slot, surface=True))
            if not what.travels and self.held.get(slot) != part and exchanges:
                found.setdefault((exchanges[-1].seq, slot), _exchanged(exchanges[-1], slot))
        return tuple(sorted(found.values(), key=lambda r: (r.entry, r.feature)))


def _after(what: Observed, touches: list[Touch]) -> list[Touch]:
    """The touches that happened after the evidence was taken."""
    return touches[bisect_right(touches, what.position, key=lambda t: t.position) :]


def _unseen(what: Observed, touches: list[Touch]) -> list[Touch]:
    """Another bench's touches before the evidence that its maker had not seen: their order is not known."""
    known: Position = (what.seen, 2)
    first = bisect_right(touches, known, key=lambda t: t.position)
    before = takewhile(lambda t: t.position < what.position, islice(touches, first, None))
    return [replace(t, how="order not known") for t in before if t.bench != what.bench]


def _reason(touch: Touch, feature: str, *, surface: bool) -> Reason:
    if touch.how == "order not known":
        words = said("{did} on another bench: order not known, read again", did=touch.did)
    else:
        words = said("{did}", did=touch.did)
    return Reason(entry=touch.seq, feature=feature, how=touch.how, words=words, surface=surface)


def _exchanged(touch: Touch, slot: str) -> Reason:
    kind = slot.split("/")[-1]
    words = said("{part} exchanged", part=kind)
    return Reason(entry=touch.seq, feature=slot, how="exchanged", words=words, surface=True)


def may_predict(found: Iterable[Reason]) -> bool:
    """Whether every surface is as it was: joints may have been opened and the shim exchanged, nothing else."""
    for reason in found:
        if reason.how == "order not known":
            return False
        if reason.surface and not (reason.how == "exchanged" and reason.feature.endswith("/shim")):
            return False
        if not reason.surface and any(reason.feature.endswith(f" {name}") for name in FIXED_JOINTS):
            return False
    return True
