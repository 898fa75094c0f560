"""What a draughtsman adds to an outline, in the manner of ISO 128 and ISO 129: hatching, dimensions, leaders."""

from __future__ import annotations

from math import cos, hypot, radians, sin

from gudgeon.figures.svg import (
    BLUE,
    DASHED,
    GREY,
    HATCH,
    INK,
    PAPER,
    THICK,
    THIN,
    WASH,
    Anchor,
    Element,
    Pen,
    Point,
    box,
    fill,
    group,
    label,
    line,
    plain_number,
    poly,
    stroke,
    text_width,
)

ARROW_LENGTH, ARROW_WIDTH = 13.0, 7.0


def arc(x: float, y: float, radius: float, start_deg: float, end_deg: float, steps: int = 24) -> tuple[Point, ...]:
    """Points along a circle; 0° is to the right, 90° is down (the drawing's y runs down)."""
    turn = ((start_deg + (end_deg - start_deg) * i / steps) for i in range(steps + 1))
    return tuple((x + radius * cos(radians(a)), y + radius * sin(radians(a))) for a in turn)


def hatch(outline: tuple[Point, ...], spacing: float = 9.0, angle_deg: float = -45.0, pen: Pen = HATCH) -> Element:
    """Section lines cut exactly at the outline (no clip path: ids would clash when two drawings share a page)."""
    c, s = cos(radians(angle_deg)), sin(radians(angle_deg))
    turned = [(x * c + y * s, y * c - x * s) for x, y in outline]
    low, high = min(v for _, v in turned), max(v for _, v in turned)
    pieces = []
    for row in range(int(low // spacing), int(high // spacing) + 1):
        v = (row + 0.5) * spacing
        edges = zip(turned, turned[1:] + turned[:1], strict=True)
        cuts = sorted(a + (v - b) * (p - a) / (q - b) for (a, b), (p, q) in edges if (b > v) != (q > v))
        back = tuple((u * c - v * s, u * s + v * c) for u in cuts)
        pieces += [poly(pair, closed=False) for pair in zip(back[::2], back[1::2], strict=True)]
    return stroke("".join(pieces), pen, 1.1) if pieces else group()


def section(outline: tuple[Point, ...], spacing: float = 9.0, angle_deg: float = -45.0) -> Element:
    """A cut part: hatched and outlined."""
    return group(fill(poly(outline), PAPER), hatch(outline, spacing, angle_deg), stroke(poly(outline)))


def seen(outline: tuple[Point, ...], pen: Pen = INK, width: float = THICK) -> Element:
    """A part that is seen, not cut: it covers what lies behind it."""
    return group(fill(poly(outline), PAPER), stroke(poly(outline), pen, width))


def arrow(tip: Point, towards: Point, pen: Pen = INK, size: float = 1.0) -> Element:
    """A filled arrowhead at `tip`, flying from `towards`."""
    (x, y), (fx, fy) = tip, towards
    length = hypot(x - fx, y - fy) or 1.0
    ux, uy = (x - fx) / length, (y - fy) / length
    back, half = ARROW_LENGTH * size, ARROW_WIDTH * size / 2
    left = (x - back * ux + half * uy, y - back * uy - half * ux)
    right = (x - back * ux - half * uy, y - back * uy + half * ux)
    return fill(poly((tip, left, right)), pen)


def dimension_line(start: Point, end: Point, pen: Pen = INK, width: float = THIN) -> Element:
    """A line with an arrowhead at each end; where there is no room the arrows stand outside and point in."""
    (x1, y1), (x2, y2) = start, end
    length = hypot(x2 - x1, y2 - y1)
    size = 1.25 if width > THIN else 1.0
    if length >= 3.2 * ARROW_LENGTH * size:
        return group(line(x1, y1, x2, y2, pen, width), arrow(start, end, pen, size), arrow(end, start, pen, size))
    ux, uy = ((x2 - x1) / length, (y2 - y1) / length) if length else (1.0, 0.0)
    out1 = (x1 - 2.2 * ARROW_LENGTH * ux, y1 - 2.2 * ARROW_LENGTH * uy)
    out2 = (x2 + 2.2 * ARROW_LENGTH * ux, y2 + 2.2 * ARROW_LENGTH * uy)
    return group(
        line(*out1, x1, y1, pen, width),
        line(x2, y2, *out2, pen, width),
        line(x1, y1, x2, y2, pen, THIN),
        arrow(start, out1, pen, size),
        arrow(end, out2, pen, size),
    )


def figure_on_line(at: Point, text: str, size: float = 24) -> Element:
    """A taken value, standing in a gap of its dimension line."""
    x, y = at
    half = text_width(text, size) / 2 + 8
    gap = fill(poly(box(x - half, y - size * 2 / 3, 2 * half, size * 4 / 3)), PAPER)
    return group(gap, label(x, y + size / 3, text, size=size, anchor="middle", weight=600))


def question_box(at: Point, size: float = 30) -> Element:
    """The one value that is wanted."""
    x, y = at
    wide, high = max(42.0, 1.2 * size), max(22.0, 0.62 * size)
    frame = poly(box(x - wide, y - high, 2 * wide, 2 * high))
    mark = label(x, y + size / 3, "?", BLUE, size=size, anchor="middle", weight=600)
    return group(fill(frame, WASH), stroke(frame, BLUE, 2.6), mark)


def leader(start: Point, end: Point, pen: Pen = GREY, *, dot: bool = True) -> Element:
    """A thin line from words to the place they mean, ending on it with a dot (inside an outline) or an arrow."""
    x, y = end
    mark = fill(poly(arc(x, y, 3.4, 0, 360, 12)), pen) if dot else arrow(end, start, pen)
    return group(line(*start, *end, pen, THIN), mark)


def faint(start: Point, end: Point) -> Element:
    """Where a later value will stand."""
    return line(*start, *end, HATCH, 1.4, DASHED)


def words(
    x: float, y: float, lines: tuple[str, ...], pen: Pen = GREY, size: float = 18, anchor: Anchor = "start"
) -> Element:
    """Lines of words, one under the other."""
    return group(*(label(x, y + i * size * 1.25, text, pen, size=size, anchor=anchor) for i, text in enumerate(lines)))


def wrapped(text: str, width: float, size: float = 18, most: int = 3) -> tuple[str, ...]:
    """Words broken into lines that fit, at most so many; what is left out is marked."""
    room = max(4, int(width / (0.46 * size)))
    lines: list[str] = [""]
    for word in text.split():
        piece = word if len(word) <= room else word[: room - 1] + "…"
        joined = f"{lines[-1]} {piece}".strip()
        if len(joined) <= room:
            lines[-1] = joined
        else:
            lines.append(piece)
    return tuple(lines) if len(lines) <= most else (*lines[: most - 1], lines[most - 1][: room - 1] + "…")


def turned_label(x: float, y: float, text: str, pen: Pen = GREY, size: float = 16) -> Element:
    """Words that read from the bottom upwards, centred on a point."""
    inner = label(x, y, text, pen, size=size, anchor="middle")
    spin = f"rotate(-90 {plain_number(x)} {plain_number(y)})"
    return Element(inner.tag, (*inner.attributes, ("transform", spin)), inner.children)


def curve(start: Point, first: Point, second: Point, end: Point, steps: int = 16) -> tuple[Point, ...]:
    """Points along a cubic Bézier curve, so that a curved outline can be hatched like any other."""

    def at(t: float) -> Point:
        a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
        x = a * start[0] + b * first[0] + c * second[0] + d * end[0]
        return (x, a * start[1] + b * first[1] + c * second[1] + d * end[1])

    return tuple(at(i / steps) for i in range(steps + 1))
