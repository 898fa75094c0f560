"""Every valve's lash before and after, each in its own window: hollow as found, full as left."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.figures.marks import hatch
from gudgeon.figures.svg import (
    GREY,
    INK,
    PAPER,
    THIN,
    Element,
    box,
    drawing,
    figure,
    fill,
    group,
    label,
    line,
    poly,
    stroke,
)
from gudgeon.problem import refuse, said

WIDTH, ROW, TOP, LEFT, RIGHT = 720.0, 46.0, 62.0, 170.0, 560.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LashRow:
    """A valve: its name, its window, what was found and what was left, the shim that is in."""

    name: str
    low: float
    high: float
    found: float | None = None
    left: float | None = None
    shim: str = ""

    def __post_init__(self) -> None:
        if not self.low < self.high:
            what = "The window runs from {low} to {high}."
            raise refuse(self.name, what, "Give the smaller end first.", low=self.low, high=self.high)


def sentence(rows: tuple[LashRow, ...], unit: str, places: int, translate: Mapping[str, str] | None = None) -> str:
    """The set in words."""
    parts = []
    for row in rows:
        found, left = ("–" if v is None else figure(v, places) for v in (row.found, row.left))
        window = f"{figure(row.low, places)} – {figure(row.high, places)}"
        text = "{name}: found {found}, left {left}, window {window} {unit}"
        parts.append(said(text, name=row.name, found=found, left=left, window=window, unit=unit).words(translate))
    return "; ".join(parts)


def lash_set(
    rows: tuple[LashRow, ...],
    title: str,
    *,
    unit: str = "mm",
    places: int = 2,
    translate: Mapping[str, str] | None = None,
) -> str:
    """The drawing as SVG text; all windows on one scale, so that rows can be compared."""
    ends = [v for r in rows for v in (r.low, r.high, r.found, r.left) if v is not None] or [0.0, 1.0]
    span = (max(ends) - min(ends)) or 1.0
    least, most = min(ends) - 0.12 * span, max(ends) + 0.12 * span

    def x(value: float) -> float:
        return LEFT + (value - least) / (most - least) * (RIGHT - LEFT)

    marks = tuple(_row(row, TOP + ROW * i, x(row.low), x(row.high), places) for i, row in enumerate(rows))
    dots = tuple(
        _diamond(x(value), TOP + ROW * i, full=full)
        for i, row in enumerate(rows)
        for value, full in ((row.found, False), (row.left, True))
        if value is not None
    )
    words = tuple(said(w).words(translate) for w in ("as found", "as left", "shim"))
    head = (
        _diamond(LEFT + 10, 18, full=False), label(LEFT + 26, 24, words[0], GREY, size=16),
        _diamond(LEFT + 130, 18, full=True), label(LEFT + 146, 24, words[1], GREY, size=16),
        label(RIGHT + 16, 24, words[2], GREY, size=16), label(0, 24, unit, GREY, size=16),
    )  # fmt: skip
    height = TOP + ROW * max(len(rows), 1)
    return drawing(WIDTH, height, title, sentence(rows, unit, places, translate), *head, *marks, *dots)


def _row(row: LashRow, y: float, low: float, high: float, places: int) -> Element:
    walls = (
        hatch(box(LEFT, y - 13, max(low - LEFT, 0.0), 26), 8),
        hatch(box(high, y - 13, max(RIGHT - high, 0.0), 26), 8),
    )
    ends = (line(low, y - 16, low, y + 16, INK, 3), line(high, y - 16, high, y + 16, INK, 3))
    window = f"{figure(row.low, places)} – {figure(row.high, places)}"
    return group(
        label(0, y - 1, row.name, size=17, weight=600), label(0, y + 17, window, GREY, size=14),
        *walls, line(LEFT, y, RIGHT, y, INK, THIN), *ends, label(RIGHT + 16, y + 6, row.shim, size=17),
    )  # fmt: skip


def _diamond(x: float, y: float, *, full: bool) -> Element:
    shape = poly(((x, y - 9), (x + 8, y), (x, y + 9), (x - 8, y)))
    return fill(shape) if full else group(fill(shape, PAPER), stroke(shape))
