"""What is said when an address or a request is wrong: a sentence on a sheet, never a stack trace."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.utils.translation import gettext as _

from gudgeon.web.shape import Sheet


def _say(request: HttpRequest, status: int, what: str, remedy: str) -> HttpResponse:
    if request.path.endswith(("/entries", "/head")):
        return JsonResponse({"problems": [{"where": request.path, "what": what, "remedy": remedy}]}, status=status)
    sheet = Sheet(door="", title=what)
    return render(request, "wrong.html", {"sheet": sheet, "what": what, "remedy": remedy}, status=status)


def bad_request(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """The request makes no sense."""
    return _say(request, 400, _("This request makes no sense."), _("Go back to the jobs."))


def forbidden(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """Not signed in, or the page is from before a restart."""
    return _say(
        request,
        403,
        _("The bench does not know this page any more."),
        _("Load it again; what waits in the queue stays."),
    )


def no_token(request: HttpRequest, reason: str = "") -> HttpResponse:
    """The page's token is missing or old."""
    return forbidden(request)


def not_found(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """No such job or page."""
    return _say(request, 404, _("There is no such page."), _("Go back to the jobs."))


def failed(request: HttpRequest) -> HttpResponse:
    """A fault of ours."""
    return _say(
        request, 500, _("Something failed inside Gudgeon."), _("Nothing half was written. Go back to the jobs.")
    )
