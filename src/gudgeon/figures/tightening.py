"""The order in which a joint is tightened: each fastener where it sits, with its number in the sequence beside its stages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.figures.marks import arrow, words
from gudgeon.figures.svg import (
    BLUE,
    GREY,
    HATCH,
    INK,
    PAPER,
    THIN,
    WASH,
    Element,
    Pen,
    centre_line,
    circle,
    drawing,
    element,
    group,
    label,
    line,
)
from gudgeon.problem import refuse, said

SIDE, PLATE, TOP, INSET = 600.0, 430.0, 60.0, 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastener:
    """A fastener's place on the joint, from 0 to 1 across (from the left side) and 0 to 1 down."""

    name: str
    x: float
    y: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TighteningSpec:
    """Fasteners in the order they are tightened; `stages` as text with units; `done` of them in this stage."""

    title: str
    fasteners: tuple[Fastener, ...]
    stages: tuple[str, ...] = ()
    state: str = ""
    left_side: str = "intake side"
    right_side: str = "exhaust side"
    done: int = 0

    def __post_init__(self) -> None:
        for f in self.fasteners:
            if not (0 <= f.x <= 1 and 0 <= f.y <= 1):
                what = "{name} sits at {x}, {y}, off the joint."
                raise refuse(self.title, what, "Give places from 0 to 1.", name=f.name, x=str(f.x), y=str(f.y))


def in_order(positions: tuple[tuple[float, float], ...], order: tuple[int, ...]) -> tuple[Fastener, ...]:
    """Places as the book has them, in mm, drawn to the size of the joint and put in the order of tightening."""
    xs, ys = [x for x, _ in positions], [y for _, y in positions]
    wide, deep = (max(xs) - min(xs)) or 1.0, (max(ys) - min(ys)) or 1.0
    places = tuple(Fastener(name="", x=(x - min(xs)) / wide, y=(y - min(ys)) / deep) for x, y in positions)
    return tuple(places[n - 1] for n in order if 1 <= n <= len(places))


def field() -> tuple[float, float, float]:
    """Where on the drawing the places lie: its left and upper edge and its side, for whoever points at one."""
    return (SIDE - PLATE) / 2 + INSET, TOP + INSET, PLATE - 2 * INSET


def _at(f: Fastener) -> tuple[float, float]:
    left, top, side = field()
    return left + f.x * side, top + f.y * side


def _bolt(order: int, f: Fastener, spec: TighteningSpec, large: bool) -> Element:
    x, y = _at(f)
    now = order == spec.done + 1 and spec.done > 0
    pen = BLUE if now else INK
    radius = 25.0 if large else 18.0
    name = label(x, y + radius + 19, f.name, GREY, size=15, anchor="middle") if large and f.name else group()
    return group(
        _disc(x, y, radius, WASH if now else PAPER),
        circle(x, y, radius, pen, 3.0 if order <= spec.done else 2.0),
        label(x, y + radius * 0.36, str(order), pen, size=radius, anchor="middle", weight=600),
        name,
    )


def _disc(x: float, y: float, radius: float, pen: Pen) -> Element:
    return element("circle", class_=pen.name, color=pen.colour, cx=x, cy=y, r=radius, fill="currentColor")


def _path(spec: TighteningSpec) -> Element:
    """A thin line from each fastener to the next, with an arrow past half way."""
    marks = []
    for a, b in zip(spec.fasteners, spec.fasteners[1:], strict=False):
        (x1, y1), (x2, y2) = _at(a), _at(b)
        middle = (x1 + 0.62 * (x2 - x1), y1 + 0.62 * (y2 - y1))
        marks += [line(x1, y1, x2, y2, HATCH, THIN), arrow(middle, (x1, y1), HATCH)]
    return group(*marks)


def sentence(spec: TighteningSpec, translate: Mapping[str, str] | None = None) -> str:
    """The order in words."""
    order = ", ".join(f.name or str(i + 1) for i, f in enumerate(spec.fasteners))
    first = said("tighten in this order: {order}", order=order).words(translate)
    return "; ".join(t for t in (first, " – ".join(spec.stages), spec.state) if t)


def tightening(spec: TighteningSpec, translate: Mapping[str, str] | None = None) -> str:
    """The drawing as SVG text."""
    left, large = (SIDE - PLATE) / 2, len(spec.fasteners) <= 12
    plate = element(
        "rect", class_="ink", color=INK.colour, x=left, y=TOP, width=PLATE, height=PLATE, rx=14, fill="none",
        stroke="currentColor", stroke_width=2.2,
    )  # fmt: skip
    below = tuple(t for t in (" – ".join(spec.stages), spec.state) if t)
    bolts = tuple(_bolt(i + 1, f, spec, large) for i, f in enumerate(spec.fasteners))
    return drawing(
        SIDE, TOP + PLATE + (84 if below else 20), spec.title, sentence(spec, translate),
        label(left + 90, TOP - 16, spec.left_side, GREY, size=17, anchor="middle"),
        label(left + PLATE - 90, TOP - 16, spec.right_side, GREY, size=17, anchor="middle"),
        plate, centre_line(SIDE / 2, TOP - 14, SIDE / 2, TOP + PLATE + 14), _path(spec), *bolts,
        words(SIDE / 2, TOP + PLATE + 40, below, INK, 20, "middle"),
    )  # fmt: skip
