"""A part that is being dimensioned: taken values stand on their dimension lines, the one that is wanted is blue.

A drawing offers spots; a place finds its spot by the words of its key (``"bore top x"``), so that a drawing never shows a value at
a place where it was not read: what finds no spot is listed under the drawing instead.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from math import hypot
from typing import Literal

from gudgeon.figures.marks import dimension_line, faint, figure_on_line, leader, question_box, words, wrapped
from gudgeon.figures.svg import (
    BLUE,
    GREY,
    INK,
    PAPER,
    Anchor,
    Element,
    Point,
    box,
    drawing,
    fill,
    group,
    label,
    line,
    plain_number,
    poly,
    text_width,
    worded,
)
from gudgeon.problem import said

WIDTH, HEIGHT = 720.0, 600.0
State = Literal["taken", "wanted", "later"]
Train = Literal["finger", "bucket", "bucket over", "rocker", "rocker screw", "rocker screw at cam", "push-rod"]
LABEL_X, FIGURE_X = 528.0, 572.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceFigure:
    """One place: its key (measurand and point), its words, the figure once taken, and a note that stands under it."""

    key: str
    label: str
    figure: str | None = None
    state: State = "later"
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawingSpec:
    """What a part drawing shows; the engine's layout decides the train, the valves and the bolts.

    `large` is for reading at arm's length: at three quarters of its size the wanted words are still 26 px high.
    """

    title: str
    large: bool = False
    places: tuple[PlaceFigure, ...] = ()
    left_side: str = "intake side"
    right_side: str = "exhaust side"
    train: Train = "finger"
    lash_at: Literal["cam", "tip"] = "cam"
    seat_angles_deg: tuple[float, float, float] = (60.0, 45.0, 30.0)
    intake_valves: int = 2
    exhaust_valves: int = 2
    bolts: int = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """Where a value may stand. `words` are groups of alternatives: ``("top", "x|along")`` wants one word of each.

    With a `start` it is a distance; with an `end` alone, a place that is pointed at; with neither, the words say it all.
    `says` takes the words before or after the comma of "top, across the pin".
    """

    words: tuple[str, ...]
    start: Point | None = None
    end: Point | None = None
    figure: Point
    label: Point
    anchor: Anchor = "start"
    room: float = 170.0
    says: Literal["all", "before", "after"] = "all"

    def wording(self, text: str) -> str:
        """The part of a place's words that this spot needs."""
        before, comma, after = text.partition(",")
        if self.says == "all" or not comma:
            return text
        return before.strip() if self.says == "before" else after.strip()

    def fits(self, key: str) -> int:
        """How many of the groups the key names; 0 when one is missing."""
        named = set(re.findall(r"[a-z0-9]+", key.lower()))
        return len(self.words) if all(named & set(group.split("|")) for group in self.words) else 0


def beside(words: tuple[str, ...], y: float, start: Point | None = None, end: Point | None = None) -> Spot:
    """A spot whose words and figure stand in the column to the right of the drawing."""
    return Spot(words=words, start=start, end=end, figure=(FIGURE_X, y), label=(LABEL_X, y - 30), room=210)


Outline = Callable[[DrawingSpec], Element]
Spots = Callable[[DrawingSpec], tuple[Spot, ...]]


def assign(
    places: tuple[PlaceFigure, ...], spots: tuple[Spot, ...]
) -> tuple[tuple[tuple[PlaceFigure, Spot], ...], tuple[PlaceFigure, ...]]:
    """Each place with its spot, the wanted one first and the closest description first; and the places that have none."""
    found: list[tuple[PlaceFigure, Spot]] = []
    left: list[PlaceFigure] = []
    for place in sorted(places, key=lambda p: p.state != "wanted"):
        best = max(spots, key=lambda s: s.fits(place.key), default=None)
        free = best is not None and best.fits(place.key) and all(s is not best for _, s in found)
        if best is not None and free:
            found.append((place, best))
        else:
            left.append(place)
    return tuple(found), tuple(sorted(left, key=places.index))


def _distance(start: Point, end: Point, figure: Point, state: State) -> Element:
    if state == "later":
        return faint(start, end)
    pen, width = (BLUE, 3.0) if state == "wanted" else (INK, 1.4)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    nearest = min((middle, start, end), key=lambda p: hypot(p[0] - figure[0], p[1] - figure[1]))
    lead = () if nearest == figure else (line(*nearest, *figure, pen, 1.4),)
    return group(dimension_line(start, end, pen, width), *lead)


def _mark(place: PlaceFigure, spot: Spot) -> Element:
    if spot.end is None or (spot.start is None and place.state == "later"):
        return group()
    if spot.start is None:
        return leader(spot.figure, spot.end, BLUE if place.state == "wanted" else GREY)
    return _distance(spot.start, spot.end, spot.figure, place.state)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """How high words and figures stand."""

    words: float
    wanted: float
    figure: float
    row: float


CAPTION = 16.0
PAPER_SIZES = Sizes(words=18, wanted=18, figure=24, row=28)
LARGE_SIZES = Sizes(words=27, wanted=40, figure=29, row=40)
#: Where places are listed under the drawing as well, it is drawn smaller.
LISTED_SIZES = Sizes(words=44, wanted=60, figure=45, row=56)


def sizes(spec: DrawingSpec) -> Sizes:
    """On paper, or at arm's length."""
    return LARGE_SIZES if spec.large else PAPER_SIZES


def _lowered(spot: Spot, room: float) -> Spot:
    """A spot whose words over their figure stay on the drawing."""
    x, y = spot.figure
    return replace(spot, figure=(x, room)) if abs(x - spot.label[0]) < 120 and spot.label[1] < y < room else spot


