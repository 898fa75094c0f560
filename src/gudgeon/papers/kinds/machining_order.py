"""A machinist cuts from this sheet alone: what to reach, the bounds in a size he can measure, and what must not be touched."""

from __future__ import annotations

from collections.abc import Mapping

from gudgeon.figures.places import DrawingSpec
from gudgeon.figures.strip import StripSpec, limit_strip
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
    KeyValues,
    Para,
    Signature,
    Table,
    Together,
)
from gudgeon.papers.common import listed, number, part_figure, title
from gudgeon.view.job import CutView
from gudgeon.view.record import JobRecord, OrderView

KEY = "machining_order"
NAME = "Machining order"
FOR = "for the machinist"

UNTOUCHED = (
    "faces of the head, except where named above",
    "cam journals and their caps, bucket or follower bores",
    "oil and coolant ways: nothing blasted, nothing ground into them",
    "seats and guides that are not named above",
)
#: Words of a cut, the drawing that shows it, and the work whose caution it needs.
ABOUT = (
    ("guide", "guide", ("fit_guide", "ream_guide", "heat_head")),
    ("seat", "seat", ("cut_seat",)),
    ("spacer", "spring", ("fit_spacer",)),
    ("tip", "valve", ("grind_tip",)),
    ("face", "face", ("skim_head", "skim_barrel")),
    ("bore", "bore", ("hone", "rebore")),
)


def blocks(view: JobRecord) -> tuple[Block, ...]:
    """One item for each place that is machined, then what stays untouched, then who signs."""
    cuts, order = _cuts(view), _order(view)
    found: list[Block] = [title(view, NAME, FOR), _head(view, order)]
    if not cuts:
        return (*found, *_nothing(view, order))
    found.append(Para("Measure with the enclosed valve in its own seat, marked as below. Call before a bound is passed: "
                      "what is cut off does not come back.", "strong"))  # fmt: skip
    found += _cautions(view, cuts)
    for n, cut in enumerate(cuts, 1):
        found += _item(view, n, cut)
    return (*found, *_ordered(order), Together(_closing()))


def _cuts(view: JobRecord) -> tuple[CutView, ...]:
    """Every cut of every plan, the roll-up's repetition left out."""
    found = {(c.where, c.what): c for plan in view.plans for c in plan.machines}
    return tuple(found.values())


def _order(view: JobRecord) -> OrderView | None:
    given = [o for o in view.record.orders if o.kind == "machining"]
    return given[-1] if given else None


def _head(view: JobRecord, order: OrderView | None) -> KeyValues:
    layout = [("order", order.order if order else "not given yet: number it before it goes out")]
    layout += [("engine", f"{view.job.book.name}, number {view.job.engine_number}")]
    layout += [("machine", view.job.machine)] if view.job.machine else []
    return KeyValues((*layout, ("sizes", "in mm, at 20 °C, gauge named in the write-back")))


def _nothing(view: JobRecord, order: OrderView | None) -> tuple[Block, ...]:
    reasons = [r for plan in view.plans if plan.key.startswith("machin") for r in plan.reasons]
    words = "Nothing is left to be machined as the readings stand." + (f"\n{listed(reasons)}" if reasons else "")
    return (Para(words, "strong"), *_ordered(order))


def _item(view: JobRecord, n: int, cut: CutView) -> list[Block]:
    left: list[Block] = [Para("Reach", "strong"), Para(listed(cut.to_reach))]
    if cut.forbidden:
        left += [Para("Not", "strong"), Para(listed(cut.forbidden))]
    if cut.encloses:
        left += [Para("Enclosed, marked", "strong"), Para(listed(cut.encloses))]
    right: list[Block] = [_drawing(cut)]
    if cut.low_mm is not None or cut.high_mm is not None:
        right += [_bound_strip(cut), Para(f"Bounds: {_bounds(cut)}.", "strong")]
    because = [Para("Why: " + "; ".join(cut.because), "context")] if cut.because else []
    names = {blank.measurand: blank.name for blank in view.record.blanks}
    back = [_said(measure, names) for measure in cut.measures] or ["size reached"]
    head = (
        cut.what
        if cut.what.startswith(cut.name) or cut.name.endswith(cut.what.split(":")[0])
        else f"{cut.name}: {cut.what}"
    )
    return [
        Heading(f"{n} · {head}"),
        Columns((tuple(left), tuple(right))),
        *because,
        Para("Written back by the shop:", "context"),
        Fields(labels=(*back, "gauge, temperature"), columns=2),
    ]


