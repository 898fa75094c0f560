"""The door on a network: nothing is served to a bench that was not paired and did not sign in. Alone on this computer it is open."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from urllib.parse import urlencode

from django.conf import settings
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect, JsonResponse
from django.utils.translation import gettext as _

from gudgeon.wiring.bench import pairing
from gudgeon.workbench.pairing import Paired, Pairing

COOKIE = "gudgeon_bench"
#: As long as browsers keep a cookie at most (RFC 6265bis: 400 days; from memory). Sending a bench away does not wait for it.
COOKIE_DAYS = 400
OPEN = ("/pair/", "/enter", "/worker.js")

Answer = Callable[[HttpRequest], HttpResponse]


@cache
def keeper() -> Pairing:
    """The one keeper of the door of this server."""
    return pairing()


def door(answer: Answer) -> Answer:
    """A middleware that names the bench of a request, and on a network lets no other in."""

    def guarded(request: HttpRequest) -> HttpResponse:
        if not settings.GUDGEON_NETWORK:
            return answer(request)
        bench = keeper().bench(request.COOKIES.get(COOKIE, ""))
        if bench is not None:
            request.paired = bench  # type: ignore[attr-defined]
        elif not request.path.startswith(OPEN):
            return _outside(request)
        return answer(request)

    return guarded


def let_in(response: HttpResponse, paired: Paired) -> HttpResponse:
    """Give the bench what it comes in with."""
    response.set_cookie(
        COOKIE,
        paired.secret,
        max_age=COOKIE_DAYS * 86400,
        httponly=True,
        samesite="Lax",
        secure=settings.GUDGEON_NETWORK == "tls",
    )
    return response


def _outside(request: HttpRequest) -> HttpResponse:
    """The queue is answered in JSON and keeps what it holds; a page is led to the door."""
    if request.method == "GET" and "text/html" in request.headers.get("Accept", ""):
        return HttpResponseRedirect(f"/enter?{urlencode({'to': request.get_full_path()})}")
    problem = {
        "where": "bench",
        "what": _("This bench is not paired, or was sent away."),
        "remedy": _("Pair it again; nothing is lost."),
    }
    return JsonResponse({"problems": [problem]}, status=401)
