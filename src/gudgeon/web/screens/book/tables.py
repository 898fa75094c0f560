"""A table copied from anywhere: offered row by row, changed by hand, taken as one edition or not at all."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from gudgeon.problem import Refused
from gudgeon.web.forms import Wrong, cells, wrongs
from gudgeon.web.screens.book.shape import book_sheet
from gudgeon.web.shape import Sheet, bench, page
from gudgeon.workbench.owning import book_page
from gudgeon.workbench.pasting import Pasted, pasted, take


@dataclass(frozen=True, slots=True, kw_only=True)
class TableSheet:
    """A table to paste, or what it offers."""

    sheet: Sheet
    sha: str
    text: str
    p: Pasted | None
    problems: tuple[Wrong, ...]


def _shown(request: HttpRequest, sha: str, text: str, p: Pasted | None, wrong: tuple[Wrong, ...]) -> HttpResponse:
    try:
        book = book_page(bench(), sha)
    except Refused as refused:
        raise Http404(str(refused)) from None
    context = TableSheet(sheet=book_sheet(book.name, book.edition, _("a copied table")), sha=sha, text=text, p=p,
                         problems=wrong)  # fmt: skip
    bad = bool(wrong) or (p is not None and p.refused)
    return page(request, "screens/book/table.html", context, status=422 if bad else 200)


def table(request: HttpRequest, sha: str) -> HttpResponse:
    """Where a table is pasted or chosen, and what it offers."""
    if request.method != "POST":
        return _shown(request, sha, "", None, ())
    text, given = str(request.POST.get("text", "")), request.FILES.get("file")
    file = None if given is None or isinstance(given, list) else ((given.name or "table")[:80], given.read())
    try:
        return _shown(request, sha, text, pasted(bench(), sha, text, file), ())
    except Refused as refused:
        return _shown(request, sha, text, None, wrongs(refused))


@require_POST
def accept(request: HttpRequest, sha: str) -> HttpResponse:
    """Take the rows that are ticked."""
    try:
        new, p = take(bench(), sha, cells(request))
    except Refused as refused:
        return _shown(request, sha, "", None, wrongs(refused))
    return HttpResponseRedirect(f"/more/book/{new}/than/{sha}?kept=1") if new else _shown(request, sha, "", p, ())
