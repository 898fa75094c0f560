"""An inspector or the next technician asks how every word is known: each value with its gauge, its doubt, its formula and source."""

from __future__ import annotations

from gudgeon.figures.wear import wear
from gudgeon.papers import evidence
from gudgeon.papers.blocks import Block, Figure, Heading, KeyValues, Para, Table, Together
from gudgeon.papers.common import DASH, bounds, day, engine, moment, number, spans, split, title, value
from gudgeon.papers.photos import photos
from gudgeon.papers.proving import proof
from gudgeon.view.job import CharacteristicView
from gudgeon.view.record import JobRecord

KEY = "technical_record"
NAME = "Technical record"
FOR = "for the file"

NOT_WORK = ("reading", "go_no_go", "paper_issued", "earlier_pinned", "gauge_pinned", "zero_checked", "retraction")


def blocks(view: JobRecord) -> tuple[Block, ...]:
    """Everything that the ledger holds, in the order in which it is asked for."""
    return (
        title(view, NAME, FOR),
        _head(view),
        *_judged(view),
        *_formulas(view),
        *proof(view, 1),
        Heading("Readings"),
        evidence.readings(view.record.readings, whole=True) if view.record.readings else Para("No reading was taken."),
        Heading("Gauges"),
        evidence.gauges(view.record.cards, (c.id for c in view.record.cards)),
        *_wear(view),
        *_work(view),
        *photos(view, 1),
        Heading("Torque"),
        *evidence.torque(view),
        *_holds(view),
        *_decided(view),
        *_retracted(view),
        *_rules(view),
        *evidence.ledger(view),
    )


def _wear(view: JobRecord) -> tuple[Block, ...]:
    """What wears, over the hours of the jobs before: the line says when to look, never that a reading is wrong."""
    if not view.record.wear:
        return ()
    figures = (
        Together((Figure(svg=wear(w.drawn), alt=f"{w.name} against hours, due by {w.due:g} h: {w.words}", width_mm=130,
                         caption=f"{w.name}: measure again by {w.due:g} h; {w.words}"),))
        for w in view.record.wear
    )  # fmt: skip
    return (Heading("Wear over hours"), *figures)


def _head(view: JobRecord) -> KeyValues:
    job = view.job
    pairs = (
        ("engine", engine(view)),
        ("machine", job.machine),
        ("hours", f"{job.hours:g} h" if job.hours is not None else ""),
        ("complaint", job.complaint),
        ("scope", job.scope_name),
        ("altitude", job.altitude),
        ("opened", day(job.opened_at)),
        ("stopped", f"goes back in parts: {job.stopped}" if job.stopped else ""),
        ("in doubt", "\n".join(f"{p.where}: {p.what}" for p in view.problems)),
    )
    return KeyValues(tuple((name, words) for name, words in pairs if words))


def _judged(view: JobRecord) -> tuple[Block, ...]:
    seen = evidence.looked_at(view)
    if not seen:
        return (Heading("Judged"), Para("Nothing was judged."))
    rows = tuple(_row(c) for c in seen)
    head = ("what, where", "value", "limits (page)", "verdict", "where the doubt comes from", "entries")
    return (
        Heading("Judged"),
        Para("Values with twice their standard uncertainty; contributions as standard uncertainties in the value's unit; "
             "the chance is that of conforming.", "context"),
        Table(head=head, rows=rows, widths=(2.2, 2.3, 2.9, 2.5, 2.8, 1.2), dense=True),
        *_missing(view),
    )  # fmt: skip


def _row(c: CharacteristicView) -> tuple[str, ...]:
    known = "; ".join(
        f"{line.source.removeprefix('gauge ')} {number(line.u, c.places + 2)}" for line in c.budget
    ) or ", ".join(c.gauges)
    chance = f", chance {c.probability:.3f}" if c.probability is not None else ""
    notes = "".join(f"\n{note}" for note in (*c.notes, *dict.fromkeys(r.words for r in c.reasons)))
    limits = bounds(c) + (f" ({c.page})" if c.page else "")
    points = f", {c.points.fresh} of {c.points.wanted} points" if c.points.wanted > 1 else ""
    return c.name, value(c), limits, f"{c.verdict}{chance}{points}{notes}", known or DASH, spans(c.rests_on)


def _missing(view: JobRecord) -> tuple[Block, ...]:
    unread = [c for c in view.characteristics if c.asked and c.verdict == "not measured"]
    told = {"Not measured: ": [c.name for c in unread if not c.spared],
            "Not measured, spared by sample: ": [f"{c.name} ({c.notes[-1]})" for c in unread if c.spared]}  # fmt: skip
    return tuple(Para(words + "; ".join(names), "context") for words, names in told.items() if names)


def _formulas(view: JobRecord) -> tuple[Block, ...]:
    kinds = {c.key: (split(c)[0], c.formula, c.source) for c in evidence.looked_at(view)}
    if not kinds:
        return ()
    head = ("what", "formula", "source")
    return (Heading("Formulas"), Table(head=head, rows=tuple(kinds.values()), widths=(1.6, 4, 2.6), dense=True))


def _work(view: JobRecord) -> tuple[Block, ...]:
    rows = tuple(
        (str(e.seq), moment(e.at), e.by, e.where, e.words, "retracted" if e.retracted else "")
        for e in view.entries
        if e.fact not in NOT_WORK
    )
    head = ("entry", "when", "by", "where", "what", "")
    return (Heading("Work, parts, findings, notes, decisions"),
            Table(head=head, rows=rows, widths=(0.7, 1.6, 0.8, 1.8, 4.6, 0.9), dense=True))  # fmt: skip


def _holds(view: JobRecord) -> tuple[Block, ...]:
    rows = tuple(
        (
            f"{h.hold} {h.name}",
            h.state,
            str(h.entry or DASH),
            "\n".join((*((h.override,) if h.override else ()), *h.words)),
        )
        for h in view.holds
    )
    head = ("hold", "stands", "entry", "signed against, or undone by")
    return (Heading("Holds"), Table(head=head, rows=rows, widths=(2.4, 1.2, 0.7, 4), dense=True, empty="none"))


def _decided(view: JobRecord) -> tuple[Block, ...]:
    rows = tuple((str(d.seq), d.where, d.what, d.reason) for d in view.record.decisions)
    head = ("entry", "part", "what becomes of it", "why")
    return (Heading("Parts: what became of them"),
            Table(head=head, rows=rows, widths=(0.7, 2, 1.3, 4.4), dense=True, empty="nothing was decided"))  # fmt: skip


def _retracted(view: JobRecord) -> tuple[Block, ...]:
    rows = tuple(
        (str(r.seq), str(r.of), r.words, r.reason + ("" if r.stands else " (taken back itself)"))
        for r in view.record.retractions
    )
    head = ("entry", "took back", "what it said", "why")
    return (Heading("Retractions"), Table(head=head, rows=rows, widths=(0.7, 0.9, 3.4, 3.4), dense=True, empty="none"))


def _rules(view: JobRecord) -> tuple[Block, ...]:
    rows = tuple((name.replace("_", " "), words) for name, words in view.record.rules.items() if words)
    return (
        Heading("Rules of the workshop, as pinned"),
        Table(head=("rule", "as set"), rows=rows, widths=(2, 4), dense=True),
    )
