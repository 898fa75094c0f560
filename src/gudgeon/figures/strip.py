"""The limit strip: where a value lies between the new part's range and the wall, in its own unit, never a percentage.

A wall is hatched, the value is a diamond, what the gauge cannot tell is its whisker. Nothing depends on a colour.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.figures.marks import hatch, wrapped
from gudgeon.figures.svg import (
    GREY,
    HEAVY,
    INK,
    PAPER,
    THICK,
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
    text_width,
)
from gudgeon.problem import refuse, said

HEIGHT, AXIS = 148.0, 54.0
#: At arm's length, beside words that say value and verdict already.
LARGE_HEIGHT, LARGE_WORDS = 114.0, 25.0
MARGIN = 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class StripSpec:
    """What a strip shows; `caption` says which value this is ("largest so far"), `verdict` what it means."""

    value: float | None = None
    whisker: float | None = None
    new_low: float | None = None
    new_high: float | None = None
    low: float | None = None
    high: float | None = None
    unit: str = "mm"
    places: int = 3
    caption: str = ""
    verdict: str = ""
    title: str = "limit strip"
    width: float = 480.0
    large: bool = False

    def __post_init__(self) -> None:
        for name, low, high in (("limit", self.low, self.high), ("new range", self.new_low, self.new_high)):
            if low is not None and high is not None and not low < high:
                what = "The {name} runs from {low} to {high}."
                raise refuse("limit strip", what, "Give the smaller end first.", name=name, low=low, high=high)
        if not 0 <= self.places <= 9 or not 120 <= self.width <= 4000 or (self.whisker or 0.0) < 0:
            what = "{places} decimals, {width} wide, whisker {whisker}: one of these is impossible."
            remedy = "Give 0 to 9 decimals, a width of 120 to 4000, no whisker below 0."
            whisker = str(self.whisker)
            raise refuse("limit strip", what, remedy, places=self.places, width=self.width, whisker=whisker)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """A straight scale from values to the drawing."""

    least: float
    most: float
    width: float

    def x(self, value: float) -> float:
        """Where a value stands, held inside the drawing."""
        share = (value - self.least) / (self.most - self.least)
        return MARGIN + min(1.0, max(0.0, share)) * (self.width - 2 * MARGIN)

    def shows(self, value: float) -> bool:
        """Whether the value itself is on the drawing."""
        return self.least <= value <= self.most


def scale(spec: StripSpec) -> Scale:
    """Set by the book's figures; follows a value beyond them as far as these stay readable."""
    marks = [m for m in (spec.new_low, spec.new_high, spec.low, spec.high) if m is not None]
    reach = spec.whisker or 0.0
    about = [spec.value - reach, spec.value + reach] if spec.value is not None else []
    ends = marks or about or [0.0]
    span = (max(ends) - min(ends)) or 4 * reach or 10.0 ** (2 - spec.places)
    least, most = min(ends) - 0.25 * span, max(ends) + 0.25 * span
    if about:
        least = max(min(least, about[0] - 0.1 * span), least - 1.5 * span)
        most = min(max(most, about[1] + 0.1 * span), most + 1.5 * span)
    return Scale(least=least, most=most, width=spec.width)


def _to_the_wall(spec: StripSpec) -> float | None:
    """The distance from the value to the nearer wall; below zero when it lies past it."""
    if spec.value is None:
        return None
    low = [] if spec.low is None else [spec.value - spec.low]
    high = [] if spec.high is None else [spec.high - spec.value]
    return min(low + high, default=None)


def _distance(spec: StripSpec, translate: Mapping[str, str] | None) -> str:
    gap = _to_the_wall(spec)
    if gap is None:
        return ""
    far = figure(abs(gap), spec.places)
    if gap < 0:
        return said("{gap} {unit} past the limit", gap=far, unit=spec.unit).words(translate)
    return said("{gap} {unit} to the limit", gap=far, unit=spec.unit).words(translate)


def _value(spec: StripSpec) -> str:
    if spec.value is None:
        return ""
    whisker = f" ± {_whisker(spec.whisker, spec.places)}" if spec.whisker else ""
    return f"{figure(spec.value, spec.places)}{whisker} {spec.unit}"


def _whisker(whisker: float, places: int) -> str:
    """As many places as the value, more where these would round the doubt away."""
    while whisker * 10.0**places < 0.95 and places < 9:
        places += 1
    return figure(whisker, places)


def _new(spec: StripSpec, translate: Mapping[str, str] | None) -> str:
    low, high = ("" if v is None else figure(v, spec.places) for v in (spec.new_low, spec.new_high))
    if low and high:
        return said("new {low} – {high}", low=low, high=high).words(translate)
    if high:
        return said("new up to {high}", high=high).words(translate)
    return said("new from {low}", low=low).words(translate) if low else ""


