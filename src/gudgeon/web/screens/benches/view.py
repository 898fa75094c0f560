"""Benches: a tablet is paired by pointing its camera at a code, seen in a list, and sent away by a button."""

from __future__ import annotations

from dataclasses import dataclass

import segno
from django.conf import settings
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import path
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from gudgeon.figures.code import square_code
from gudgeon.problem import Refused
from gudgeon.web.door import keeper, let_in
from gudgeon.web.forms import Wrong, cells, wrongs
from gudgeon.web.shape import Screen, Sheet, page
from gudgeon.workbench.pairing import CODE_MINUTES
from gudgeon.workbench.ports import Bench


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchesPage:
    """The benches that are in, and a code for the next one when it was asked for."""

    sheet: Sheet
    network: str
    benches: tuple[Bench, ...]
    mine: str
    address: str
    code: str
    install: str
    install_code: str
    minutes: int
    problems: tuple[Wrong, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PairPage:
    """What a tablet sees that has just read a code, or whoever signs in."""

    sheet: Sheet
    counts: bool
    name: str
    to: str
    problems: tuple[Wrong, ...]


def _benches(request: HttpRequest, code: str = "", problems: tuple[Wrong, ...] = ()) -> HttpResponse:
    address = request.build_absolute_uri(f"/pair/{code}") if code else ""
    install = settings.GUDGEON_INSTALL if code else ""
    shown = BenchesPage(
        sheet=Sheet(door="more", title=_("Benches"), subtitle=_("who may come in over the network")),
        network=settings.GUDGEON_NETWORK,
        benches=keeper().benches.benches() if settings.GUDGEON_NETWORK else (),
        mine=getattr(getattr(request, "paired", None), "id", ""),
        address=address,
        code=_drawn(address, _("code that pairs a bench")) if code else "",
        install=install,
        install_code=_drawn(install, _("code of the page with the certificate")) if install else "",
        minutes=CODE_MINUTES,
        problems=problems,
    )
    return page(request, "screens/benches/benches.html", shown, status=422 if problems else 200)


def benches(request: HttpRequest) -> HttpResponse:
    """The list; with POST also a fresh code."""
    if request.method == "POST" and settings.GUDGEON_NETWORK:
        return _benches(request, keeper().new_code())
    return _benches(request)


@require_POST
def end(request: HttpRequest, bench: str) -> HttpResponse:
    """Send a bench away."""
    try:
        keeper().end(bench)
    except Refused as refused:
        return _benches(request, problems=wrongs(refused))
    return HttpResponseRedirect("/benches")


def pair(request: HttpRequest, code: str) -> HttpResponse:
    """Ask for the bench's name; looking at the address uses nothing up, the button does."""
    problems: tuple[Wrong, ...] = ()
    name = cells(request).get("name", "")
    if request.method == "POST":
        try:
            return let_in(HttpResponseRedirect("/"), keeper().pair(code, name))
        except Refused as refused:
            problems = wrongs(refused)
    counts = keeper().code_counts(code)
    sheet = Sheet(door="", title=_("A new bench"))
    shown = PairPage(sheet=sheet, counts=counts, name=name, to="", problems=problems)
    return page(request, "screens/benches/pair.html", shown, status=422 if problems else 200 if counts else 410)


def enter(request: HttpRequest) -> HttpResponse:
    """Sign in with name and password, for whoever has no camera."""
    problems: tuple[Wrong, ...] = ()
    typed = cells(request)
    to = typed.get("to") or request.GET.get("to", "/")
    if not url_has_allowed_host_and_scheme(to, allowed_hosts=None) or not to.startswith("/"):
        to = "/"
    if request.method == "POST":
        try:
            return let_in(HttpResponseRedirect(to), keeper().enter(typed.get("name", ""), typed.get("password", "")))
        except Refused as refused:
            problems = wrongs(refused)
    sheet = Sheet(door="", title=_("This bench is not paired"))
    shown = PairPage(sheet=sheet, counts=False, name=typed.get("name", ""), to=to, problems=problems)
    return page(request, "screens/benches/enter.html", shown, status=422 if problems else 200)


def _drawn(address: str, title: str) -> str:
    return square_code([[bool(cell) for cell in row] for row in segno.make(address, error="m").matrix], title)


SCREEN = Screen(
    key="benches",
    name="benches",
    context=BenchesPage,
    urls=(
        path("benches", benches, name="benches"),
        path("benches/<str:bench>/end", end, name="end_bench"),
        path("pair/<str:code>", pair, name="pair"),
        path("enter", enter, name="enter"),
    ),
)
