"""Intake: whose engine, how worn, what it complains of, in their words; and which book it is judged by."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import path
from django.utils.translation import gettext as _

from gudgeon.problem import Refused
from gudgeon.web.forms import Wrong, cells, hand, wrongs
from gudgeon.web.shape import Screen, Sheet, bench, page
from gudgeon.web.trains import Picture, pictures
from gudgeon.wiring.bench import people
from gudgeon.workbench.starting import BookCard, kept_books, next_number, scopes, take_in


@dataclass(frozen=True, slots=True, kw_only=True)
class IntakePage:
    """What the intake page shows; `typed` is what stood in its fields when something was refused."""

    sheet: Sheet
    books: tuple[BookCard, ...]
    scopes: tuple[tuple[str, str], ...]
    pictures: tuple[Picture, ...]
    typed: dict[str, str]
    problems: tuple[Wrong, ...]
    fewer_hours: bool


def intake(request: HttpRequest) -> HttpResponse:
    """Show the page; open the job and go on to the bench."""
    typed: dict[str, str] = {"number": next_number(bench())}
    problems: tuple[Wrong, ...] = ()
    fewer_hours = False
    if request.method == "POST":
        typed = cells(request)
        try:
            number = take_in(bench(), typed, _owner(typed), hand(request))
            return HttpResponseRedirect(f"/job/{number}/measure")
        except Refused as refused:
            problems = wrongs(refused)
            fewer_hours = "another_meter" in typed or any(p.where == "hours" for p in refused.problems)
    books = tuple(b for b in kept_books(bench()) if b.newest)
    typed.setdefault("book", books[0].sha256 if books else "own")
    shown = IntakePage(
        sheet=Sheet(door="jobs", title=_("Open a job")),
        books=books,
        scopes=scopes(),
        pictures=pictures(),
        typed=typed,
        problems=problems,
        fewer_hours=fewer_hours,
    )
    return page(request, "screens/intake/intake.html", shown, status=422 if problems else 200)


def _owner(typed: dict[str, str]) -> str:
    """The owner's id; name and telephone stand beside the ledger."""
    name, phone = typed.get("owner", "").strip()[:120], typed.get("phone", "").strip()[:60]
    if not name:
        return ""
    person = bench().clock.new_id()
    people().put(person, name=name, phone=phone)
    return person


SCREEN = Screen(key="intake", name="open a job", context=IntakePage, urls=(path("open", intake, name="intake"),))
