"""Drawings as text: a small immutable builder, so that a screen, a paper and a test see the same drawing.

Every mark names its pen by a class (a screen swaps the scheme by it) and carries the same colour as an attribute
(paper and print), never as a ``style``. Colours are given once, as ``color``; strokes and fills say ``currentColor``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite
from typing import Literal
from unicodedata import category

from gudgeon.problem import refuse

FONTS = "'Gudgeon Sans', 'Source Sans Pro', sans-serif"
Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Pen:
    """A class name for the screen and its colour on paper."""

    name: str
    colour: str


INK = Pen("ink", "#1b2530")
GREY = Pen("grey", "#4f5762")
BLUE = Pen("blue", "#123f78")
HATCH = Pen("hatch", "#7d858e")
WASH = Pen("wash", "#dfe6f3")
PAPER = Pen("paper", "#ffffff")

CENTRE_LINE = "24 5 4 5"
DASHED = "7 5"
THIN, THICK, HEAVY = 1.2, 2.2, 4.0


UNSEEN = ("Cc", "Cf", "Cs", "Co", "Cn")


def _finite(value: float) -> float:
    if not isfinite(value):
        raise refuse("drawing", "{value} is no number to draw.", "Leave out what is not known.", value=str(value))
    return value


def plain_number(value: float) -> str:
    """The shortest text of a coordinate to a hundredth; the same on every machine."""
    text = f"{_finite(value):.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def figure(value: float, places: int) -> str:
    """A dimension figure with a true minus sign."""
    text = f"{abs(_finite(value)):.{places}f}"
    return f"−{text}" if value < 0 and text.strip("0.") else text


def printable(text: str) -> str:
    """Typed text with what cannot be seen (control and direction marks, lone surrogates) spelled out: ``‹U+0007›``."""
    return "".join(f"‹U+{ord(c):04X}›" if category(c) in UNSEEN else c for c in text)


def escaped(text: str) -> str:
    """Text safe inside an element or a quoted attribute."""
    safe = printable(text).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return safe.replace('"', "&quot;")


@dataclass(frozen=True, slots=True)
class Element:
    """One SVG element."""

    tag: str
    attributes: tuple[tuple[str, str], ...] = ()
    children: tuple[Element | str, ...] = ()

    def __str__(self) -> str:
        head = self.tag + "".join(f' {name}="{escaped(value)}"' for name, value in self.attributes)
        inner = "".join(escaped(c) if isinstance(c, str) else str(c) for c in self.children)
        return f"<{head}>{inner}</{self.tag}>" if inner else f"<{head}/>"


def element(tag: str, *children: Element | str, **attributes: str | float) -> Element:
    """An element; ``stroke_width=2`` becomes ``stroke-width="2"`` and ``class_`` becomes ``class``."""
    named = ((name.rstrip("_").replace("_", "-"), value) for name, value in attributes.items())
    return Element(tag, tuple((n, v if isinstance(v, str) else plain_number(v)) for n, v in named), children)


def group(*children: Element) -> Element:
    """Several marks as one."""
    return Element("g", (), children)


def stroke(d: str, pen: Pen = INK, width: float = THICK, dash: str = "") -> Element:
    """A line along a path; nothing is filled."""
    extra = {"stroke_dasharray": dash} if dash else {}
    return element(
        "path", class_=pen.name, color=pen.colour, d=d, fill="none", stroke="currentColor", stroke_width=width, **extra
    )


def fill(d: str, pen: Pen = INK) -> Element:
    """A solid shape."""
    return element("path", class_=pen.name, color=pen.colour, d=d, fill="currentColor")


def line(x1: float, y1: float, x2: float, y2: float, pen: Pen = INK, width: float = THICK, dash: str = "") -> Element:
    """A straight line."""
    return stroke(f"M{plain_number(x1)} {plain_number(y1)}L{plain_number(x2)} {plain_number(y2)}", pen, width, dash)


def centre_line(x1: float, y1: float, x2: float, y2: float) -> Element:
    """A long-dashed dotted thin line (ISO 128-2, line type 04.1)."""
    return line(x1, y1, x2, y2, GREY, THIN, CENTRE_LINE)


def poly(points: tuple[Point, ...], *, closed: bool = True) -> str:
    """The path text through points."""
    inner = "L".join(f"{plain_number(x)} {plain_number(y)}" for x, y in points)
    return f"M{inner}Z" if closed else f"M{inner}"


def box(x: float, y: float, width: float, height: float) -> tuple[Point, ...]:
    """The corners of an upright rectangle."""
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def mirrored(points: tuple[Point, ...], x: float) -> tuple[Point, ...]:
    """The same points on the other side of a vertical axis."""
    return tuple((2 * x - px, py) for px, py in reversed(points))


def circle(x: float, y: float, radius: float, pen: Pen = INK, width: float = THICK, dash: str = "") -> Element:
    """A circle's outline."""
    r, across, left = plain_number(radius), plain_number(2 * radius), plain_number(x - radius)
    half = f"a{r} {r} 0 1 0"
    return stroke(f"M{left} {plain_number(y)}{half} {across} 0{half} -{across} 0Z", pen, width, dash)


def label(
    x: float, y: float, text: str, pen: Pen = INK, *, size: float = 20, anchor: Anchor = "start", weight: int = 400
) -> Element:
    """One line of words or figures."""
    return element(
        "text",
        text,
        class_=pen.name,
        color=pen.colour,
        fill="currentColor",
        x=x,
        y=y,
        font_size=size,
        font_weight=weight,
        text_anchor=anchor,
    )


def text_width(text: str, size: float) -> float:
    """A generous estimate of a line's width: an average letter of the drawing's face is half its size wide."""
    return 0.52 * size * len(text)


def worded(mark: Element, words: Mapping[str, str] | None) -> Element:
    """The same marks with their words translated, where a whole line is known."""
    if not words:
        return mark
    children = tuple(words.get(c, c) if isinstance(c, str) else worded(c, words) for c in mark.children)
    return Element(mark.tag, mark.attributes, children)


def drawing(width: float, height: float, title: str, description: str, *children: Element) -> str:
    """The whole drawing, with its name and its words for those who do not see it."""
    root = element(
        "svg",
        element("title", title),
        element("desc", description),
        *children,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {plain_number(width)} {plain_number(height)}",
        role="img",
        font_family=FONTS,
    )
    return str(root)
