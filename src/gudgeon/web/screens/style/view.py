"""Every element on one sheet: what a new screen is made from, and what the browser tests measure."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from gudgeon.figures.chart import ChartSpec, Series, chart
from gudgeon.figures.part import DRAWINGS, part_drawing
from gudgeon.figures.places import DrawingSpec, PlaceFigure
from gudgeon.figures.strip import StripSpec, limit_strip
from gudgeon.figures.tightening import Fastener, TighteningSpec, tightening
from gudgeon.figures.timing import TimingSpec, timing
from gudgeon.problem import refuse
from gudgeon.web.cells import Cell
from gudgeon.web.forms import Wrong, wrongs
from gudgeon.web.marks import SHAPES, mark
from gudgeon.web.shape import Screen, Sheet, page
from gudgeon.web.words import FIGURES, figures, spoken

WIDE = TighteningSpec(
    title="tightening order",
    fasteners=tuple(Fastener(name="", x=x, y=y) for x, y in ((0.1, 0.1), (0.9, 0.9), (0.9, 0.1), (0.1, 0.9))),
    stages=("15 N·m", "30 N·m"),
)
KEYS = ("7", "8", "9", "±", "⌫", "4", "5", "6", ".", "/")


@dataclass(frozen=True, slots=True, kw_only=True)
class StylePage:
    """What the page shows."""

    sheet: Sheet
    cells: tuple[Cell, ...]
    keys: tuple[str, ...]
    marks: tuple[tuple[str, str], ...]
    strips: tuple[tuple[str, str], ...]
    drawings: tuple[tuple[str, str], ...]
    problems: tuple[Wrong, ...]


def _fields() -> tuple[Cell, ...]:
    sides = (("left", "left"), ("right", "right"))
    return (
        Cell(name="size", label=_("size"), value="12.34 mm"),
        Cell(name="side", label=_("side"), choices=sides),
        Cell(name="note", label=_("note"), lines=2),
        Cell(name="count", label=_("count"), value="two", problem=_("Type a whole number.")),
        Cell(name="id", label=_("short name"), value="M-1", fixed=True),
    )


def _strips() -> tuple[tuple[str, str], ...]:
    shown = (
        ("as new", StripSpec(value=12.004, whisker=0.004, new_low=12.0, new_high=12.011, high=12.05, verdict="as new")),
        ("serviceable", StripSpec(value=12.03, whisker=0.006, new_low=12.0, new_high=12.011, high=12.05)),
        ("too close to call", StripSpec(value=12.047, whisker=0.006, new_low=12.0, new_high=12.011, high=12.05)),
        ("past limit", StripSpec(value=12.062, whisker=0.004, new_low=12.0, new_high=12.011, high=12.05)),
        ("in setting", StripSpec(value=0.12, whisker=0.01, low=0.1, high=0.15, places=2)),
        ("not measured", StripSpec(new_low=12.0, new_high=12.011, high=12.05)),
    )
    return tuple((word, figures(limit_strip(spec, FIGURES))) for word, spec in shown)


def _drawings() -> tuple[tuple[str, str], ...]:
    places = (
        PlaceFigure(key="top along", label="top, along the pin", figure="12.004", state="taken"),
        PlaceFigure(key="middle across", label="middle, across the pin", figure=None, state="wanted"),
    )
    parts = tuple(
        (kind, figures(part_drawing(kind, DrawingSpec(title=spoken(kind), places=places), FIGURES)))
        for kind in DRAWINGS
    )
    wear = Series(name="wear", points=((0.0, 12.0), (100.0, 12.01), (200.0, 12.03)))
    more = (
        ("tightening order", tightening(WIDE)),
        ("cam timing", timing(TimingSpec(title="cam timing", intake_opens_btdc_deg=12, intake_closes_abdc_deg=48,
                                         exhaust_opens_bbdc_deg=50, exhaust_closes_atdc_deg=10))),
        ("wear against hours", chart(ChartSpec(title="wear", across="h", up="mm", series=(wear,), high=12.05))),
    )  # fmt: skip
    return parts + more


def style_page() -> StylePage:
    """All of it, with invented figures."""
    wrong = refuse("cell 3", "{given} is no unit.", "Use a unit from the list.", given="furlong")
    return StylePage(
        sheet=Sheet(
            door="more",
            title=_("Style"),
            subtitle=_("every element on one sheet"),
            cells=(("engine", "Mule 4 · 12"), ("job", "26-000"), ("book", "1"), ("ledger", "1 · 0000 0000")),
        ),
        cells=_fields(),
        keys=KEYS,
        marks=tuple((word, mark(word)) for word in SHAPES),
        strips=_strips(),
        drawings=_drawings(),
        problems=wrongs(wrong),
    )


@require_GET
def style(request: HttpRequest) -> HttpResponse:
    """The page."""
    return page(request, "screens/style/style.html", style_page())


SCREEN = Screen(key="style", name="style", context=StylePage, urls=(path("style", style, name="style"),))
