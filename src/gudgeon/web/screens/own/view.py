"""Something of our own: to measure, to do, or to check, in this job only and without any code."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import path
from django.utils.translation import gettext as _

from gudgeon.problem import Refused
from gudgeon.web.forms import Wrong, cells, hand, wrongs
from gudgeon.web.shape import Screen, Sheet, bench, job_sheet, page
from gudgeon.workbench.own_form import OwnForm, add_own, own_form

#: Where one goes on after each kind.
AFTER = {"measure": "measure", "step": "build", "check": "build"}
NOT_CELLS = ("by", "kind", "csrfmiddlewaretoken")


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnPage:
    """What can be chosen, and what was typed when something was refused."""

    sheet: Sheet
    form: OwnForm
    kind: str
    typed: dict[str, str]
    problems: tuple[Wrong, ...]


def own(request: HttpRequest, number: str) -> HttpResponse:
    """Show the three forms; write one of them down and go on to where it is used."""
    typed: dict[str, str] = {}
    problems: tuple[Wrong, ...] = ()
    if request.method == "POST":
        typed = cells(request)
        try:
            rows = {key: value for key, value in typed.items() if key not in NOT_CELLS}
            add_own(bench(), number, typed.get("kind", ""), rows, hand(request))
            return HttpResponseRedirect(f"/job/{number}/{AFTER.get(typed.get('kind', ''), 'measure')}")
        except Refused as refused:
            problems = wrongs(refused)
    try:
        view, form = bench().view(number), own_form(bench(), number)
    except Refused as refused:
        raise Http404(str(refused)) from None
    shown = OwnPage(
        sheet=job_sheet("measure", view.job, view.ledger, title=_("Something of our own"), subtitle=view.job.machine),
        form=form,
        kind=typed.get("kind", "measure"),
        typed=typed,
        problems=problems,
    )
    return page(request, "screens/own/own.html", shown, status=422 if problems else 200)


SCREEN = Screen(
    key="own", name="something of our own", context=OwnPage, urls=(path("job/<str:number>/own", own, name="own"),)
)
