"""The owner may want to see what was taken out: old parts go back against a signature, or are kept or scrapped on their word."""

from __future__ import annotations

from gudgeon.papers.blocks import Block, CheckItem, Checklist, Heading, KeyValues, Para, Signature, Table
from gudgeon.papers.common import DASH, engine, title
from gudgeon.view.record import JobRecord

KEY = "old_parts"
NAME = "Old parts"
FOR = "for the owner"


def blocks(view: JobRecord) -> tuple[Block, ...]:
    """Every part that came out for good, and what becomes of it."""
    rows = tuple(
        (p.where, p.number or DASH, " · ".join(w for w in (p.mark, p.thickness) if w), p.reason, "")
        for p in view.record.left
    )
    head = ("part", "number", "mark", "why it came out", "back")
    return (
        title(view, NAME, FOR),
        KeyValues((("engine", engine(view)), ("machine", view.job.machine or DASH))),
        Heading("Taken out and not fitted again"),
        Table(head=head, rows=rows, widths=(2.4, 1.3, 1.1, 4.2, 0.7), empty="no part"),
        Checklist(tuple(CheckItem(text=w) for w in (
            "given back to the owner", "kept by the workshop, on the owner's word", "scrapped, on the owner's word"))),
        Para("Hollow exhaust valves may hold sodium: never cut, drill or crush. Springs and seats may hold beryllium: no dust.", "context"),
        Signature(("given out by", "received by")),
    )  # fmt: skip
