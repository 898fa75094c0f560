"""The owner reads one page and keeps it for years: what was found, done, renewed and not done, and who answers for it.

The evidence follows, so that whoever doubts a word can walk it back to a reading.
"""

from __future__ import annotations

from gudgeon.papers import evidence, owner
from gudgeon.papers.blocks import Block, Columns, Heading, PageBreak, Para, Signature
from gudgeon.papers.common import listed, title
from gudgeon.papers.photos import photos
from gudgeon.papers.proving import proof
from gudgeon.papers.stopped import stopped
from gudgeon.view.job import CharacteristicView
from gudgeon.view.record import JobRecord

KEY = "hand_over"
NAME = "Hand-over record"
FOR = "for the owner"

STATEMENT = (
    "The work written here was done as described and judged by the book named below; what was left undone stands above."
)


def blocks(view: JobRecord) -> tuple[Block, ...]:
    """The owner's page, then what it rests on."""
    return (title(view, NAME, FOR), *stopped(view), *_page(view), PageBreak(), *_evidence(view))


def _page(view: JobRecord) -> tuple[Block, ...]:
    left: tuple[Block, ...] = (
        Heading("Found", 2),
        _words(owner.found(view)),
        Heading("Done", 2),
        _words(owner.done(view)),
    )
    right: tuple[Block, ...] = (
        Heading("Renewed", 2),
        _words(owner.renewed(view)),
        Heading("Filled and fitted", 2),
        _words(owner.filled(view)),
    )
    lash = (Heading("Lash as set, cold, with the shim by position", 2), *owner.lash(view))
    ahead = (Heading("From here on", 2), _words(owner.next_due(view)))
    against = owner.signed_against(view)
    return (
        *(Para(words, "strong") for words in owner.unfinished(view)),
        owner.facts(view),
        Columns((left, right)),
        Heading("Not done, and advised", 2),
        _words(owner.not_done(view)),
        *((Heading("Passed against the evidence, signed", 2), _words(against)) if against else ()),
        *((Columns((lash, ahead)),) if len(owner.lash_rows(view)) <= owner.FEW else (*lash, *ahead)),
        Heading("Tightened", 2),
        Para(" · ".join(owner.tightened(view)), "dense"),
        Signature(("released by (name, certificate where one is required)", "received by the owner"), STATEMENT),
    )


def _words(lines: tuple[str, ...]) -> Para:
    return Para(listed(lines) if len(lines) > 1 else lines[0], "dense")


def _evidence(view: JobRecord) -> tuple[Block, ...]:
    seen = evidence.looked_at(view)
    large = tuple(c for c in seen if evidence.shown_large(c))
    rest = tuple(c for c in seen if not evidence.shown_large(c))
    return (
        Heading("Evidence"),
        Para("What is hatched lies past the limit; the frame is the range of a new part; the diamond is the value, and its "
             "bar what the gauge cannot tell.", "context"),
        Heading("What failed, was put right, or lies near its limit", 2),
        evidence.strips(large) if large else Para("Nothing."),
        Heading("What else was measured", 2),
        evidence.sizes(rest) if rest else Para("Nothing."),
        *_lash_figure(view),
        *proof(view),
        *photos(view),
        Heading("Torque", 2),
        *evidence.torque(view),
        *_readings(view, tuple(sorted({n for c in seen for n in _entries(c)}))),
        *evidence.ledger(view),
    )  # fmt: skip


def _entries(c: CharacteristicView) -> tuple[int, ...]:
    return (*c.rests_on, *(c.as_found.rests_on if c.as_found else ()))


def _lash_figure(view: JobRecord) -> tuple[Block, ...]:
    figure = owner.lash_figure(view)
    return (Heading("Lash, as found and as left", 2), figure) if figure else ()


def _readings(view: JobRecord, entries: tuple[int, ...]) -> tuple[Block, ...]:
    wanted = set(entries)
    found = tuple(r for r in view.record.readings if r.seq in wanted)
    if not found:
        return (Para("No reading was taken in this job."),)
    return (
        Heading("Readings this rests on", 2),
        evidence.readings(found),
        Heading("Gauges", 2),
        evidence.gauges(view.record.cards, (r.gauge for r in found)),
    )
