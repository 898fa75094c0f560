"""The one thing to do next, so that a bench left for a week can be taken up again at a glance."""

from __future__ import annotations

from gudgeon.anatomy import Joint
from gudgeon.job.joints import CLOSABLE, OPENED_BY_TESTS
from gudgeon.job.state import JobState
from gudgeon.measurands.own import measurands
from gudgeon.workbench.asks import AskView
from gudgeon.workbench.view import HoldView, NextView, PlanView

#: The owner's word, then what is bought with it.
MONEY = ("estimate", "order")
#: No price and no order before this hold (common practice: a good top end on a bad bottom end is money burnt).
BEFORE_MONEY = "H5"


def next_step(
    state: JobState,
    asks: tuple[AskView, ...],
    holds: tuple[HoldView, ...],
    plans: tuple[PlanView, ...],
) -> NextView:
    """What is dangerous, what nobody may go on with, what can be read; then plans, holds, money and orders in their turn.

    A hold that is ready stands before money and orders: it is one signature, and what it hides gets no better by waiting.
    Money is asked for when the places are read, and nothing is bought before it: no authority, no order.
    """
    if state.stopped:
        return NextView(do="nothing", address="", words="stopped: goes back in parts, DO NOT START")
    if state.closed:
        return NextView(do="nothing", address="", words="closed")
    return (
        _dropped(state, holds)
        or _stopped(plans)
        or _wait(state, asks)
        or _measure(asks)
        or _decide(plans, tuple(p.key for p in plans if p.key not in MONEY))
        or _sign(tuple(h for h in holds if not h.needs))
        or (_decide(plans, MONEY) if _priced(holds) else None)
        or _sign(holds)
        or NextView(do="paper", address="hand_over", words=_hand_over(state))
    )


def _dropped(state: JobState, holds: tuple[HoldView, ...]) -> NextView | None:
    """Something lies in the engine: nothing comes before finding it."""
    return _sign(tuple(h for h in holds if h.hold == "H0b")) if state.dropped_in else None


def _stopped(plans: tuple[PlanView, ...]) -> NextView | None:
    """Over the owner's word, or after it was taken back, work stops for a new one."""
    plan = next((p for p in plans if p.key == "estimate" and p.state == "waits"), None)
    return NextView(do="decide", address=plan.key, words=f"{plan.name}: {plan.reasons[0]}") if plan else None


def _priced(holds: tuple[HoldView, ...]) -> bool:
    """Whether money is the question now: where a bottom end is looked at first, after that."""
    return all(h.state in ("passed", "signed against") for h in holds if h.hold == BEFORE_MONEY)


def _hand_over(state: JobState) -> str:
    given_out = any(fact.paper == "hand_over" for _, fact in state.papers)
    return "handed over" if given_out else "write the hand-over record"


def _wait(state: JobState, asks: tuple[AskView, ...]) -> NextView | None:
    """Nothing can be read as the engine lies there, and an order is out."""
    out = _orders_out(state)
    if not out or not asks or any(_possible(state, ask) for ask in asks):
        return None
    return NextView(do="wait", address="order", words=f"wait for order {', '.join(out)}")


def _orders_out(state: JobState) -> tuple[str, ...]:
    came = {fact.order for _, fact in state.arrived}
    back = {done.detail.get("order", "") for done in state.did("came_back")}
    return tuple(o.order for _, o in state.orders if o.order not in (came if o.kind == "parts" else back))


def _possible(state: JobState, ask: AskView) -> bool:
    """Whether every joint that this looks across is closed, and the engine together where it must be turned."""
    kind, opened = measurands(state.anatomy)[ask.measurand], state.open_joints
    if "turned" in kind.needs and any(joint.split(" ")[-1] in ("head", "base", "holder") for joint in opened):
        return False
    return not any(
        isinstance(f, Joint) and f.name in CLOSABLE - OPENED_BY_TESTS and str(f) in opened
        for f in kind.observes(state.anatomy, ask.place)
    )


def _measure(asks: tuple[AskView, ...]) -> NextView | None:
    if not asks:
        return None
    first = asks[0]
    same = sum(1 for a in asks if a.measurand == first.measurand)
    words = f"{first.name}, {first.place_words}" if same == 1 else f"{first.name}, {same} left"
    return NextView(do="measure", address=f"{first.measurand}@{first.place}", words=words)


def _decide(plans: tuple[PlanView, ...], keys: tuple[str, ...]) -> NextView | None:
    for plan in (p for key in keys for p in plans if p.key == key):
        if plan.state in ("ready", "impossible") and plan.lines:
            return NextView(do="decide", address=plan.key, words=f"{plan.name}: {plan.state}")
    return None


def _sign(holds: tuple[HoldView, ...]) -> NextView | None:
    for hold in holds:
        if hold.state in ("open", "undone"):
            return NextView(do="hold", address=hold.hold, words=f"{hold.hold} {hold.name}")
    return None
