"""Cam timing around the crank: when each side opens and closes, running clockwise from top dead centre."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import cos, radians, sin

from gudgeon.figures.marks import arc, arrow
from gudgeon.figures.svg import (
    GREY,
    INK,
    THIN,
    Anchor,
    Element,
    centre_line,
    circle,
    drawing,
    fill,
    group,
    label,
    line,
    plain_number,
    poly,
    stroke,
)
from gudgeon.problem import refuse, said

X, Y, OUTER, INNER, RIM = 360.0, 300.0, 206.0, 162.0, 236.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TimingSpec:
    """Degrees as a book prints them: before top, after bottom, before bottom, after top; below zero is the other side."""

    title: str
    intake_opens_btdc_deg: float
    intake_closes_abdc_deg: float
    exhaust_opens_bbdc_deg: float
    exhaust_closes_atdc_deg: float

    def __post_init__(self) -> None:
        for value in self.degrees():
            if not -180 < value < 180:
                raise refuse(self.title, "{value}° is no valve event.", "Give −180° to 180°.", value=str(value))

    def degrees(self) -> tuple[float, float, float, float]:
        """The four events as printed."""
        first = (self.intake_opens_btdc_deg, self.intake_closes_abdc_deg)
        return (*first, self.exhaust_opens_bbdc_deg, self.exhaust_closes_atdc_deg)


def _open(radius: float, start_deg: float, end_deg: float, dash: str) -> Element:
    """An arc from opening to closing, in crank degrees after top, drawn clockwise with an arrow where it closes."""
    points = arc(X, Y, radius, start_deg - 90, end_deg - 90, 64)
    return group(stroke(poly(points, closed=False), INK, 5, dash), arrow(points[-1], points[-2], INK, 1.5))


def _event(crank_deg: float, radius: float, text: str) -> Element:
    dx, dy = cos(radians(crank_deg - 90)), sin(radians(crank_deg - 90))
    anchor: Anchor = "middle" if abs(dx) < 0.35 else "start" if dx > 0 else "end"
    spoke = line(X + (radius - 14) * dx, Y + (radius - 14) * dy, X + RIM * dx, Y + RIM * dy, GREY, THIN)
    return group(spoke, label(X + (RIM + 14) * dx, Y + (RIM + 14) * dy + 6, text, size=18, anchor=anchor))


def sentence(spec: TimingSpec, translate: Mapping[str, str] | None = None) -> str:
    """The timing in words."""
    text = "intake opens {a}° before top, closes {b}° after bottom; exhaust opens {c}° before bottom, closes {d}° after top"
    a, b, c, d = (plain_number(v) for v in spec.degrees())
    return said(text, a=a, b=b, c=c, d=d).words(translate)


def timing(spec: TimingSpec, translate: Mapping[str, str] | None = None) -> str:
    """The drawing as SVG text: the intake outside and full, the exhaust inside and dashed."""
    io, ic, eo, ec = spec.degrees()
    intake, exhaust, tdc, bdc = (said(w).words(translate) for w in ("intake", "exhaust", "TDC", "BDC"))
    events = ((-io, OUTER, io), (180 + ic, OUTER, ic), (180 - eo, INNER, eo), (360 + ec, INNER, ec))
    turning = arc(X, Y, 60, -150, -30, 24)
    return drawing(
        720, 600, spec.title, sentence(spec, translate),
        circle(X, Y, RIM, GREY, THIN), centre_line(X, 34, X, 566), centre_line(X - 270, Y, X + 270, Y),
        *(_event(at, radius, f"{plain_number(shown)}°") for at, radius, shown in events),
        _open(OUTER, -io, 180 + ic, ""), _open(INNER, 180 - eo, 360 + ec, "14 6"),
        label(X + 12, 32, tdc, GREY, size=17), label(X + 12, 584, bdc, GREY, size=17),
        label(X + 84, Y - 74, intake, size=19, weight=600), label(X - 24, Y + 74, exhaust, size=19, anchor="end", weight=600),
        stroke(poly(turning, closed=False), GREY, 1.6), arrow(turning[-1], turning[-2], GREY), fill(poly(arc(X, Y, 4, 0, 360)), INK),
    )  # fmt: skip
