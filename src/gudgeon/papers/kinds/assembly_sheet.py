"""Assembly goes wrong where a step hides the one before: the holds in order, what each hides, and the tightening drawings."""

from __future__ import annotations

from gudgeon.figures.tightening import TighteningSpec, in_order, tightening
from gudgeon.papers.blocks import (
    COMES_FIRST,
    Block,
    Caution,
    CheckItem,
    Checklist,
    Columns,
    Fields,
    Figure,
    Heading,
    Para,
    Table,
    Together,
)
from gudgeon.papers.common import DASH, FIRST_START, grouped_by, title
from gudgeon.papers.evidence import fastener_words
from gudgeon.view.job import HoldView
from gudgeon.view.record import FastenerView, JobRecord

KEY = "assembly_sheet"
NAME = "Assembly sheet"
FOR = "for the bench"

#: The work that leads to a hold, whose cautions stand there.
LEADS_TO = {
    "H1": ("leak_down", "compression"),
    "H2": ("release_tensioner", "remove_tensioner", "open_cam_holder"),
    "H3": ("open_keepers",),
    "H4": ("clean", "wash", "decarbonise"),
    "H6": ("fit_guide", "cut_seat", "lap_valve"),
    "H7a": ("file_ring_gap", "hone", "deglaze"),
    "H8": ("seal_test", "seat_keepers", "tap_keepers"),
    "H9a": ("tighten_cam_holder", "release_tensioner"),
    "H9b": ("tighten_base", "tighten_head", "tighten_cam_holder"),
    "H11": ("turn_forwards",),
    "H11b": ("apply_locker",),
    "H12a": ("oil_at_cams",),
    "H12": ("leak_down", "fill_fluids"),
    "H12b": ("heat_cycle", "retighten_head"),
}
LARGE_MM = 66.0


def blocks(view: JobRecord) -> tuple[Block, ...]:
    """Holds with room to sign, then the joints."""
    found: list[Block] = [
        title(view, NAME, FOR),
        Para(
            "A hold is signed when what it asks was seen. What goes on over an unsigned hold is taken apart again.",
            "strong",
        ),
    ]
    found.append(Heading("Holds"))
    found += [_hold(view, h) for h in view.holds if h.state != "not needed"]
    if not view.holds:
        found.append(Para("This job has no hold."))
    return (*found, Heading("Joints"), *_joints(view))


def _hold(view: JobRecord, hold: HoldView) -> Block:
    signed = hold.state in ("passed", "signed against")
    items = tuple(CheckItem(text=text, done=signed) for text in hold.asks)
    needs = grouped_by((_need(view, address) for address in hold.needs), 4)
    state = f"{hold.state}, entry {hold.entry}" if hold.entry else "open"
    against = f": {hold.override}" if hold.override else ""
    return Together((
        Heading(f"{hold.hold} · {hold.name}", 2),
        Para(f"Otherwise hidden: {hold.hides}.", "context"),
        *_caution(view, hold.hold),
        *((Checklist(items),) if items else ()),
        *((Para("Still wanted: " + "; ".join(needs), "strong"),) if needs else ()),
        *((Para(f"{state}{against}", "context"),) if signed else (Fields(labels=("signed", "date"), columns=2),)),
    ))  # fmt: skip


def _caution(view: JobRecord, hold: str) -> tuple[Block, ...]:
    """What can hurt on the way to a hold, by the name of the work."""
    works = LEADS_TO.get(hold, ())
    words = [f"{c.name[:1].upper()}{c.name[1:]}: {c.words.removesuffix(COMES_FIRST).strip()}"
             for c in view.record.cautions if c.at in works]  # fmt: skip
    words += [FIRST_START] if hold == "H12" else []
    return (Caution(" ".join(words)),) if words else ()


def _need(view: JobRecord, address: str) -> tuple[str, str]:
    """An address of evidence in words; anything else is words already."""
    known = view.at(address)
    what, _, where = (known.name if known else address.replace("_", " ").replace("@", ", ")).partition(", ")
    return what, where


def _joints(view: JobRecord) -> tuple[Block, ...]:
    rows = view.record.fasteners
    if not rows:
        return (Para("The book names no fastener: torque comes from the maker's manual."),)
    drawn = [f for f in rows if f.positions_mm and len(f.positions_mm) == len(f.order)]
    figures: list[Block] = []
    for i in range(0, len(drawn), 2):
        pair = tuple((Heading(f.name, 2), _drawing(f)) for f in drawn[i : i + 2])
        figures.append(Together((Columns(pair if len(pair) == 2 else (*pair, ())),)))
    cells = tuple((f.name, fastener_words(f).partition(": ")[2] or DASH, f.page, "", "") for f in rows)
    head = ("fastener", "book", "page", "wrench", "final, signed")
    return (*figures, Table(head=head, rows=cells, widths=(1.8, 4, 0.7, 1.1, 1.4)))


def _drawing(f: FastenerView) -> Figure:
    ordered = in_order(f.positions_mm, f.order)
    spec = TighteningSpec(title=f.name, fasteners=ordered, stages=f.stages, state=f.thread_state)
    return Figure(svg=tightening(spec), alt=f"{f.name}, order {', '.join(map(str, f.order))}", width_mm=LARGE_MM)
