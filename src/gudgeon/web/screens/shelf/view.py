"""The shelf: what the workshop measures and tightens with, what lies in its drawers, changed where it stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from urllib.parse import quote, urlencode

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from gudgeon.problem import Problem, Refused
from gudgeon.web.cells import Cell, at_cells, problem_at
from gudgeon.web.forms import Wrong, cells, hand, wrongs
from gudgeon.web.grids import Grid, grid_of, typed_rows
from gudgeon.web.screens.shelf.cards import Part, card_parts
from gudgeon.web.shape import Screen, Sheet, bench, page
from gudgeon.workbench import shelving, study
from gudgeon.workbench.owning import GaugeView, OwningView, owning
from gudgeon.workbench.ports import JobRow
from gudgeon.workbench.zeros import zero_rule

GRIDS = ("wrench", "shim", "leftover")
NOTHING: Mapping[str, Problem] = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugeLine:
    """A gauge in the list, with where its card and its study are."""

    view: GaugeView
    address: str
    study: str
    repeats: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfPage:
    """What the shelf shows."""

    sheet: Sheet
    o: OwningView
    gauges: tuple[GaugeLine, ...]
    grids: tuple[Grid, ...]
    shown: str
    problems: tuple[Wrong, ...]
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugePage:
    """A gauge's card."""

    sheet: Sheet
    parts: tuple[Part, ...]
    known: str
    address: str
    study: str
    repeats: str
    zero: str
    rule: str
    shown: str
    jobs: tuple[JobRow, ...]
    problems: tuple[Wrong, ...]
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StudyPage:
    """A repeat study."""

    sheet: Sheet
    name: str
    readings: tuple[Cell, ...]
    by: Cell
    found: study.StudyView | None
    mean: str
    s: str
    counts_as: str
    before: str
    least: int
    address: str
    gauge_address: str
    shown: str
    problems: tuple[Wrong, ...]


def _at(gauge: str, what: str = "gauge") -> str:
    return f"/shelf/{what}?{urlencode({'id': gauge}, quote_via=quote)}"


def shelf_page(
    request: HttpRequest,
    problems: tuple[Wrong, ...] = (),
    typed: Mapping[str, tuple[dict[str, str], ...]] = MappingProxyType({}),
    wrong: Mapping[str, Problem] = NOTHING,
) -> ShelfPage:
    """The shelf; `typed` are the rows of a grid that was refused, with what is `wrong` in them."""
    o = owning(bench())
    lines = tuple(
        GaugeLine(view=g, address=_at(g.id), study=_at(g.id, "study"), repeats=study.card_says(shelving.gauge_cells(bench(), g.id)))
        for g in o.gauges
    )  # fmt: skip
    said = {"saved": _("Saved; the shelf before is kept."), "dropped": _("Taken off the shelf.")}
    return ShelfPage(
        sheet=Sheet(door="more", title=_("Shelf")),
        o=o,
        gauges=lines,
        grids=tuple(
            grid_of(t, typed[t] if t in typed else shelving.grid(bench(), t), wrong if t in typed else {})
            for t in GRIDS
        ),
        shown=shelving.seen(bench()),
        problems=problems,
        said=said.get(request.GET.get("said", ""), ""),
    )


@require_GET
def shelf(request: HttpRequest) -> HttpResponse:
    """The page."""
    return page(request, "screens/shelf/shelf.html", shelf_page(request))


@require_POST
def put_grid(request: HttpRequest, table: str) -> HttpResponse:
    """Keep one of its tables."""
    if table not in GRIDS:
        return page(request, "screens/shelf/shelf.html", shelf_page(request), status=404)
    sent = cells(request)
    rows = typed_rows(table, sent)
    try:
        shelving.put_grid(bench(), table, rows, shown=sent.get("shown", ""))
    except Refused as refused:
        shown = shelf_page(request, (), {table: rows}, at_cells(refused))
        return page(request, "screens/shelf/shelf.html", shown, status=422)
    return HttpResponseRedirect(f"/shelf?said=saved#h-{table}")


def gauge(request: HttpRequest) -> HttpResponse:
    """A gauge's card, or an empty one; what was typed stays until it is kept."""
    known = request.GET.get("id", "")
    if request.method != "POST":
        return _gauge(request, known, {}, NOTHING, ())
    sent = cells(request)
    try:
        kept = shelving.put_gauge(bench(), sent, known=known, shown=sent.get("shown", ""))
    except Refused as refused:
        return _gauge(request, known, sent, at_cells(refused), wrongs(refused))
    return HttpResponseRedirect(_at(kept) + "&said=saved")


