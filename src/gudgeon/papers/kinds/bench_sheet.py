"""Where no tablet can go, the readings are written on paper first: blank lines gauge by gauge, with the book's values beside."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, cast

from gudgeon.figures.places import DrawingSpec, PlaceFigure, Train
from gudgeon.papers.blocks import Block, Caution, Columns, Fields, Figure, Heading, Para, Table, Together
from gudgeon.papers.common import part_figure, title
from gudgeon.view.record import BlankView, JobRecord

KEY = "bench_sheet"
NAME = "Bench sheet"
FOR = "for the bench"

MANY_POINTS = 3
"""From so many points on, each has a column of its own."""
FEW_ROWS, SMALL_MM = 24, 62
"""So much stays on one sheet with its drawing."""


def blocks(view: JobRecord) -> tuple[Block, ...]:
    """Every reading that the scope asks for, gauge by gauge."""
    found: list[Block] = [
        title(view, NAME, FOR),
        Para("Write what the gauge shows, with its digits, and nothing that was worked out from it. "
             "A reading that looks wrong is read again, not corrected.", "context"),
        Fields(labels=("read by", "date"), columns=2),
    ]  # fmt: skip
    for gauge, kinds in _by_gauge(view.record.blanks):
        found += _gauge(gauge, kinds)
    if not view.record.blanks:
        found.append(Para("This job asks for no reading that the book has a value for."))
    return tuple(found)


def _by_gauge(blanks: Iterable[BlankView]) -> list[tuple[str, list[BlankView]]]:
    found: dict[str, list[BlankView]] = {}
    for blank in blanks:
        found.setdefault(blank.gauge, []).append(blank)
    return list(found.items())


def _gauge(gauge: str, kinds: list[BlankView]) -> list[Block]:
    names = list(dict.fromkeys(name for kind in kinds for name in kind.gauges))
    head: list[Block] = [Heading(gauge[:1].upper() + gauge[1:])]
    if names:
        head.append(Para("On the shelf: " + ", ".join(names), "context"))
    if gauge != "eye":
        head.append(Fields(labels=("gauge used", "zero before", "zero after"), columns=3))
    found: list[Block] = []
    drawn = ""
    for kind in kinds:
        whole = (*head, *_measurand(kind, drawing=kind.drawing != drawn))
        found += [Together(whole)] if sum(len(row.points) for row in kind.rows) <= FEW_ROWS else whole
        head, drawn = [], kind.drawing
    return found


def _measurand(kind: BlankView, *, drawing: bool) -> list[Block]:
    unit = f", {kind.unit}" if kind.unit else ""
    said: list[Block] = [Heading(f"{kind.name}{unit}", 2)]
    said += [Para(text) for text in (kind.ask,) if text]
    said += [Para("Needs: " + "; ".join(kind.needs), "context")] if kind.needs else []
    said += [Para("One of: " + ", ".join(kind.words), "context")] if kind.words else []
    said += [Caution(kind.caution)] if kind.caution else []
    if not drawing or kind.drawing == "gauge":
        return [*said, _table(kind)]
    return [Columns((tuple(said), (_drawing(kind),))), _table(kind)]


def _drawing(kind: BlankView) -> Figure:
    """The part with its points; where there is one, the words beside it say enough."""
    spots = zip(kind.point_keys, kind.points, strict=True)
    many = len(kind.points) > 1
    spec = DrawingSpec(
        title=f"{kind.name}: where it is read",
        places=tuple(PlaceFigure(key=f"{kind.drawing} {key}", label=words) for key, words in spots) if many else (),
        train=cast(Train, kind.train),
        lash_at=cast(Literal["cam", "tip"], kind.lash_at),
    )
    words = f"{kind.name}: {', '.join(kind.points) if many else 'the part'}"
    return part_figure(kind.drawing, spec, words, 0 if many else SMALL_MM)


def _table(kind: BlankView) -> Table:
    """A row for each place; where few points are read, each point is a row of its own."""
    if len(kind.points) >= MANY_POINTS and all(row.points == kind.points for row in kind.rows):
        head = ("place", "book (page)", *kind.points)
        rows = tuple((r.where, _book(r.new, r.limit, r.page), *("",) * len(kind.points)) for r in kind.rows)
        return Table(head=head, rows=rows, widths=(2.3, 3.5, *(1.5,) * len(kind.points)))
    rows = tuple(
        (" ".join(w for w in (r.where, point) if w), _book(r.new, r.limit, r.page), "", "")
        for r in kind.rows
        for point in r.points
    )
    return Table(head=("place", "book (page)", "reading", "again, or remark"), rows=rows, widths=(2.2, 4.6, 1.8, 2.2))


def _book(new: str, limit: str, page: str) -> str:
    found = "; ".join(w for w in (f"new {new}" if new else "", limit) if w)
    return f"{found} ({page})" if found and page else found