def place_on(place: PlaceFigure, spot: Spot, high: Sizes = PAPER_SIZES) -> Element:
    """One place drawn on its spot."""
    pen, weight, size = (BLUE, 600, high.wanted) if place.state == "wanted" else (GREY, 400, high.words)
    lines = wrapped(spot.wording(place.label), spot.room, size)
    step = size + 4
    if high is not PAPER_SIZES:
        spot = _lowered(spot, size + step * (len(lines) - 1) + 36)
    x, y = spot.label
    over = spot.figure[1] - y
    if high is not PAPER_SIZES and abs(spot.figure[0] - x) < 120 and over > 0:  # words over their figure grow upwards
        y = min(y, spot.figure[1] - max(36, 0.62 * high.wanted + 14) - step * (len(lines) - 1))
    half = max(text_width(text, size - 3) for text in lines) / 2
    covers = poly(box(x - half, y - size + 2, 2 * half, step * len(lines)))
    clear = (fill(covers, PAPER),) if spot.anchor == "middle" else ()
    said_there = tuple(
        label(x, y + i * step, text, pen, size=size, anchor=spot.anchor, weight=weight) for i, text in enumerate(lines)
    )
    under = max(y + len(lines) * step + 2, spot.figure[1] + 38 if abs(spot.figure[0] - x) < 120 else 0)
    note = label(x, under, place.note, size=high.words, anchor=spot.anchor, weight=600)
    value: tuple[Element, ...] = ()
    if place.state == "wanted":
        value = (question_box(spot.figure, max(30.0, high.wanted - 2)),)
    elif place.state == "taken" and place.figure is not None:
        value = (figure_on_line(spot.figure, place.figure, high.figure),)
    return group(_mark(place, spot), *clear, *value, *said_there, *((note,) if place.note else ()))


def listed(
    places: tuple[PlaceFigure, ...], x: float, y: float, width: float, rows: int, high: Sizes = PAPER_SIZES
) -> Element:
    """Places without a spot, one line each; more than fit are counted, and the wanted one is always among them."""
    shown = places if len(places) <= rows else places[: rows - 1]
    wanted = tuple(p for p in places if p.state == "wanted" and p not in shown)
    shown = (*shown[: len(shown) - len(wanted)], *wanted)
    marks = []
    for i, place in enumerate(shown):
        top = y + high.row * i
        pen, weight, size = (BLUE, 600, high.wanted) if place.state == "wanted" else (GREY, 400, high.words)
        value = "?" if place.state == "wanted" else (place.figure or "–")
        value_size = max(high.figure - 4, size)
        room = width - text_width(value, value_size) - 20
        pen_value = BLUE if place.state == "wanted" else INK
        marks += [
            label(x, top, wrapped(place.label, room, size, 1)[0], pen, size=size, weight=weight),
            label(x + width, top, value, pen_value, size=value_size, anchor="end", weight=600),
        ]
    if len(places) > len(shown):
        marks.append(label(x, y + high.row * len(shown), f"+ {len(places) - len(shown)}", GREY, size=high.words))
    return group(*marks)


def sentence(spec: DrawingSpec, translate: Mapping[str, str] | None = None) -> str:
    """The drawing in words: what is wanted, what was taken, what is still to come."""
    by_state = {state: [p for p in spec.places if p.state == state] for state in ("wanted", "taken", "later")}
    parts = (
        said("wanted: {places}", places=", ".join(p.label for p in by_state["wanted"])),
        said("taken: {places}", places=", ".join(f"{p.label} {p.figure or ''}".strip() for p in by_state["taken"])),
        said("later: {places}", places=", ".join(p.label for p in by_state["later"])),
    )
    named = zip(parts, by_state.values(), strict=True)
    return "; ".join(part.words(translate) for part, places in named if places) or spec.title


def sides(spec: DrawingSpec, left: float, right: float, y: float) -> Element:
    """Which side is which, over the drawing."""
    high = 30 if spec.large else 17
    return group(
        label(left, y, spec.left_side, GREY, size=high, anchor="middle"),
        label(right, y, spec.right_side, GREY, size=high, anchor="middle"),
    )


def caption(x: float, y: float, text: str, anchor: Anchor = "start", room: float = 160) -> Element:
    """A few grey words that name a part of the drawing."""
    return words(x, y, wrapped(text, room, CAPTION), GREY, CAPTION, anchor)


def enlarged(mark: Element, size: float) -> Element:
    """The same marks with their captions as high as words at arm's length."""
    small, high = ("font-size", plain_number(CAPTION)), ("font-size", plain_number(size))
    attributes = tuple(high if a == small else a for a in mark.attributes)
    return Element(mark.tag, attributes, tuple(c if isinstance(c, str) else enlarged(c, size) for c in mark.children))


def sheet(
    spec: DrawingSpec, outline: Element, spots: tuple[Spot, ...], translate: Mapping[str, str] | None = None
) -> str:
    """The whole drawing; the wanted place is drawn last, so that nothing covers it."""
    found, left = assign(spec.places, spots)
    high = LISTED_SIZES if spec.large and left else sizes(spec)
    in_order = sorted(found, key=lambda pair: pair[0].state == "wanted")
    marks = tuple(place_on(place, spot, high) for place, spot in in_order)
    most = 4 if spec.large else 8
    more = high.row * min(len(left), most)
    drawn = enlarged(outline, high.words - 3) if spec.large else outline
    rest = listed(left, 24, HEIGHT + high.row - 16, WIDTH - 48, most, high)
    return drawing(WIDTH, HEIGHT + more, spec.title, sentence(spec, translate), worded(drawn, translate), *marks, rest)
