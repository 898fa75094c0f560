"""Values against something that runs on (hours, crank degrees): points with whiskers, limits as hatched walls.

Series differ by the shape of their points and the dashes of their lines, so that a black and white print says the same.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil, floor, log10
from typing import Literal

from gudgeon.figures.marks import hatch, turned_label
from gudgeon.figures.svg import (
    GREY,
    HATCH,
    INK,
    PAPER,
    THICK,
    THIN,
    Element,
    Point,
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

WIDTH, HEIGHT = 720.0, 420.0
LEFT, RIGHT, TOP, BOTTOM = 92.0, 690.0, 48.0, 352.0
Mark = Literal["diamond", "hollow", "square", "dotted", "dashed", "none"]
DASHES = {"diamond": "", "hollow": "8 5", "square": "2 4", "dotted": "2 4", "dashed": "14 6", "none": ""}


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """A named row of points; `joined` draws the line between them, `whiskers` how well each is known."""

    name: str
    points: tuple[Point, ...]
    mark: Mark = "diamond"
    joined: bool = True
    whiskers: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartSpec:
    """Axes with their units, series, and the limits that are walls; `places` of the figures on the upright axis.

    `stop` is a place on the axis that runs on, marked by an upright line with its words.
    """

    title: str
    across: str
    up: str
    series: tuple[Series, ...]
    low: float | None = None
    high: float | None = None
    places: int = 3
    stop: tuple[float, str] | None = None

    def __post_init__(self) -> None:
        for one in self.series:
            if one.whiskers and len(one.whiskers) != len(one.points):
                what = "{name} has {n} points and {m} whiskers."
                given = (one.name, len(one.points), len(one.whiskers))
                remedy = "Give a whisker for each point or none."
                raise refuse(self.title, what, remedy, name=given[0], n=given[1], m=given[2])


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """A straight axis with round figures."""

    least: float
    most: float
    step: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Where a value stands."""
        return self.start + (value - self.least) / (self.most - self.least) * (self.end - self.start)

    def ticks(self) -> tuple[float, ...]:
        """The round figures on the axis."""
        first, last = ceil(self.least / self.step - 1e-9), floor(self.most / self.step + 1e-9)
        return tuple(i * self.step for i in range(first, last + 1))


def axis(values: tuple[float, ...], start: float, end: float, marks: int) -> Axis:
    """An axis that holds all values with some air, in steps of 1, 2 or 5."""
    low, high = (min(values), max(values)) if values else (0.0, 1.0)
    if high - low <= max(1e-9 * max(abs(low), abs(high)), 1e-12):
        half = abs(high) / 2 or 0.5
        low, high = low - half, high + half
    span = high - low
    rough = span / marks
    power = 10.0 ** floor(log10(rough))
    step = power * next(m for m in (1, 2, 5, 10) if m * power >= rough * (1 - 1e-9))
    return Axis(least=low - 0.08 * span, most=high + 0.12 * span, step=step, start=start, end=end)


def _up(value: float, y: Axis, places: int) -> Element:
    text = label(LEFT - 10, y.at(value) + 6, figure(value, places), GREY, size=16, anchor="end")
    return group(line(LEFT, y.at(value), RIGHT, y.at(value), HATCH, 0.4), text)


def _across(value: float, x: Axis, places: int) -> Element:
    text = label(x.at(value), BOTTOM + 26, figure(value, places), GREY, size=16, anchor="middle")
    return group(line(x.at(value), BOTTOM, x.at(value), BOTTOM + 6, INK, THIN), text)


def _frame(spec: ChartSpec, x: Axis, y: Axis) -> Element:
    decimals = max(0, -floor(log10(x.step)))
    upright = (_up(v, y, spec.places) for v in y.ticks())
    along = (_across(v, x, decimals) for v in x.ticks())
    axes = stroke(poly(((LEFT, TOP), (LEFT, BOTTOM), (RIGHT, BOTTOM)), closed=False))
    across = label(RIGHT, BOTTOM + 52, spec.across, size=17, anchor="end")
    return group(*upright, *along, axes, across, turned_label(22, (TOP + BOTTOM) / 2, spec.up))


