"""The first page: what each job waits for, one line each, and when everything was last copied."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from gudgeon.problem import Refused
from gudgeon.web.forms import Wrong, wrongs
from gudgeon.web.shape import Screen, Sheet, bench, page
from gudgeon.workbench.ports import Copy, JobRow
from gudgeon.workbench.starting import scopes

#: About what two screens of a tablet hold; a longer list costs its time in lines that nobody looks at.
PAGE = 25


@dataclass(frozen=True, slots=True, kw_only=True)
class JobLine:
    """A job in one line."""

    row: JobRow
    scope: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JobsPage:
    """What the first page shows."""

    sheet: Sheet
    jobs: tuple[JobLine, ...]
    search: str
    more: str
    copies: tuple[Copy, ...]
    problems: tuple[Wrong, ...]
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RestorePage:
    """What is asked before a copy is put back."""

    sheet: Sheet
    copy: Copy
    problems: tuple[Wrong, ...]


def jobs_page(request: HttpRequest, problems: tuple[Wrong, ...] = ()) -> JobsPage:
    """The list, newest first; it replays nothing."""
    search = request.GET.get("search", "").strip()[:80]
    rows = bench().jobs(search=search, limit=PAGE + 1, after=request.GET.get("after", ""))
    names = dict(scopes())
    shown = tuple(JobLine(row=row, scope=names.get(row.scope, row.scope)) for row in rows[:PAGE])
    return JobsPage(
        sheet=Sheet(door="jobs", title=_("Jobs"), subtitle=_("what each waits for")),
        jobs=shown,
        search=search,
        more=shown[-1].row.number if len(rows) > PAGE else "",
        copies=bench().copies.all(),
        problems=problems,
        said={"copied": _("A checked copy was made."), "restored": _("The copy was put back.")}.get(
            request.GET.get("said", ""), ""
        ),
    )


@require_GET
def jobs(request: HttpRequest) -> HttpResponse:
    """The first page."""
    return page(request, "screens/jobs/jobs.html", jobs_page(request))


@require_POST
def make_copy(request: HttpRequest) -> HttpResponse:
    """Make a checked copy now."""
    try:
        bench().copies.make()
    except Refused as refused:
        return page(request, "screens/jobs/jobs.html", jobs_page(request, wrongs(refused)), status=422)
    return HttpResponseRedirect("/?said=copied")


def restore(request: HttpRequest, name: str) -> HttpResponse:
    """Ask, then put a copy back."""
    problems: tuple[Wrong, ...] = ()
    if request.method == "POST":
        try:
            bench().copies.restore(name)
            bench.cache_clear()  # what was worked through belongs to the ledgers that were replaced
            return HttpResponseRedirect("/?said=restored")
        except Refused as refused:
            problems = wrongs(refused)
    copy = next((c for c in bench().copies.all() if c.name == name), None)
    if copy is None:
        return page(request, "screens/jobs/jobs.html", jobs_page(request, problems), status=404)
    sheet = Sheet(door="jobs", title=_("Put a copy back"))
    shown = RestorePage(sheet=sheet, copy=copy, problems=problems)
    return page(request, "screens/jobs/restore.html", shown, status=422 if problems else 200)


SCREEN = Screen(
    key="jobs",
    name="jobs",
    context=JobsPage,
    urls=(
        path("", jobs, name="jobs"),
        path("copies/make", make_copy, name="make_copy"),
        path("copies/<str:name>/restore", restore, name="restore"),
    ),
)
