"""The one thing to do next, so that a bench left for a week can be taken up again at a glance."""

from __future__ import annotations

from gudgeon.job.state import JobState
from gudgeon.workbench.view import CharacteristicView, HoldView, NextView, PlanView

#: What is read only when the engine is together again, or before it is opened.
PROOF = ("lash", "timing_marks", "oil_at_cams", "leak_down", "compression", "seal_test", "contact")


def next_step(
    state: JobState,
    characteristics: tuple[CharacteristicView, ...],
    holds: tuple[HoldView, ...],
    plans: tuple[PlanView, ...],
) -> NextView:
    """Settle what is too close, then measure, then act on plans, then sign what is open, then hand over."""
    if state.closed:
        return NextView(do="nothing", address="", words="closed")
    asked = [c for c in characteristics if c.asked]
    opened = bool(state.open_joints)
    return (
        _settle(asked)
        or _measure([c for c in asked if opened == (c.key not in PROOF) or not state.touched_joints])
        or _decide(plans)
        or _measure(asked)
        or _sign(holds)
        or NextView(do="paper", address="hand_over", words="write the hand-over record")
    )


def _settle(asked: list[CharacteristicView]) -> NextView | None:
    for c in asked:
        if c.verdict == "too close to call" and c.settles:
            return NextView(do="measure", address=c.address, words=f"{c.name}: too close to call; {c.settles[0].name}")
    return None


def _measure(asked: list[CharacteristicView]) -> NextView | None:
    for c in asked:
        if c.verdict in ("not measured", "stale", "not comparable") and c.points.wanted:
            left = c.points.wanted - c.points.fresh
            return NextView(do="measure", address=c.address, words=f"{c.name}, {left} left")
    return None


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