def _wall(limit: float | None, y: Axis, end: float) -> Element:
    if limit is None:
        return group()
    at = y.at(limit)
    deep = max(-26.0, min(26.0, end - at))
    behind = ((LEFT, at), (RIGHT, at), (RIGHT, at + deep), (LEFT, at + deep))
    return group(hatch(behind, 9), line(LEFT, at, RIGHT, at, INK, 3))


def _point(x: float, y: float, mark: Mark) -> Element:
    diamond = poly(((x, y - 8), (x + 7, y), (x, y + 8), (x - 7, y)))
    match mark:
        case "diamond":
            return fill(diamond)
        case "hollow":
            return group(fill(diamond, PAPER), stroke(diamond))
        case "square":
            return fill(poly(box(x - 6, y - 6, 12, 12)))
        case "dotted" | "dashed" | "none":
            return group()


def _stop(stop: tuple[float, str] | None, x: Axis) -> Element:
    if stop is None:
        return group()
    at, words = x.at(stop[0]), stop[1]
    upright = stroke(poly(((at, TOP), (at, BOTTOM)), closed=False), INK, THIN, "8 5")
    left = at > (LEFT + RIGHT) / 2
    return group(
        upright, label(at - 8 if left else at + 8, BOTTOM - 10, words, size=16, anchor="end" if left else "start")
    )


def _series(one: Series, x: Axis, y: Axis) -> Element:
    places = tuple((x.at(px), y.at(py)) for px, py in one.points)
    joined = (stroke(poly(places, closed=False), INK, 1.8, DASHES[one.mark]),) if one.joined and len(places) > 1 else ()
    ticks = []
    for (px, py), reach in zip(one.points, one.whiskers, strict=False):
        top, bottom, at = y.at(py + reach), y.at(py - reach), x.at(px)
        ends = (line(at - 6, top, at + 6, top, INK, THICK), line(at - 6, bottom, at + 6, bottom, INK, THICK))
        ticks.append(group(line(at, top, at, bottom, INK, THICK), *ends))
    return group(*joined, *ticks, *(_point(px, py, one.mark) for px, py in places))


def _legend(spec: ChartSpec) -> Element:
    marks, x, first = [], LEFT, dict[str, Series]()
    for one in spec.series:
        first.setdefault(one.name, one)
    for one in first.values():
        sample = (line(x, TOP - 22, x + 30, TOP - 22, INK, 1.8, DASHES[one.mark]),) if one.joined else ()
        marks.append(group(*sample, _point(x + 15, TOP - 22, one.mark), label(x + 40, TOP - 16, one.name, size=16)))
        x += 62 + 8.6 * len(one.name)
    return group(*marks)


def sentence(spec: ChartSpec, translate: Mapping[str, str] | None = None) -> str:
    """The chart in words: each series with its first and last value, and the limits."""
    parts = []
    for one in spec.series:
        ends = (one.points[0], one.points[-1]) if one.points else ()
        values = ", ".join(f"{figure(y, spec.places)} ({figure(x, 0)})" for x, y in dict.fromkeys(ends))
        parts.append(f"{one.name}: {values or '–'}")
    parts += [spec.stop[1]] if spec.stop else []
    walls = [figure(v, spec.places) for v in (spec.low, spec.high) if v is not None]
    limits = [said("limit {limit}", limit=w).words(translate) for w in walls]
    return "; ".join((f"{spec.up} / {spec.across}", *parts, *limits))


def chart(spec: ChartSpec, translate: Mapping[str, str] | None = None) -> str:
    """The drawing as SVG text."""
    points = tuple(p for one in spec.series for p in one.points)
    reach = tuple(
        v for one in spec.series for (_, y), w in zip(one.points, one.whiskers, strict=False) for v in (y - w, y + w)
    )
    walls = tuple(v for v in (spec.low, spec.high) if v is not None)
    stops = (spec.stop[0],) if spec.stop else ()
    x = axis((*(p[0] for p in points), *stops), LEFT, RIGHT, 6)
    y = axis((*(p[1] for p in points), *reach, *walls), BOTTOM, TOP, 5)
    marks = (
        _frame(spec, x, y),
        _wall(spec.low, y, BOTTOM),
        _wall(spec.high, y, TOP),
        _stop(spec.stop, x),
        *(_series(s, x, y) for s in spec.series),
    )
    return drawing(WIDTH, HEIGHT, spec.title, sentence(spec, translate), *marks, _legend(spec))
