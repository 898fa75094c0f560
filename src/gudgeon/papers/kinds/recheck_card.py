"""A lash that settles is found by the owner, on the hill, unless somebody looks in time: the first hours, and when to come back."""

from __future__ import annotations

from gudgeon.papers import owner
from gudgeon.papers.blocks import (
    Block,
    Caution,
    CheckItem,
    Checklist,
    Fields,
    Heading,
    KeyValues,
    Para,
    Signature,
    Table,
)
from gudgeon.papers.common import DASH, FIRST_START, engine, listed, number, shim_words, split, title, value
from gudgeon.routes.holds import FIRST_LOOKS_H
from gudgeon.view.record import JobRecord

KEY = "recheck_card"
NAME = "Recheck card"
FOR = "for the rider"

LOOKS = (
    "lash, cold",
    "oil and filter: look for metal",
    "coolant level, hoses, leaks",
    "noise, smoke, hard starting: come at once",
)


def blocks(view: JobRecord) -> tuple[Block, ...]:
    """How to run it in, when to come back, and what is then looked at."""
    rows = tuple(
        (split(c)[1], value(c), f"{number(c.low, 2)} – {number(c.high, 2)} {c.unit}", shim_words(view, c.place), "", "")
        for c in owner.lash_rows(view)
    )
    looks = tuple(
        f"{view.job.hours + h:g} h" if view.job.hours is not None else f"after {h:g} h" for h in FIRST_LOOKS_H
    )
    again = [f"{f.name} ({f.retighten})" for f in view.record.fasteners if f.retighten != "never"]
    retighten = f"retighten, cold: {', '.join(again)}" if again else "no retightening: the book asks for none"
    return (
        title(view, NAME, FOR),
        KeyValues(
            (("engine", engine(view)), ("machine", view.job.machine or DASH), ("recheck due", " and ".join(looks)))
        ),
        Caution(f"{FIRST_START} Cool fully, overnight, before it is opened."),
        Heading("Running in"),
        Para(listed(owner.next_due(view))),
        Heading("At the recheck"),
        Checklist(tuple(CheckItem(text=text) for text in (*LOOKS, retighten))),
        Heading("Lash as set"),
        Table(
            head=("valve", "set", "window", "shim", looks[0], looks[1]),
            rows=rows,
            widths=(1.8, 1.9, 1.7, 1.7, 1, 1),
            dense=True,
        ),
        Fields(labels=("hours at the recheck", "date", "looked at by"), columns=3),
        Signature(("told to, and agreed by",), "The recheck above was told and agreed."),
    )
