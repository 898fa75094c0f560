"""A job that was given up says so before anything else, with what is loose: or the next one looks for a part that lies in a box."""

from __future__ import annotations

from gudgeon.papers.blocks import Block, Caution, Heading, Para, Table
from gudgeon.view.record import JobRecord


def stopped(view: JobRecord) -> tuple[Block, ...]:
    """That it was stopped and why, what is open, and every loose part with where it lies; nothing for other jobs."""
    if not view.job.stopped:
        return ()
    rows = tuple((part.what, part.lies, part.note) for part in view.record.loose)
    return (
        Para(f"Stopped: the engine goes back in parts. Why: {view.job.stopped}", "strong"),
        Caution("DO NOT START: the tag stays on. The maker's manual, local codes and licensed practice come first."),
        Heading("Loose parts, and where they are", 2),
        Table(head=("part", "where", "noted"), rows=rows, widths=(2.4, 2, 3), dense=True, empty="nothing is loose"),
    )
