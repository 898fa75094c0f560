"""A bill above the owner's word ends in a quarrel: what the job will cost by today's plans, and the yes to it."""

from __future__ import annotations

from gudgeon.papers.blocks import Block, CheckItem, Checklist, Heading, KeyValues, Para, Signature, Table
from gudgeon.papers.common import DASH, day, engine, listed, title
from gudgeon.view.job import PlanView
from gudgeon.view.record import JobRecord

KEY = "estimate"
NAME = "Estimate"
FOR = "for the owner"


def blocks(view: JobRecord) -> tuple[Block, ...]:
    """What is to be done, what it costs, what the sum leaves out, and the yes."""
    plan, currency = view.plan("estimate"), view.record.rules.get("currency", "")
    facts = [("engine", engine(view)), ("asked for", view.job.complaint or view.job.scope_name)]
    why = plan.reasons if plan else ("no plan says what it costs yet",)
    if plan and not _priced(plan):
        why = tuple(reason for reason in why if "0.00" not in reason)
    ceiling = " ".join(w for w in ("Ceiling: ____________", currency) if w)
    return (
        title(view, NAME, FOR),
        KeyValues(tuple(facts)),
        Heading("To be done"),
        Para(listed(_to_do(view))),
        Heading("What it costs"),
        _sums(plan, currency),
        *((Para(listed(why), "context"),) if why else ()),
        *_parts(view),
        Heading("Approval"),
        *_given(view),
        Checklist(tuple(CheckItem(text=w) for w in ("go on as written", "only up to the ceiling named below", "stop, and close it"))),
        Signature(("owner, or who answers for the machine",), f"{ceiling}. What is found beyond it is told first."),
    )  # fmt: skip


def _sums(plan: PlanView | None, currency: str) -> Block:
    """The sum; before anything is apart, what it comes to at least and at most."""
    if plan is None or not _priced(plan):
        return Para("No sum yet: nothing with a price is known.")
    lines = plan.lines
    ranged = any("most" in line.numbers for line in lines)
    rows = [
        (str(line.numbers.get("of") or ""), line.what, _amount(line.numbers.get("amount")))
        + ((_amount(line.numbers.get("most")),) if ranged else ())
        for line in lines
    ]
    money = f", {currency}" if currency else ""
    if ranged:
        return Table(
            head=("of", "how", f"at least{money}", f"at most{money}"), rows=tuple(rows), widths=(1, 3, 1, 1),
            align=("left", "left", "right", "right"),
        )  # fmt: skip
    head = ("of", "how", currency or "amount")
    return Table(
        head=head,
        rows=tuple(rows),
        widths=(1, 3, 1),
        align=("left", "left", "right"),
        empty="no sum yet: nothing with a price is known",
    )


def _priced(plan: PlanView) -> bool:
    """Whether anything has a price at all: a sum of nothing would read as a promise to ask for nothing."""
    return any(line.numbers.get(key) for line in plan.lines for key in ("amount", "most"))


def _to_do(view: JobRecord) -> tuple[str, ...]:
    decided = [f"{d.where}: {d.what} ({d.reason})" for d in view.record.decisions if d.what in ("renew", "machine")]
    planned = view.plan("dispositions")
    lines = [line.what for line in planned.lines if line.numbers.get("what") in ("renew", "machine")] if planned else []
    return tuple(decided) or tuple(lines) or ("nothing is decided yet",)


def _amount(size: float | str | bool | None) -> str:
    return f"{size:.2f}" if isinstance(size, float) else DASH


def _parts(view: JobRecord) -> tuple[Block, ...]:
    order = view.plan("order")
    if order is None or not order.buys:
        return ()
    rows = tuple(
        (b.name, b.number, str(b.count), _amount(b.price * b.count if b.price is not None else None))
        for b in order.buys
    )
    head = ("part", "number", "count", "sum")
    return (
        Heading("Parts in this sum", 2),
        Table(head=head, rows=rows, widths=(3, 1.5, 0.8, 1), align=("left", "left", "right", "right"), dense=True),
    )


def _given(view: JobRecord) -> tuple[Block, ...]:
    if not view.record.approvals:
        return (Para("Nothing is approved yet."),)
    said = (f"{day(a.at)}: {a.amount} {a.currency}, said by {a.by}" for a in view.record.approvals)
    over = view.record.rules.get("overrun", "")
    return (Para(listed(said)), Para(f"More than {over} above it needs a new yes." if over else "", "context"))
