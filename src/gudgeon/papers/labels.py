"""Labels for trays, bags and shim boxes on bought sheets: position, mark and a code a camera reads, nothing else on the page.

Sheets are named by their size, since that is what stands on the packet. They are centred; a sheet that is not is given its margins.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.papers.payload import Writer
from gudgeon.papers.typesetting import Data, Paper, Unshown, typeset
from gudgeon.problem import refuse

PAGE_MM: Mapping[Paper, tuple[float, float]] = {"a4": (210.0, 297.0), "us-letter": (215.9, 279.4)}
POINT_MM = 25.4 / 72
INSET_MM, CODE_GAP_MM, LEADING = 3.0, 1.5, 1.32
LEAST_POINTS, MOST_POINTS, SMALLER = 6.0, 20.0, 0.7
LETTER_WIDTH = 0.54
LEAST_CODE_MM = 9.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelStock:
    """A sheet of equal labels."""

    name: str
    columns: int
    rows: int
    width_mm: float
    height_mm: float
    gap_x_mm: float = 0.0
    gap_y_mm: float = 0.0
    paper: Paper = "a4"
    left_mm: float | None = None
    top_mm: float | None = None

    def margins_mm(self) -> tuple[float, float]:
        """Left and top margin; a sheet wider or taller than its paper is refused."""
        wide = self.columns * self.width_mm + (self.columns - 1) * self.gap_x_mm
        tall = self.rows * self.height_mm + (self.rows - 1) * self.gap_y_mm
        page = PAGE_MM[self.paper]
        left = (page[0] - wide) / 2 if self.left_mm is None else self.left_mm
        top = (page[1] - tall) / 2 if self.top_mm is None else self.top_mm
        if min(left, top, page[0] - wide - left, page[1] - tall - top) < -0.05 or min(self.columns, self.rows) < 1:
            what = "{columns} by {rows} labels of {width} x {height} mm do not fit the paper."
            given = (self.columns, self.rows, self.width_mm, self.height_mm)
            names = ("columns", "rows", "width", "height")
            raise refuse(self.name, what, "Measure the sheet again.", **dict(zip(names, given, strict=True)))
        return left, top


STOCKS: Mapping[str, LabelStock] = {
    stock.name: stock
    for stock in (
        LabelStock(name="70 x 37", columns=3, rows=8, width_mm=70.0, height_mm=37.0),
        LabelStock(name="63.5 x 38.1", columns=3, rows=7, width_mm=63.5, height_mm=38.1, gap_x_mm=2.54),
        LabelStock(name="99.1 x 67.7", columns=2, rows=4, width_mm=99.1, height_mm=67.7, gap_x_mm=2.54),
        LabelStock(name="38.1 x 21.2", columns=5, rows=13, width_mm=38.1, height_mm=21.2, gap_x_mm=2.5),
        LabelStock(
            name="2-5/8 x 1 in", columns=3, rows=10, width_mm=66.675, height_mm=25.4, gap_x_mm=3.175, paper="us-letter"
        ),
    )
}
"""Common sizes; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A label: its first line is the large one, `code` is SVG text or nothing."""

    lines: tuple[str, ...]
    code: str = ""


def _sizes(label: Label, stock: LabelStock) -> tuple[float, ...]:
    """Points for each line, the first the largest, so that every line stands whole on the label."""
    tall, wide = stock.height_mm - 2 * INSET_MM, stock.width_mm - 2 * INSET_MM
    room = wide - (_code_mm(stock) + CODE_GAP_MM if label.code else 0.0)
    share = tall / (LEADING * (1 + SMALLER * (len(label.lines) - 1)) * POINT_MM) if label.lines else 0.0
    most = [min(MOST_POINTS, share) * (1.0 if i == 0 else SMALLER) for i in range(len(label.lines))]
    fits = [room / (LETTER_WIDTH * POINT_MM * max(len(text), 1)) for text in label.lines]
    sizes = tuple(min(m, f) for m, f in zip(most, fits, strict=True))
    if not sizes or min(sizes) < LEAST_POINTS or (label.code and _code_mm(stock) < LEAST_CODE_MM):
        what = 'The label "{first}" with {n} lines does not fit {width} x {height} mm and stay readable.'
        first, given = label.lines[0][:40] if label.lines else "", (stock.width_mm, stock.height_mm)
        remedy = "Take a larger sheet or shorter words."
        raise refuse(stock.name, what, remedy, first=first, n=len(label.lines), width=given[0], height=given[1])
    return sizes


def _code_mm(stock: LabelStock) -> float:
    """The side of the code: as tall as the label, at most a good third of its width."""
    return min(stock.height_mm - 2 * INSET_MM, 0.38 * stock.width_mm)


def label_pdf(
    labels: tuple[Label, ...], stock: LabelStock, *, title: str, skip: int = 0, language: str = "en"
) -> bytes:
    """The sheets as a PDF; `skip` leaves the first places of a begun sheet free."""
    left, top = stock.margins_mm()
    if not labels or not 0 <= skip < stock.columns * stock.rows:
        what = "{n} labels after {skip} used places."
        remedy = "Give at least one label, and fewer used places than the sheet has."
        raise refuse(title, what, remedy, n=len(labels), skip=skip)
    sizes = [_sizes(label, stock) for label in labels]

    def data(unshown: Unshown) -> Data:
        writer = Writer(unshown)
        shown = [
            {"lines": [writer.plain(t) for t in label.lines], "code": label.code, "sizes": size}
            for label, size in zip(labels, sizes, strict=True)
        ]
        sheet = {"columns": stock.columns, "rows": stock.rows, "width": stock.width_mm, "height": stock.height_mm}
        gaps = {
            "gap-x": stock.gap_x_mm,
            "gap-y": stock.gap_y_mm,
            "left": left,
            "top": top,
            "skip": skip,
            "inset": INSET_MM,
            "side": _code_mm(stock),
        }
        return {
            "labels": shown,
            "title": writer.plain(title),
            "paper": stock.paper,
            "language": language,
            **sheet,
            **gaps,
        }

    return typeset("labels.typ", data, where=title)
