"""A job in plain text, for every command that shows one."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from gudgeon.workbench.view import CharacteristicView, JobView


def summary(view: JobView) -> list[str]:
    """A job on one page of plain text."""
    job, ledger = view.job, view.ledger
    lines = [
        f"{job.number}  {job.machine}  {job.book.name} no. {job.engine_number}  {job.scope}  {job.state}",
        f"book {job.book.name}, edition {job.book.edition} · ledger {ledger.head} · {ledger.digest[:12]}"
        + ("" if ledger.verified else "  DOES NOT VERIFY"),
        "",
    ]
    lines += [_line(c) for c in view.characteristics if c.asked or c.fresh is not None]
    for plan in view.plans:
        lines += ["", *plan_lines(view, plan.key)]
    lines += ["", "holds: " + (", ".join(f"{h.hold} {h.state}" for h in view.holds) or "none")]
    lines += [f"problem: {p.where}: {p.what} {p.remedy}" for p in view.problems]
    lines += [f"open: {len(view.open)}" + (f" ({view.open[0]} …)" if view.open else ""), f"next: {view.next.words}"]
    return lines


def _line(c: CharacteristicView) -> str:
    doubt = f" ± {2 * c.u:.{c.places}f}" if c.u and c.value is not None else ""
    why = f"  ({c.reasons[0].words}, entry {c.reasons[0].entry})" if c.reasons else ""
    settles = f"  settled by {c.settles[0].name}" if c.settles else ""
    return f"{c.name:<46} {c.said + doubt:>18} {c.unit:<4} {c.verdict}{why}{settles}"


def plan_lines(view: JobView, key: str) -> list[str]:
    """A plan in plain text."""
    plan = view.plan(key)
    if plan is None:
        return []
    lines = [f"{plan.name}: {plan.state}"]
    lines += [f"  {line.name + ': ' if line.name else ''}{line.what}" for line in plan.lines]
    lines += [f"  waits for {need}" for need in plan.needs]
    return lines + [f"  {reason}" for reason in plan.reasons]
