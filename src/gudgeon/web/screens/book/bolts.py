"""Fasteners as a grid, and the drawing on which their bolts are tapped in the order they are tightened."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.utils.translation import gettext as _

from gudgeon.figures.tightening import Fastener, TighteningSpec, field, tightening
from gudgeon.problem import Refused
from gudgeon.web.forms import Wrong, cells, wrongs
from gudgeon.web.screens.book.shape import book_sheet
from gudgeon.web.shape import Sheet, bench, page
from gudgeon.web.words import problem_words
from gudgeon.workbench.fastening import Bolts, FastenerGrid, bolts, fastener_grid, keep_bolts, keep_fasteners


@dataclass(frozen=True, slots=True, kw_only=True)
class FastenerSheet:
    """The grid of fasteners."""

    sheet: Sheet
    g: FastenerGrid
    problems: tuple[Wrong, ...]
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BoltSheet:
    """Where the bolts sit: the drawing, its field for the finger, and the places as text."""

    sheet: Sheet
    b: Bolts
    svg: str
    field: tuple[float, float, float]
    lines: str
    problems: tuple[Wrong, ...]


def fasteners(request: HttpRequest, sha: str) -> HttpResponse:
    """Show the grid; keep what was typed as one edition."""
    problems: tuple[Wrong, ...] = ()
    try:
        if request.method == "POST":
            g = keep_fasteners(bench(), sha, cells(request))
            if not g.refused:
                return HttpResponseRedirect(f"/more/book/{g.sha256}/fasteners{'?kept=1' if g.sha256 != sha else ''}")
        else:
            g = fastener_grid(bench(), sha)[0]
    except Refused as refused:
        problems = wrongs(refused)
        g = _again(sha, cells(request))
    problems += tuple(Wrong(**problem_words(p)) for p in g.problems)
    said = _("Kept as edition %(edition)s.") % {"edition": g.edition} if request.GET.get("kept") else ""
    sheet = book_sheet(g.name, g.edition, _("fasteners"))
    context = FastenerSheet(sheet=sheet, g=g, problems=problems, said=said)
    return page(request, "screens/book/fasteners.html", context, status=422 if problems or g.refused else 200)


def _again(sha: str, typed: dict[str, str]) -> FastenerGrid:
    try:
        return fastener_grid(bench(), sha, typed)[0]
    except Refused as refused:
        raise Http404(str(refused)) from None


def where_bolts_sit(request: HttpRequest, sha: str, n: int) -> HttpResponse:
    """Show the drawing; keep the bolts as they were tapped."""
    problems: tuple[Wrong, ...] = ()
    lines = str(request.POST.get("places", ""))[:8_000]
    if request.method == "POST":
        try:
            new = keep_bolts(bench(), sha, n, lines)
            return HttpResponseRedirect(f"/more/book/{new}/fasteners?kept=1")
        except Refused as refused:
            problems = wrongs(refused)
    try:
        b = bolts(bench(), sha, n, usual=bool(request.GET.get("usual")))
    except Refused as refused:
        raise Http404(str(refused)) from None
    names = tuple(Fastener(name="", x=x, y=y) for x, y in b.drawn)
    svg = tightening(TighteningSpec(title=b.name, fasteners=names, stages=b.stages))
    context = BoltSheet(sheet=book_sheet(b.book, b.edition, b.name), b=b, svg=svg, field=field(), problems=problems,
                        lines=lines or "\n".join(f"{x:g} {y:g}" for x, y in b.places))  # fmt: skip
    return page(request, "screens/book/bolts.html", context, status=422 if problems else 200)