def _said(measure: str, names: Mapping[str, str]) -> str:
    """A measurand by its name, with what the planner adds to it."""
    key, _, more = measure.partition(" ")
    return " ".join(w for w in (names.get(key, key.replace("_", " ")), more) if w)


def _bounds(cut: CutView) -> str:
    """The bounds in words; a wall that is the bound itself is said once."""
    low, high, never = cut.low_mm, cut.high_mm, cut.never_over_mm
    said = f"{number(low, 2)} to {number(high, 2)} mm" if low is not None and high is not None else ""
    said = said or (
        f"at most {number(high, 2)} mm"
        if high is not None
        else f"at least {number(low, 2)} mm"
        if low is not None
        else ""
    )
    if never is None or never == high:
        return f"{said}; tell us before going over" if said and high is not None else said
    return "; ".join(
        w
        for w in (said, "tell us before going over" if high is not None else "", f"never over {number(never, 2)} mm")
        if w
    )


def _bound_strip(cut: CutView) -> Figure:
    """The range that was agreed as a frame, the wall behind it: never past that."""
    words = {"new {low} – {high}": "agreed {low} – {high}", "new up to {high}": "agreed up to {high}",
             "new from {low}": "agreed from {low}", "limit {limit}": "never over {limit}"}  # fmt: skip
    spec = StripSpec(
        new_low=cut.low_mm,
        new_high=cut.high_mm,
        high=cut.never_over_mm,
        places=2,
        caption="with the enclosed valve",
        title=f"bounds of {cut.name}",
        width=330,
    )
    return Figure(svg=limit_strip(spec, words), alt=f"{cut.name}: {_bounds(cut)}", width_mm=70)


def _drawing(cut: CutView) -> Figure:
    named = [drawing for word, drawing, _at in ABOUT if word in cut.what.lower()]
    kind = "seat" if "seat" in named or not named else named[0]
    words = f"{cut.name}: {cut.what}"
    return part_figure(kind, DrawingSpec(title=words), words, 62)


def _cautions(view: JobRecord, cuts: tuple[CutView, ...]) -> tuple[Block, ...]:
    works = {at for word, _drawing_key, ats in ABOUT for at in ats if any(word in c.what.lower() for c in cuts)}
    found = [f"{c.name[:1].upper()}{c.name[1:]}: {c.words.removesuffix(COMES_FIRST).strip()}"
             for c in view.record.cautions if c.at in works]  # fmt: skip
    return (Caution(" ".join(found)),) if found else ()


def _closing() -> tuple[Block, ...]:
    return (
        Heading("Left as it was"),
        Para("Ticked and signed by the shop, because what is not said is measured again:", "context"),
        Checklist(tuple(CheckItem(text=words) for words in (*UNTOUCHED, "washed, ways blown through, mouths capped"))),
        Signature(
            ("ordered by", "machined by"), "The items above were reached within their bounds, or the call was made."
        ),
    )


def _ordered(order: OrderView | None) -> tuple[Block, ...]:
    if order is None or not (order.words or order.lines):
        return ()
    rows = (*order.words.items(), *((k, f"{n} ×") for k, n in order.lines.items()))
    return (
        Heading("As ordered", 2),
        Table(head=("where", "what was agreed"), rows=tuple(rows), widths=(1, 3), dense=True),
    )
