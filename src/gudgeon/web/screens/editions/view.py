"""Putting a job on another edition of its book: what differs is seen first, and the change is an entry of its own."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import path
from django.utils.translation import gettext as _

from gudgeon.problem import Refused
from gudgeon.web.forms import Wrong, cells, hand, wrongs
from gudgeon.web.shape import Screen, Sheet, bench, job_sheet, page
from gudgeon.workbench.comparing import DifferenceLine
from gudgeon.workbench.editions import if_pinned, pin
from gudgeon.workbench.starting import BookCard, kept_books


@dataclass(frozen=True, slots=True, kw_only=True)
class EditionPage:
    """The editions there are, the one that was looked at, and what would differ."""

    sheet: Sheet
    books: tuple[BookCard, ...]
    chosen: str
    differences: tuple[DifferenceLine, ...]
    problems: tuple[Wrong, ...]


def edition_page(number: str, chosen: str, problems: tuple[Wrong, ...] = ()) -> EditionPage:
    """The page of a job, with one edition held against the job's own."""
    try:
        view = bench().view(number)
        own = bench().loaded(number).book()
    except Refused as refused:
        raise Http404(str(refused)) from None
    differences: tuple[DifferenceLine, ...] = ()
    if chosen and not problems:
        try:
            differences = if_pinned(bench(), number, chosen)
        except Refused as refused:
            chosen, problems = "", wrongs(refused)
    others = (card for card in kept_books(bench()) if card.sha256 != own)
    return EditionPage(
        sheet=job_sheet("engine", view.job, view.ledger, title=_("Another edition"), subtitle=view.job.machine),
        books=tuple(sorted(others, key=lambda card: card.name != view.job.book.name)),
        chosen=chosen,
        differences=differences,
        problems=problems,
    )


def editions(request: HttpRequest, number: str) -> HttpResponse:
    """Show what would differ; put the job on the edition that was looked at."""
    if request.method != "POST":
        shown = edition_page(number, request.GET.get("to", "")[:64])
    else:
        to = cells(request).get("to", "")
        try:
            pin(bench(), number, to, hand(request))
            return HttpResponseRedirect(f"/job/{number}/decide")
        except Refused as refused:
            shown = edition_page(number, "", wrongs(refused))
    return page(request, "screens/editions/editions.html", shown, status=422 if shown.problems else 200)


SCREEN = Screen(
    key="editions",
    name="another edition",
    context=EditionPage,
    urls=(path("job/<str:number>/edition", editions, name="editions"),),
)
