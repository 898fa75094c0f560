"""The book on the screen: a grid like its page, kept edition by edition; what was typed is never lost to one wrong cell."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect, JsonResponse
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from gudgeon.problem import Refused
from gudgeon.web.forms import Wrong, cells
from gudgeon.web.screens.book import bolts, others, tables
from gudgeon.web.screens.book.shape import book_sheet
from gudgeon.web.shape import Screen, Sheet, bench, page
from gudgeon.web.words import problem_words
from gudgeon.workbench.comparing import DifferenceLine, compare
from gudgeon.workbench.grid import GridPage
from gudgeon.workbench.gridding import book_file, book_grid, keep, text_of, tried
from gudgeon.workbench.starting import kept_books


@dataclass(frozen=True, slots=True, kw_only=True)
class GridSheet:
    """A page of the grid; `following` is the page that comes after it."""

    sheet: Sheet
    g: GridPage
    following: str
    problems: tuple[Wrong, ...]
    said: str
    than: str
    differences: tuple[DifferenceLine, ...]


def _shown(request: HttpRequest, g: GridPage, said: str = "") -> HttpResponse:
    keys = [tab.key for tab in g.tabs]
    after = keys[keys.index(g.page) + 1 :] if g.page in keys else keys
    problems = tuple(Wrong(**problem_words(p)) for p in g.problems)
    sheet = book_sheet(g.name, g.edition, next((tab.name for tab in g.tabs if tab.key == g.page), ""))
    than = str(request.POST.get("than", request.GET.get("than", "")))
    other = bench().library.book(than) if than else None
    context = GridSheet(sheet=sheet, g=g, following=after[0] if after else "", problems=problems, said=said,
                        than=than if other else "",
                        differences=compare(other, text_of(bench(), g.sha256)) if other else ())  # fmt: skip
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
    than = f"&than={request.POST['than']}" if request.POST.get("than", "").isalnum() else ""
    to = onward if onward.isalpha() else part
    return HttpResponseRedirect(f"/more/book/{g.sha256}/grid/{to}?unit={g.unit}{kept}{than}")


@require_GET
def newest(request: HttpRequest) -> HttpResponse:
    """The grid of the book that was kept last."""
    books = kept_books(bench())
    return grid(request, books[0].sha256) if books else HttpResponseRedirect("/more")


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
        path("more/grid", newest, name="book_newest"),
        path("more/book/<str:sha>/grid", grid, name="book_grid"),
        path("more/book/<str:sha>/grid/<str:part>", grid, name="book_grid_page"),
        path("more/book/<str:sha>/grid/<str:part>/check", check, name="book_grid_check"),
        path("more/book/<str:sha>/table", tables.table, name="book_table"),
        path("more/book/<str:sha>/table/accept", tables.accept, name="book_table_accept"),
        path("more/book/<str:sha>/fasteners", bolts.fasteners, name="book_fasteners"),
        path("more/book/<str:sha>/bolts/<int:n>", bolts.where_bolts_sit, name="book_bolts"),
        path("more/book/<str:sha>/like", others.like, name="book_like"),
        path("more/book/<str:sha>/than", others.than, name="book_against"),
        path("more/book/<str:sha>/than/<str:other>", others.than, name="book_than"),
        path("more/book/<str:sha>/photo/<str:key>", others.photo_page, name="book_photo"),
        path("more/book/<str:sha>/photo/<str:key>/picture.jpg", others.photo_file, name="book_photo_file"),
        path("more/book/<str:sha>/book.toml", as_file, name="book_file"),
    ),
)
