"""The zero of a gauge before and after its series: what is asked at the bench, and what a drifted one sends back."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from gudgeon.job.entries import ZeroChecked
from gudgeon.job.state import JobState
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.shelf.zero import RULE, WITH_ZERO, drift_limit, zero_words
from gudgeon.units import INSIDE
from gudgeon.workbench.bench import Hand, Workbench

When = Literal["before", "after", ""]


class ZeroView(Struct, frozen=True, kw_only=True):
    """A gauge's zero in a job. `wanted`: *before* anything is read with it, *after* what was read since, or nothing.

    `on` says what it is held on, `limit` how far it may be off in `unit`, `rule` why; `again` are the entries that a
    drifted zero sent back to be read again, `since` those read since the last check.
    """

    gauge: str
    name: str
    unit: str
    on: str
    wanted: When
    limit: float
    limit_words: str
    rule: str
    last: str
    last_entry: int
    holds: bool | None
    since: tuple[int, ...]
    again: tuple[int, ...]


def zero_wanted(bench: Workbench, number: str, gauge: str) -> ZeroView | None:
    """Whether the zero of a gauge is to be checked now; nothing for gauges that have no zero, and those not there."""
    state = bench.worked(number).given.state
    card = bench.card(gauge, state)
    if card is None or card.kind not in WITH_ZERO:
        return None
    return zero_of(state, card, bench.clock.now()[:10])


def zero_checked(bench: Workbench, number: str, gauge: str, text: str, hand: Hand, unit: str = "") -> ZeroView | None:
    """Land what the gauge showed on its zero or master; the card says whether that holds."""
    card = bench.card(gauge, bench.worked(number).given.state)
    shown = unit or (card.unit if card else "")
    bench.record(number, (ZeroChecked(gauge=gauge, text=text.strip(), unit=shown, holds=True),), hand)
    return zero_wanted(bench, number, gauge)


def zero_rule(bench: Workbench, gauge: str) -> tuple[str, str]:
    """What a gauge of the shelf is held on, and how far it may be off; empty where it has no zero."""
    card = bench.shelf().gauge(gauge)
    if card is None or card.kind not in WITH_ZERO:
        return "", ""
    return zero_words(card), f"{RULE}: over {drift_limit(card):.6g} {INSIDE.get(card.dimension, '')}"


def zeros_of(bench: Workbench, number: str) -> tuple[ZeroView, ...]:
    """The zeros of all gauges that this job has used."""
    found = (zero_wanted(bench, number, gauge) for gauge in bench.worked(number).given.state.gauges)
    return tuple(zero for zero in found if zero is not None)


def zero_of(state: JobState, card: GaugeCard, today: str) -> ZeroView:
    """A gauge's zero as the entries say it."""
    checks = [(seq, fact) for seq, fact in state.zeros if fact.gauge == card.id]
    last, fact = checks[-1] if checks else (0, None)
    taken = [t for t in state.readings if t.fact.gauge == card.id]
    since = tuple(t.entry.seq for t in taken if t.entry.seq > last)
    inside = INSIDE.get(card.dimension, "")
    limit = drift_limit(card)
    return ZeroView(
        gauge=card.id,
        name=card.name,
        unit=card.unit,
        on=zero_words(card),
        wanted=_wanted(state, last, fact, since, today),
        limit=limit,
        limit_words=f"{limit:.6g} {inside}",
        rule=RULE,
        last="" if fact is None else f"{fact.text} {fact.unit}, {'holds' if fact.holds else 'drifted'}",
        last_entry=last,
        holds=None if fact is None else fact.holds,
        since=since,
        again=tuple(t.entry.seq for t in taken if t.misread),
    )


def _wanted(state: JobState, last: int, fact: ZeroChecked | None, since: tuple[int, ...], today: str) -> When:
    """Before the first reading, where it drifted, and on another day; after, once something was read."""
    if since and (fact is None or fact.holds):
        return "after"
    days = {e.seq: e.typed.typed_at[:10] for e in state.entries}
    return "" if fact is not None and fact.holds and days.get(last) == today else "before"
