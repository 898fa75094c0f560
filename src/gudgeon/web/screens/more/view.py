"""Behind the last door: books with their editions and audit, the shelf with every gauge's doubt, the rules."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from gudgeon.problem import Refused
from gudgeon.web.forms import Wrong, cells, uploaded, wrongs
from gudgeon.web.shape import Screen, Sheet, bench, page
from gudgeon.web.trains import Picture, pictures
from gudgeon.workbench.owning import BookPage, OwningView, book_page, owning
from gudgeon.workbench.starting import begin_book


@dataclass(frozen=True, slots=True, kw_only=True)
class MorePage:
    """What the page shows."""

    sheet: Sheet
    o: OwningView
    problems: tuple[Wrong, ...]
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BookSheet:
    """One book."""

    sheet: Sheet
    b: BookPage


@dataclass(frozen=True, slots=True, kw_only=True)
class NewBook:
    """The layout of a book that is begun; `typed` is what stood there when something was refused."""

    sheet: Sheet
    pictures: tuple[Picture, ...]
    typed: dict[str, str]
    problems: tuple[Wrong, ...]


def more_page(request: HttpRequest, problems: tuple[Wrong, ...] = ()) -> MorePage:
    """Books, shelf, rules."""
    said = {"shelf": _("The shelf was replaced; the one before is kept.")}.get(request.GET.get("said", ""), "")
    sheet = Sheet(door="more", title=_("Books, shelf, rules"))
    return MorePage(sheet=sheet, o=owning(bench()), problems=problems, said=said)


@require_GET
def more(request: HttpRequest) -> HttpResponse:
    """The page."""
    return page(request, "screens/more/more.html", more_page(request))


@require_POST
def add_book(request: HttpRequest) -> HttpResponse:
    """Keep a book from a file, and show what its audit says."""
    try:
        name, text = uploaded(request, "book")
        sha = bench().add_book(text, name=name)
    except Refused as refused:
        return page(request, "screens/more/more.html", more_page(request, wrongs(refused)), status=422)
    return HttpResponseRedirect(f"/more/book/{sha}")


def new_book(request: HttpRequest) -> HttpResponse:
    """Begin a book with nothing but its layout, and go on to its grid."""
    typed: dict[str, str] = {}
    problems: tuple[Wrong, ...] = ()
    if request.method == "POST":
        typed = cells(request)
        try:
            return HttpResponseRedirect(f"/more/book/{begin_book(bench(), typed)}/grid")
        except Refused as refused:
            problems = wrongs(refused)
    sheet = Sheet(door="more", title=_("A new book"))
    shown = NewBook(sheet=sheet, pictures=pictures(), typed=typed, problems=problems)
    return page(request, "screens/more/new.html", shown, status=422 if problems else 200)


@require_POST
def put_shelf(request: HttpRequest) -> HttpResponse:
    """Replace the shelf from a file."""
    try:
        _name, text = uploaded(request, "shelf")
        bench().put_shelf(text)
    except Refused as refused:
        return page(request, "screens/more/more.html", more_page(request, wrongs(refused)), status=422)
    return HttpResponseRedirect("/more?said=shelf")


@require_GET
def one_book(request: HttpRequest, sha: str) -> HttpResponse:
    """A kept book by its lines, with its audit."""
    try:
        b = book_page(bench(), sha)
    except Refused as refused:
        raise Http404(str(refused)) from None
    sheet = Sheet(door="more", title=b.name, subtitle=_("edition %(edition)s") % {"edition": b.edition})
    return page(request, "screens/more/book.html", BookSheet(sheet=sheet, b=b))


@require_GET
def shelf_file(request: HttpRequest) -> HttpResponse:
    """The shelf as the file it is kept as."""
    headers = {"Content-Disposition": 'attachment; filename="shelf.toml"'}
    return HttpResponse(bench().library.shelf(), content_type="text/plain; charset=utf-8", headers=headers)


SCREEN = Screen(
    key="more",
    name="books, shelf, rules",
    context=MorePage,
    urls=(
        path("more", more, name="more"),
        path("more/new", new_book, name="new_book"),
        path("more/books", add_book, name="add_book"),
        path("more/shelf", put_shelf, name="put_shelf"),
        path("more/shelf.toml", shelf_file, name="shelf_file"),
        path("more/book/<str:sha>", one_book, name="book"),
    ),
)
