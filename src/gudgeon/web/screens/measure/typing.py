"""Type a sheet: for those who write on paper first, the fields stand in the order of the printed sheet."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from gudgeon.problem import Refused
from gudgeon.web.shape import Sheet, bench, job_sheet, page
from gudgeon.workbench.sheet_typing import KindView, sheet_of


@dataclass(frozen=True, slots=True, kw_only=True)
class TypingPage:
    """The sheet's fields."""

    sheet: Sheet
    number: str
    groups: tuple[tuple[str, tuple[KindView, ...]], ...]


@require_GET
def typing(request: HttpRequest, number: str) -> HttpResponse:
    """The whole sheet; each field is sent by itself through the tablet's queue."""
    try:
        found = sheet_of(bench(), number)
    except Refused as refused:
        raise Http404(str(refused)) from None
    sheet = job_sheet("measure", found.job, found.ledger, title=_("Type a sheet"))
    return page(request, "screens/measure/typing.html", TypingPage(sheet=sheet, number=number, groups=found.groups))