def _limit(value: float | None, spec: StripSpec, translate: Mapping[str, str] | None) -> str:
    return "" if value is None else said("limit {limit}", limit=figure(value, spec.places)).words(translate)


def sentence(spec: StripSpec, translate: Mapping[str, str] | None = None) -> str:
    """The strip in words, for those who do not see it."""
    first = " ".join(w for w in (spec.caption, _value(spec)) if w)
    parts = (first, _new(spec, translate), _limit(spec.low, spec, translate), _limit(spec.high, spec, translate))
    return "; ".join(p for p in (*parts, _distance(spec, translate), spec.verdict) if p)


def limit_strip(spec: StripSpec, translate: Mapping[str, str] | None = None) -> str:
    """The drawing as SVG text."""
    to = scale(spec)
    marks = (
        line(MARGIN, AXIS, spec.width - MARGIN, AXIS, INK, THIN),
        _wear_zone(spec, to),
        _new_band(spec, to, translate),
        _wall(spec.low, MARGIN, spec, to, translate),
        _wall(spec.high, spec.width - MARGIN, spec, to, translate),
        _diamond(spec, to),
        *(() if spec.large else (_captions(spec, translate),)),
    )
    return drawing(spec.width, LARGE_HEIGHT if spec.large else HEIGHT, spec.title, sentence(spec, translate), *marks)


def _centred(x: float, y: float, text: str, spec: StripSpec) -> Element:
    size = LARGE_WORDS if spec.large else 16.0
    half = text_width(text, size) / 2
    inside = max(half, min(spec.width - half, x))
    return label(inside, y + (4 if spec.large and y > AXIS else 0), text, GREY, size=size, anchor="middle")


def _wear_zone(spec: StripSpec, to: Scale) -> Element:
    """The way a part may go from new to the wall: a heavier piece of the axis."""
    pieces = []
    if spec.high is not None and spec.new_high is not None and spec.new_high < spec.high:
        pieces.append(line(to.x(spec.new_high), AXIS, to.x(spec.high), AXIS, INK, THICK))
    if spec.low is not None and spec.new_low is not None and spec.low < spec.new_low:
        pieces.append(line(to.x(spec.low), AXIS, to.x(spec.new_low), AXIS, INK, THICK))
    return group(*pieces)


def _new_band(spec: StripSpec, to: Scale, translate: Mapping[str, str] | None) -> Element:
    if spec.new_low is None and spec.new_high is None:
        return group()
    left = MARGIN if spec.new_low is None else to.x(spec.new_low)
    right = spec.width - MARGIN if spec.new_high is None else to.x(spec.new_high)
    band = poly(box(left, AXIS - 15, max(right - left, 1.5), 30))
    axis = line(left, AXIS, right, AXIS, INK, THIN)
    words = _centred((left + right) / 2, AXIS - 26, _new(spec, translate), spec)
    return group(fill(band, PAPER), stroke(band, GREY, 1.6), axis, words)


def _wall(limit: float | None, end: float, spec: StripSpec, to: Scale, translate: Mapping[str, str] | None) -> Element:
    if limit is None:
        return group()
    x = to.x(limit)
    behind = box(min(x, end), AXIS - 24, abs(end - x), 48)
    wall = line(x, AXIS - 30, x, AXIS + 28, INK, HEAVY)
    return group(hatch(behind, 8), wall, _centred(x, AXIS + 46, _limit(limit, spec, translate), spec))


def _diamond(spec: StripSpec, to: Scale) -> Element:
    if spec.value is None:
        return group()
    x, reach = to.x(spec.value), spec.whisker or 0.0
    if not to.shows(spec.value):
        tip = 16.0 if spec.value > to.most else -16.0
        return fill(poly(((x, AXIS), (x - tip, AXIS - 12), (x - tip, AXIS + 12))))
    low, high = to.x(spec.value - reach), to.x(spec.value + reach)
    ends = (line(low, AXIS - 12, low, AXIS + 12, INK, HEAVY), line(high, AXIS - 12, high, AXIS + 12, INK, HEAVY))
    whisker = (line(low, AXIS, high, AXIS, INK, HEAVY), *ends) if reach else ()
    shape = ((x, AXIS - 13), (x + 12, AXIS), (x, AXIS + 13), (x - 12, AXIS))
    return group(*whisker, fill(poly(shape)))


def _captions(spec: StripSpec, translate: Mapping[str, str] | None) -> Element:
    first = " ".join(w for w in (spec.caption, _value(spec)) if w)
    said_of_it = " · ".join(w for w in (first, spec.verdict) if w)
    size = 19.0 if text_width(said_of_it, 19) <= spec.width else max(11.0, spec.width / text_width(said_of_it, 1))
    distance = label(0, AXIS + 92, _distance(spec, translate), GREY, size=16)
    fitted = wrapped(said_of_it, spec.width, size, 1)[0]
    return group(label(0, AXIS + 70, fitted, size=size, weight=600), distance)
