"""A book beside another one: made like it, held against it; and the photo beside one of its rows."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from gudgeon.problem import Refused
from gudgeon.web.forms import Wrong, photo_answer, photo_sent, wrongs
from gudgeon.web.screens.book.shape import book_sheet
from gudgeon.web.shape import Sheet, bench, page
from gudgeon.workbench.comparing import DifferenceLine, compare, make_like
from gudgeon.workbench.grid import page_of
from gudgeon.workbench.gridding import text_of
from gudgeon.workbench.owning import BookPage, book_page
from gudgeon.workbench.photos import photo, put_photo, row_name, take_photo_away
from gudgeon.workbench.starting import BookCard, kept_books


@dataclass(frozen=True, slots=True, kw_only=True)
class LikeSheet:
    """Which name the new book gets."""

    sheet: Sheet
    b: BookPage
    typed: str
    problems: tuple[Wrong, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ThanSheet:
    """What differs from another book or edition, cell by cell."""

    sheet: Sheet
    b: BookPage
    other: BookPage
    differences: tuple[DifferenceLine, ...]
    books: tuple[BookCard, ...]
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoSheet:
    """The photo beside a row."""

    sheet: Sheet
    sha: str
    key: str
    name: str
    back: str
    there: bool
    problems: tuple[Wrong, ...]


def _book(sha: str) -> BookPage:
    try:
        return book_page(bench(), sha)
    except Refused as refused:
        raise Http404(str(refused)) from None


def like(request: HttpRequest, sha: str) -> HttpResponse:
    """A book of another name; its differences are typed in the grid next."""
    b, typed, problems = _book(sha), str(request.POST.get("name", "")), tuple[Wrong, ...]()
    if request.method == "POST":
        try:
            new = make_like(bench(), sha, typed)
            return HttpResponseRedirect(f"/more/book/{new}/grid/lash?than={sha}")
        except Refused as refused:
            problems = wrongs(refused)
    sheet = book_sheet(b.name, b.edition, _("like this one, except"))
    context = LikeSheet(sheet=sheet, b=b, typed=typed, problems=problems)
    return page(request, "screens/book/like.html", context, status=422 if problems else 200)


@require_GET
def than(request: HttpRequest, sha: str, other: str = "") -> HttpResponse:
    """What differs from another book."""
    b, other = _book(sha), request.GET.get("other", "") or other
    seen = _book(other)
    said = _("Kept as edition %(edition)s.") % {"edition": b.edition} if request.GET.get("kept") else ""
    context = ThanSheet(
        sheet=book_sheet(b.name, b.edition, _("against %(name)s, edition %(edition)s") % {
            "name": seen.name, "edition": seen.edition}),
        b=b, other=seen, said=said, books=tuple(c for c in kept_books(bench()) if c.sha256 != sha),
        differences=compare(text_of(bench(), other), text_of(bench(), sha)),
    )  # fmt: skip
    return page(request, "screens/book/than.html", context)


def photo_page(request: HttpRequest, sha: str, key: str) -> HttpResponse:
    """Look at the photo beside a row, take another, or take it away."""
    b, problems = _book(sha), tuple[Wrong, ...]()
    back = f"/more/book/{sha}/grid/{page_of(key)}"
    if request.method == "POST":
        try:
            if request.POST.get("away"):
                take_photo_away(bench(), sha, key)
                return HttpResponseRedirect(back)
            put_photo(bench(), sha, key, photo_sent(request))
            return HttpResponseRedirect(f"/more/book/{sha}/photo/{key}")
        except Refused as refused:
            problems = wrongs(refused)
    context = PhotoSheet(sheet=book_sheet(b.name, b.edition, row_name(key)), sha=sha, key=key, name=row_name(key),
                         back=back, there=_there(sha, key), problems=problems)  # fmt: skip
    return page(request, "screens/book/photo.html", context, status=422 if problems else 200)


def _there(sha: str, key: str) -> bool:
    try:
        return bool(photo(bench(), sha, key))
    except Refused:
        return False


@require_GET
def photo_file(request: HttpRequest, sha: str, key: str) -> HttpResponse:
    """The picture itself: always a JPEG that was made here."""
    try:
        return photo_answer(photo(bench(), sha, key))
    except Refused as refused:
        raise Http404(str(refused)) from None
