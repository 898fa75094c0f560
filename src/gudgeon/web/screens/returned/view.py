"""The sheet that came back from the shop: typed or taken from its table, then written down in one go."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from gudgeon.problem import Refused
from gudgeon.web.forms import Wrong, cells, hand, uploaded, wrongs
from gudgeon.web.shape import Screen, Sheet, bench, job_sheet, page
from gudgeon.workbench.returning import Field, ReturnForm, accept, form, typed_from


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A field, and what stands in it."""

    field: Field
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnedPage:
    """What the page shows."""

    sheet: Sheet
    form: ReturnForm | None
    items: tuple[tuple[str, tuple[Line, ...]], ...]
    gauges: tuple[tuple[str, str, tuple[tuple[str, str, bool], ...]], ...]
    untouched: tuple[tuple[str, str, bool], ...]
    temperature: str
    seen: str
    problems: tuple[Wrong, ...]


def returned_page(number: str, typed: dict[str, str], problems: tuple[Wrong, ...] = ()) -> ReturnedPage:
    """The page, with what was typed so far."""
    try:
        view = bench().view(number)
    except Refused as refused:
        raise Http404(str(refused)) from None
    try:
        found = form(bench(), number)
    except Refused as refused:
        found, problems = None, problems or wrongs(refused)
    return ReturnedPage(
        sheet=job_sheet("decide", view.job, view.ledger, title=_("Back from the shop"), subtitle=view.job.machine),
        form=found,
        items=tuple((i.words, tuple(Line(field=f, text=typed.get(f.key, "")) for f in i.fields)) for i in found.items)
        if found
        else (),
        gauges=tuple((m, name, tuple((key, words, typed.get(f"gauge:{m}") == key) for key, words in known))
                     for m, name, known in found.gauges) if found else (),
        untouched=tuple((s, words, f"untouched:{s}" in typed) for s, words in found.untouched) if found else (),
        temperature=typed.get("temperature", ""),
        seen=typed.get("seen", str(found.seen if found else 0)),
        problems=problems,
    )  # fmt: skip


def show(request: HttpRequest, number: str) -> HttpResponse:
    """The empty sheet; then the whole of it lands, or none."""
    typed: dict[str, str] = {}
    problems: tuple[Wrong, ...] = ()
    if request.method == "POST":
        typed = cells(request)
        seen = typed.get("seen", "")
        try:
            rest = bool(typed.get("rest"))
            accept(
                bench(), number, typed, hand(request), seen=int(seen) if seen.isdecimal() else -1, rest_unwritten=rest
            )
            return HttpResponseRedirect(f"/job/{number}/decide")
        except Refused as refused:
            problems = wrongs(refused)
            typed.pop("seen", None)  # what arrived meanwhile is seen with this answer
    return page(
        request, "screens/returned/returned.html", returned_page(number, typed, problems), 422 if problems else 200
    )


@require_POST
def filled(request: HttpRequest, number: str) -> HttpResponse:
    """The sheet filled from the shop's own table, to be looked at before it lands."""
    try:
        name, text = uploaded(request, "table")
        shown = returned_page(number, typed_from(text.encode(), name, form(bench(), number)))
    except Refused as refused:
        shown = returned_page(number, {}, wrongs(refused))
    return page(request, "screens/returned/returned.html", shown, status=422 if shown.problems else 200)


SCREEN = Screen(
    key="returned",
    name="back from the shop",
    context=ReturnedPage,
    urls=(
        path("job/<str:number>/returned", show, name="returned"),
        path("job/<str:number>/returned/table", filled, name="returned_table"),
    ),
)
