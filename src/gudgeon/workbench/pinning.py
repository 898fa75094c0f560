"""Gauge cards and rules that a job goes by: readable, and never a gauge that reads otherwise under the name of one that was used."""

from __future__ import annotations

from collections.abc import Mapping

from gudgeon.job.entries import GaugePinned, RulesPinned, ZeroChecked
from gudgeon.plans.shape import Given
from gudgeon.problem import refuse
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.shelf.rules import Rules
from gudgeon.shelf.zero import drift_of


def check_pin(body: GaugePinned | RulesPinned | ZeroChecked, given: Given, card: GaugeCard | None) -> None:
    """Refuse a pin that cannot be read, and a zero that says nothing. `card` is that of a zero's gauge."""
    match body:
        case RulesPinned():
            Rules.from_pinned(body.rules)
        case GaugePinned():
            new = GaugeCard.from_pinned(body.card)
            if new.id != body.gauge:
                raise refuse(f"gauge {body.gauge}", "The card is that of another gauge.", "Pin its own card.")
            if body.gauge in given.state.gauges and not _same_gauge(new, given.state.gauges[body.gauge]):
                raise refuse(f"gauge {body.gauge}", "This job has read with another card of it.",
                             "Give the changed gauge an id of its own.")  # fmt: skip
        case ZeroChecked():
            if card is None:
                raise refuse("zero", "The shelf has no gauge {gauge}.", "Put it on the shelf first.", gauge=body.gauge)
            drift_of(card, body.text, body.unit)


def _same_gauge(new: GaugeCard, pinned: Mapping[str, str]) -> bool:
    """Whether the same text means the same size by both cards; how well it is known may have been found out since."""
    old = GaugeCard.from_pinned(pinned)
    return all(getattr(new, name) == getattr(old, name) for name in ("kind", "unit", "deviation", "direction")) and (
        new.master == old.master
    )
