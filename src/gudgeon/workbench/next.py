"""The one thing to do next, so that a bench left for a week can be taken up again at a glance."""

from __future__ import annotations

from gudgeon.job.state import JobState
from gudgeon.workbench.asks import AskView
from gudgeon.workbench.view import HoldView, NextView, PlanView


def next_step(
    state: JobState,
    asks: tuple[AskView, ...],
    holds: tuple[HoldView, ...],
    plans: tuple[PlanView, ...],
) -> NextView:
    """Measure what is wanted, then act on plans, then sign what is open, then hand over."""
    if state.closed:
        return NextView(do="nothing", address="", words="closed")
    return (
        _measure(asks)
        or _decide(plans)
        or _sign(holds)
        or NextView(do="paper", address="hand_over", words="write the hand-over record")
    )


def _measure(asks: tuple[AskView, ...]) -> NextView | None:
    if not asks:
        return None
    first = asks[0]
    same = sum(1 for a in asks if a.measurand == first.measurand)
    words = f"{first.name}, {first.place_words}" if same == 1 else f"{first.name}, {same} left"
    return NextView(do="measure", address=f"{first.measurand}@{first.place}", words=words)


def _decide(plans: tuple[PlanView, ...]) -> NextView | None:
    for plan in plans:
        if plan.state in ("ready", "impossible") and plan.lines:
            return NextView(do="decide", address=plan.key, words=f"{plan.name}: {plan.state}")
    return None


def _sign(holds: tuple[HoldView, ...]) -> NextView | None:
    for hold in holds:
        if hold.state in ("open", "undone"):
            return NextView(do="hold", address=hold.hold, words=f"{hold.hold} {hold.name}")
    return None
