"""The one thing to do next, so that a bench left for a week can be taken up again at a glance."""

from __future__ import annotations

from gudgeon.anatomy import Joint
from gudgeon.job.joints import CLOSABLE, OPENED_BY_TESTS
from gudgeon.job.state import JobState
from gudgeon.measurands.own import measurands
from gudgeon.workbench.asks import AskView
from gudgeon.workbench.view import HoldView, NextView, PlanView


def next_step(
    state: JobState,
    asks: tuple[AskView, ...],
    holds: tuple[HoldView, ...],
    plans: tuple[PlanView, ...],
) -> NextView:
    """Measure what can be, wait for what is on its way, then act on plans, then sign what is open, then hand over."""
    if state.closed:
        return NextView(do="nothing", address="", words="closed")
    return (
        _wait(state, asks)
        or _measure(asks)
        or _decide(plans)
        or _sign(holds)
        or NextView(do="paper", address="hand_over", words=_hand_over(state))
    )


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
