"""A tag on the ignition: somebody who does not know what is open turns the key, and the engine is scrap in a second."""

from __future__ import annotations

from gudgeon.papers.blocks import Block, Caution, Heading, KeyValues, Notice, Para, Signature
from gudgeon.papers.common import engine, grouped_by, listed, title
from gudgeon.view.record import JobRecord

KEY = "do_not_start"
NAME = "DO NOT START tag"
FOR = "on the ignition"

MOST = 24


def blocks(view: JobRecord) -> tuple[Block, ...]:
    """The words, what is open, and who may take it off."""
    still = _open(view)
    said: tuple[Block, ...] = (
        (
            Para(
                "Nothing is open by the record. The tag comes off by the one who fitted it, before the first start.",
                "strong",
            ),
        )
        if not still and not view.job.stopped
        else (
            Para("The job was stopped and the engine goes back in parts: the tag stays on.", "strong"),
            Heading("Open"),
            Para(listed(still or ["the job itself"])),
        )
        if view.job.stopped
        else (Heading("Open"), Para(listed(still)))
    )
    facts = [("engine", engine(view)), ("machine", view.job.machine), ("job", view.job.number)]
    return (
        title(view, NAME, FOR),
        Notice("DO NOT START"),
        KeyValues(tuple((k, v) for k, v in facts if v)),
        *said,
        Caution("Battery off, key out and kept, fuel shut. Turn by hand only after the one named below says so."),
        Signature(("fitted by", "taken off by, the same hand")),
    )


def _open(view: JobRecord) -> list[str]:
    holds = [f"not signed: {h.name}" for h in view.holds if h.state in ("open", "undone")]
    missing = grouped_by(
        (f"{verdict}: {what}", where)
        for name, _, verdict in (line.rpartition(": ") for line in view.open if ": " in line)
        for what, _, where in (name.partition(", "),)
    )
    out = [p.name for p in view.parts if p.out]
    found = [*holds, *((f"out of the engine: {', '.join(out)}",) if out else ()), *missing]
    return found if len(found) <= MOST else [*found[: MOST - 1], f"and {len(found) - MOST + 1} more"]
