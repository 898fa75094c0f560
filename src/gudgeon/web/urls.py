"""Every address: those of the screens, and the two that tablets talk to."""

from __future__ import annotations

from django.urls import URLPattern, path

from gudgeon.web import entries
from gudgeon.web.catalogue import SCREENS
from gudgeon.web.worker import worker

urlpatterns: list[URLPattern] = [
    path("job/<str:number>/entries", entries.entries, name="entries"),
    path("job/<str:number>/head", entries.head, name="head"),
    path("job/<str:number>/limit", entries.limit, name="limit"),
    path("worker.js", worker, name="worker"),
    *(url for screen in SCREENS for url in screen.urls),
]

handler400 = "gudgeon.web.wrong.bad_request"
handler403 = "gudgeon.web.wrong.forbidden"
handler404 = "gudgeon.web.wrong.not_found"
handler500 = "gudgeon.web.wrong.failed"
