"""The book on the screen: a grid like its page, kept edition by edition; what was typed is never lost to one wrong cell."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect, JsonResponse
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from gudgeon.problem import Refused
from gudgeon.web.forms import Wrong, cells
from gudgeon.web.shape import Screen, Sheet, bench, page
from gudgeon.workbench.grid import GridPage
from gudgeon.workbench.gridding import book_file, book_grid, keep, tried


@dataclass(frozen=True, slots=True, kw_only=True)
class GridSheet:
    """A page of the grid; `following` is the page that comes after it."""

    sheet: Sheet
    g: GridPage
    following: str
    problems: tuple[Wrong, ...]
    said: str


def book_sheet(name: str, edition: str, what: str = "") -> Sheet:
    """The sheet of a book's pages."""
    subtitle = _("edition %(edition)s") % {"edition": edition}
    return Sheet(door="more", title=name, subtitle=" · ".join(t for t in (subtitle, what) if t))


def _shown(request: HttpRequest, g: GridPage, said: str = "") -> HttpResponse:
    keys = [tab.key for tab in g.tabs]
    after = keys[keys.index(g.page) + 1 :] if g.page in keys else keys
    problems = tuple(Wrong(where=p.where, what=str(p.what), remedy=str(p.remedy)) for p in g.problems)
    sheet = book_sheet(g.name, g.edition, next((tab.name for tab in g.tabs if tab.key == g.page), ""))
    context = GridSheet(sheet=sheet, g=g, following=after[0] if after else "", problems=problems, said=said)
    return page(request, "screens/book/grid.html", context, status=422 if g.refused else 200)


def grid(request: HttpRequest, sha: str, part: str = "lash") -> HttpResponse:
    """A page of a book's limits; what is typed is kept as one edition."""
    try:
        if request.method != "POST":
            g = book_grid(bench(), sha, part, request.GET.get("unit", ""))
            kept = _("Kept as edition %(edition)s.") % {"edition": g.edition} if request.GET.get("kept") else ""
            return _shown(request, g, kept)
        g = keep(bench(), sha, part, cells(request))
    except Refused as refused:
        raise Http404(str(refused)) from None
    if g.refused:
        return _shown(request, g)
    onward, kept = request.POST.get("onward", ""), "&kept=1" if g.changed else ""
    return HttpResponseRedirect(f"/more/book/{g.sha256}/grid/{onward or part}?unit={g.unit}{kept}")


@require_POST
def check(request: HttpRequest, sha: str, part: str) -> JsonResponse:
    """What is wrong with the page as it is typed now: each cell's reason, each row's contradictions."""
    try:
        g, _text = tried(bench(), sha, part, cells(request))
    except Refused as refused:
        return JsonResponse({"problems": [str(p) for p in refused.problems]}, status=422)
    found = [c for r in g.rows for group in r.groups for c in (group.first, group.to, group.limit)]
    rows = {r.key: [{"severity": f.severity, "what": f.what, "sums": f.arithmetic, "remedy": f.remedy} for f in r.findings]
            for r in g.rows}  # fmt: skip
    answer = {"cells": {c.name: c.said for c in found}, "rows": rows, "problems": [str(p) for p in g.problems]}
    return JsonResponse(answer | {"elsewhere": g.elsewhere, "changed": g.changed})


@require_GET
def as_file(request: HttpRequest, sha: str) -> HttpResponse:
    """The book as the file it is kept as: the text alone."""
    try:
        name, text = book_file(bench(), sha)
    except Refused as refused:
        raise Http404(str(refused)) from None
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return HttpResponse(text, content_type="application/toml; charset=utf-8", headers=headers)


SCREEN = Screen(
    key="book",
    name="book",
    context=GridSheet,
    urls=(
        path("more/book/<str:sha>/grid", grid, name="book_grid"),
        path("more/book/<str:sha>/grid/<str:part>", grid, name="book_grid_page"),
        path("more/book/<str:sha>/grid/<str:part>/check", check, name="book_grid_check"),
        path("more/book/<str:sha>/book.toml", as_file, name="book_file"),
    ),
)
