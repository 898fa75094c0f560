"""The headers of every answer: nothing from elsewhere, nothing inline, nothing guessed."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; font-src 'self'; "
    "connect-src 'self'; manifest-src 'self'; worker-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)

Answer = Callable[[HttpRequest], HttpResponse]


def safety(answer: Answer) -> Answer:
    """A middleware that sets the policy."""

    def guarded(request: HttpRequest) -> HttpResponse:
        response = answer(request)
        response.setdefault("Content-Security-Policy", POLICY)
        response.setdefault("Cache-Control", "no-store")
        return response

    return guarded
