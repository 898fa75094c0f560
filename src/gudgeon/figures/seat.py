"""One side of a valve seat, much enlarged: throat cut, seat, top cut, the valve's face on it, and the band where they touch."""

from __future__ import annotations

from math import radians, tan

from gudgeon.figures.marks import curve, leader, section
from gudgeon.figures.places import DrawingSpec, Spot, beside, caption
from gudgeon.figures.svg import GREY, HEAVY, PAPER, THIN, Element, Point, fill, group, line, plain_number, poly, stroke

THROAT: Point = (372.0, 200.0)
DROPS = (64.0, 66.0, 42.0)
FLOOR = 430.0


def profile(angles_deg: tuple[float, float, float]) -> tuple[Point, ...]:
    """The corners of the three cuts, from the port down; an angle is measured from the chamber's floor."""
    x, y = THROAT
    corners = [THROAT]
    for angle, drop in zip(angles_deg, DROPS, strict=True):
        x, y = x - drop / tan(radians(min(max(angle, 15.0), 80.0))), y + drop
        corners.append((x, y))
    return tuple(corners)


def outline(spec: DrawingSpec) -> Element:
    """Insert and head hatched against each other, the valve seen below, angles written on thin lines."""
    cuts = profile(spec.seat_angles_deg)
    _, first, second, last = cuts
    insert = ((150, 150), (372, 150), *cuts, (last[0], FLOOR), (150, FLOOR))
    head = ((40, 80), (372, 80), (372, 150), (150, 150), (150, FLOOR), (40, FLOOR))
    names = (
        _angle(spec.seat_angles_deg[0], cuts[0], first, (300, 40)),
        _angle(spec.seat_angles_deg[1], first, second, (220, 40)),
        _angle(spec.seat_angles_deg[2], second, last, (140, 40)),
    )
    return group(
        _valve(first, second),
        section(head),
        section(insert, 7, 45),
        line(*first, *second, width=HEAVY),
        *names,
        caption(170, FLOOR + 38, "chamber"),
        caption(392, 96, "port"),
    )


def _valve(first: Point, second: Point) -> Element:
    """The valve's face lies on the seat and reaches past it on both sides."""
    ux, uy = first[0] - second[0], first[1] - second[1]
    inner = (first[0] + 0.5 * ux, first[1] + 0.5 * uy)
    outer = (second[0] - 0.35 * ux, second[1] - 0.35 * uy)
    neck = curve(inner, (inner[0] + 60, inner[1] - 40), (492, 160), (492, 80))
    body = (*neck, (508, 80), (508, outer[1] + 44), (outer[0], outer[1] + 44), outer)
    open_edge = poly((*neck,), closed=False)
    rim = poly((inner, outer, (outer[0], outer[1] + 44), (508, outer[1] + 44)), closed=False)
    return group(fill(poly(body), PAPER), stroke(open_edge, GREY, THIN), stroke(rim, GREY, 1.6))


def _angle(angle_deg: float, start: Point, end: Point, at: Point) -> Element:
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    words = caption(at[0], at[1], f"{plain_number(angle_deg)}°", "middle")
    return group(leader((at[0], at[1] + 8), middle, dot=False), words)


def spots(spec: DrawingSpec) -> tuple[Spot, ...]:
    """Width on the seat itself; contact and run-out are pointed at; the sink hangs below the floor."""
    _, first, second, _ = profile(spec.seat_angles_deg)
    off = 30.0
    start, end = (first[0] + off, first[1] + off), (second[0] + off, second[1] + off)
    middle = ((first[0] + second[0]) / 2, (first[1] + second[1]) / 2)
    return (
        beside(("width",), 330, start, end),
        beside(("contact|band|blue|pattern",), 214, None, middle),
        beside(("run|runout",), 98, None, (first[0] - 2, first[1] + 2)),
        beside(("seal|leak",), 446, None, (second[0] + 4, second[1] - 4)),
        Spot(
            words=("recession|sink|depth",),
            start=(110, FLOOR),
            end=(110, FLOOR + 60),
            figure=(110, FLOOR + 112),
            label=(170, FLOOR + 118),
        ),
    )