def _gauge(
    request: HttpRequest, known: str, sent: dict[str, str], wrong: Mapping[str, Problem], problems: tuple[Wrong, ...]
) -> HttpResponse:
    try:
        card = shelving.gauge_cells(bench(), known) if known else {}
    except Refused as refused:
        return page(request, "screens/shelf/shelf.html", shelf_page(request, wrongs(refused)), status=404)
    typed = card | sent
    zero, rule = zero_rule(bench(), known)
    shown = GaugePage(
        sheet=Sheet(door="more", title=card.get("name", "") or _("Another gauge"), subtitle=known),
        parts=card_parts(typed, wrong, known=bool(known)),
        known=known,
        address=_at(known) if known else "/shelf/gauge",
        study=_at(known, "study"),
        repeats=study.card_says(card),
        zero=zero,
        rule=rule,
        shown=shelving.seen(bench()),
        jobs=bench().jobs(state="open", limit=50) if known else (),
        problems=problems,
        said={"saved": _("Saved."), "pinned": _("The job goes by today's card.")}.get(request.GET.get("said", ""), ""),
    )
    return page(request, "screens/shelf/gauge.html", shown, status=422 if problems else 200)


@require_POST
def drop(request: HttpRequest) -> HttpResponse:
    """Take a gauge off the shelf."""
    sent = cells(request)
    try:
        shelving.drop_gauge(bench(), sent.get("id", ""), shown=sent.get("shown", ""))
    except Refused as refused:
        return page(request, "screens/shelf/shelf.html", shelf_page(request, wrongs(refused)), status=422)
    return HttpResponseRedirect("/shelf?said=dropped")


@require_POST
def pin(request: HttpRequest) -> HttpResponse:
    """Let a running job go by today's card."""
    sent = cells(request)
    known = sent.get("id", "")
    try:
        shelving.pin_gauge(bench(), sent.get("job", ""), known, hand(request))
    except Refused as refused:
        return _gauge(request, known, {}, NOTHING, wrongs(refused))
    return HttpResponseRedirect(_at(known) + "&said=pinned")


def repeat(request: HttpRequest) -> HttpResponse:
    """A repeat study: typed, worked out, put on the card."""
    known = request.GET.get("id", "")
    sent = cells(request) if request.method == "POST" else {}
    texts = tuple(sent.get(f"r{n}", "") for n in range(1, study.WANTED + 1))
    found, wrong, problems = None, dict[str, Problem](), tuple[Wrong, ...]()
    if sent:
        try:
            found = study.studied(bench(), known, texts)
            if sent.get("do") == "keep":
                study.keep_study(bench(), known, texts, sent.get("by", ""), with_alone=bool(sent.get("with_alone")),
                                 shown=sent.get("shown", ""))  # fmt: skip
                return HttpResponseRedirect(_at(known) + "&said=saved")
        except Refused as refused:
            wrong, problems = dict(at_cells(refused)), wrongs(refused)
    return _study(request, known, sent, texts, found, wrong, problems)


def _study(
    request: HttpRequest, known: str, sent: dict[str, str], texts: tuple[str, ...], found: study.StudyView | None,
    wrong: Mapping[str, Problem], problems: tuple[Wrong, ...]
) -> HttpResponse:  # fmt: skip
    try:
        card = shelving.gauge_cells(bench(), known)
    except Refused as refused:
        return page(request, "screens/shelf/shelf.html", shelf_page(request, wrongs(refused)), status=404)
    unit = card.get("unit", "")
    shown = StudyPage(
        sheet=Sheet(door="more", title=_("Repeat study"), subtitle=card["name"]),
        name=card["name"],
        readings=tuple(
            Cell(name=f"r{n}", label=f"{n}, {unit}", value=text, problem=problem_at(wrong, f"r{n}"))
            for n, text in enumerate(texts, 1)
        ),
        by=Cell(name="by", label=_("whose hand"), value=sent.get("by", ""), problem=problem_at(wrong, "by")),
        found=found,
        mean=f"{found.mean:.6g} {found.inside}" if found else "",
        s=f"{found.s:.3g} {found.inside}" if found else "",
        counts_as=f"{found.counts_as:.3g} {found.inside}" if found else "",
        before=card.get("repeatability", _("nothing")),
        least=study.LEAST,
        address=_at(known, "study"),
        gauge_address=_at(known),
        shown=shelving.seen(bench()),
        problems=problems,
    )
    return page(request, "screens/shelf/study.html", shown, status=422 if problems else 200)


SCREEN = Screen(
    key="shelf",
    name="shelf",
    context=ShelfPage,
    urls=(
        path("shelf", shelf, name="shelf"),
        path("shelf/grid/<str:table>", put_grid, name="put_grid"),
        path("shelf/gauge", gauge, name="gauge"),
        path("shelf/drop", drop, name="drop_gauge"),
        path("shelf/pin", pin, name="pin_gauge"),
        path("shelf/study", repeat, name="repeat_study"),
    ),
)
