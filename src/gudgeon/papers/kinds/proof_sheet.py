"""Before the first start the closed engine proves itself: lash after two turns, marks, oil, leak-down and compression."""

from __future__ import annotations

from gudgeon.papers.blocks import Block, Caution, Fields, Heading, Para, Signature, Table, Together
from gudgeon.papers.common import DASH, bounds, shim_words, split, title, value
from gudgeon.papers.proving import proof
from gudgeon.view.job import CharacteristicView
from gudgeon.view.record import BlankRow, BlankView, JobRecord

KEY = "proof_sheet"
NAME = "Proof sheet"
FOR = "for the bench"

PROOF = ("timing_marks", "oil_at_cams", "leak_down", "compression")


def blocks(view: JobRecord) -> tuple[Block, ...]:
    """Lash with what the plan expects, then the other proofs, each with its caution and room to write."""
    found: list[Block] = [
        title(view, NAME, FOR),
        Para("Cold, tensioner working, turned forwards by hand at least two turns, stopped at once by a hard stop. "
             "Read each valve where the book reads it.", "strong"),
        Fields(labels=("read by", "date", "engine temperature"), columns=3),
        *_lash(view),
    ]  # fmt: skip
    for blank in view.record.blanks:
        if blank.measurand in PROOF:
            found.append(_proof(view, blank))
    signed = Signature(("proved by",), "Every proof above was read on the closed engine and lies within its bounds.")
    return (*found[:-1], Together((found[-1], signed)), *proof(view))


def _lash(view: JobRecord) -> tuple[Block, ...]:
    rows = [c for c in view.characteristics if c.key == "lash"]
    if not rows:
        return ()
    plan = view.plan("shims")
    expected = {line.where: line for line in plan.lines} if plan else {}
    cells = []
    for c in rows:
        line = expected.get(c.place)
        size = line.numbers.get("lash_mm") if line and "u_mm" in line.numbers else None
        cells.append((split(c)[1], _window(c), shim_words(view, c.place), f"{size:.3f}" if isinstance(size, float) else DASH,
                      "", _now(c)))  # fmt: skip
    head = ("valve", "window", "shim", "expected", "read", "on record")
    return (
        Heading("Lash"),
        Table(head=head, rows=tuple(cells), widths=(1.6, 1.7, 1.5, 1, 1.1, 2.7)),
        Para("A reading that is off what was expected by more than the gauges explain is a mix-up: look for it before going on.",
             "context"),
    )  # fmt: skip


def _window(c: CharacteristicView) -> str:
    if c.low is None or c.high is None:
        return DASH
    return f"{c.low:.{c.places}f} – {c.high:.{c.places}f} {c.unit}"


def _now(c: CharacteristicView) -> str:
    return "" if c.verdict == "not measured" else f"{value(c)}, {c.verdict}"


def _proof(view: JobRecord, blank: BlankView) -> Block:
    unit = f", {blank.unit}" if blank.unit else ""
    rows = tuple(
        (
            " ".join(w for w in (r.where, point) if w),
            _book(view, blank, r),
            "",
            _recorded(view, blank, r.place),
        )
        for r in blank.rows
        for point in blank.points
    )
    return Together((
        Heading(f"{blank.name}{unit}"),
        *((Para(blank.ask),) if blank.ask else ()),
        *((Caution(blank.caution),) if blank.caution else ()),
        Table(head=("place", "book", "read", "on record"), rows=rows, widths=(2, 2.6, 1.4, 2.4)),
    ))  # fmt: skip


def _book(view: JobRecord, blank: BlankView, row: BlankRow) -> str:
    """The bounds as they are judged here, pressure at this altitude; the book's word where there is no number."""
    c = view.at(f"{blank.measurand}@{row.place}")
    return bounds(c) if c and bounds(c) != DASH else row.limit


def _recorded(view: JobRecord, blank: BlankView, place: str) -> str:
    c = view.at(f"{blank.measurand}@{place}")
    return _now(c) if c else ""
