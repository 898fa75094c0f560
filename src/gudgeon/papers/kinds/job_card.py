"""Work begins with a yes: what the owner says is wrong, how far it may be stripped, and up to which price."""

from __future__ import annotations

from gudgeon.papers.blocks import Block, Caution, CheckItem, Checklist, Fields, Heading, KeyValues, Para, Signature
from gudgeon.papers.common import day, engine, title
from gudgeon.view.record import JobRecord

KEY = "job_card"
NAME = "Job card"
FOR = "for owner and bench"

ASKED = (
    "engine number read off the engine and held against the book",
    "what was done before, and by whom",
    "noise, smoke, oil and coolant use: when, how much",
    "fuel on board drained or shut, keys kept, battery off",
    "photographs of what is damaged outside",
    "old parts wanted back",
)
INTAKE = (
    "Engine cool, battery off, key out, fuel shut, machine secured. Cap off only when cold; coolant is poisonous and sweet to "
    "animals: catch it."
)


def blocks(view: JobRecord) -> tuple[Block, ...]:
    """What came in, what is asked for, and the leave to begin."""
    job = view.job
    hours = f"{job.hours:g} h" if job.hours is not None else ""
    facts = (
        ("engine", engine(view)),
        ("machine", ", ".join(w for w in (job.machine, hours) if w)),
        ("complaint", job.complaint),
        ("asked for", job.scope_name),
        ("opened", day(job.opened_at)),
        ("altitude", job.altitude),
    )
    return (
        title(view, NAME, FOR),
        KeyValues(tuple((name, words) for name, words in facts if words)),
        Heading("Asked at the counter"),
        Checklist(tuple(CheckItem(text=words) for words in ASKED)),
        Fields(labels=("remarks", "")),
        Caution(INTAKE),
        Heading("Leave to strip, and its ceiling"),
        *_leave(view),
        Para("An engine that was stripped costs work even when it is not repaired. Above the ceiling nothing is ordered or "
             "machined before a new yes.", "context"),
        Signature(("owner, or who answers for the machine", "taken in by"),
                  "I ask for the work named above and give leave to strip the engine as far as it needs."),
    )  # fmt: skip


def _leave(view: JobRecord) -> tuple[Block, ...]:
    if not view.record.approvals:
        return (Fields(labels=("price ceiling", "to be told at", "leave to strip: yes / no", "wanted by"), columns=2),)
    given = tuple((day(a.at), f"{a.amount} {a.currency}, said by {a.by}") for a in view.record.approvals)
    return (KeyValues(given),)
