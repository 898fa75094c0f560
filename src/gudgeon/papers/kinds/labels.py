"""A shim whose place is lost has lost its reading: every tray, bag and box says what lies in it, for eye and camera."""

from __future__ import annotations

from gudgeon.papers.blocks import Block, Figure, Para, Table
from gudgeon.papers.common import shim_words, thickness, title, with_unit
from gudgeon.papers.labels import Label
from gudgeon.papers.marking import code_svg
from gudgeon.view.record import JobRecord, LeftPartView

KEY = "labels"
NAME = "Labels"
FOR = "for trays, bags and boxes"


def labels(view: JobRecord) -> tuple[Label, ...]:
    """A label for each valve's tray, each cylinder's and cam's box, and each part that came out for good."""
    single = len({p.slot.split(".")[0] for p in view.parts if p.kind == "barrel"}) <= 1
    places = dict.fromkeys(p.slot.split("/")[0] for p in view.parts)
    found = [_place(view, place, single) for place in places]
    found += [_left(view, part) for part in view.record.left]
    return tuple(found)


def _place(view: JobRecord, place: str, single: bool) -> Label:
    words = next(_without_kind(p.name, p.kind) for p in view.parts if p.slot.split("/")[0] == place)
    shim = shim_words(view, place) if any(p.slot == f"{place}/shim" for p in view.parts) else ""
    lines = (words or place, f"{view.job.number} · no. {view.job.engine_number}", *((f"shim {shim}",) if shim else ()))
    return Label(lines=_short(lines), code=_code(view, place))


def _without_kind(name: str, kind: str) -> str:
    return name.removesuffix(kind).strip() or name


def _left(view: JobRecord, part: LeftPartView) -> Label:
    """A part that came out for good; a shim goes into its box as it was measured, not as it is marked."""
    place = _without_kind(part.where, part.kind)
    read = thickness(view, part.part) if part.kind == "shim" else None
    size = with_unit(read.text, read.unit) if read else part.thickness
    what = " ".join(w for w in (part.kind if place != part.kind else "", size or part.number) if w)
    lines = (f"OLD {place}", *((what,) if what else ()), f"{view.job.number} · no. {view.job.engine_number}")
    return Label(lines=_short(lines), code=_code(view, part.part))


def _short(lines: tuple[str, ...]) -> tuple[str, ...]:
    """What fits a small label and stays readable."""
    return tuple(" ".join(line.split())[:34] for line in lines)


def _code(view: JobRecord, what: str) -> str:
    return code_svg(f"GUDGEON:{view.job.number}:{what}", f"code of {what}")


def blocks(view: JobRecord) -> tuple[Block, ...]:
    """The same labels as a list: what the screen shows, and what is kept of them."""
    rows = tuple(
        (Figure(svg=one.code, alt=one.lines[0], width_mm=14), one.lines[0], ", ".join(one.lines[1:]))
        for one in labels(view)
    )
    return (
        title(view, NAME, FOR),
        Para("Printed on label sheets, the same words stand alone on their labels.", "context"),
        Table(head=("code", "label", "and"), rows=rows, widths=(1, 3, 4)),
    )
