"""Photos taken at the bench: sent to a safe place, then named by a note; shown beside the words they were taken with."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from gudgeon.problem import Refused
from gudgeon.web.forms import photo_answer, photo_sent
from gudgeon.web.shape import Sheet, bench, job_sheet, page, refusal
from gudgeon.workbench.noting import PhotoView, job_photo, keep_photo, photos_of


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotosPage:
    """Every photo of a job."""

    sheet: Sheet
    number: str
    photos: tuple[PhotoView, ...]


@require_POST
def take(request: HttpRequest, number: str) -> JsonResponse:
    """Keep a photo and answer with its digest; nothing of the job changes until a note names it."""
    try:
        return JsonResponse({"photo": keep_photo(bench(), number, photo_sent(request))})
    except Refused as refused:
        return refusal(refused)


@require_GET
def picture(request: HttpRequest, number: str, sha: str) -> HttpResponse:
    """The picture itself: always a JPEG that was made here."""
    try:
        return photo_answer(job_photo(bench(), number, sha))
    except Refused as refused:
        raise Http404(str(refused)) from None


@require_GET
def photos(request: HttpRequest, number: str) -> HttpResponse:
    """All photos of a job."""
    try:
        view = bench().view(number)
        found = photos_of(bench(), number)
    except Refused as refused:
        raise Http404(str(refused)) from None
    sheet = job_sheet("papers", view.job, view.ledger, title=_("Photos"))
    return page(request, "screens/measure/photos.html", PhotosPage(sheet=sheet, number=number, photos=found))
