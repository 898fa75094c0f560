"""Papers and the ledger: what was handed over, every entry as people read it, and taking one back with eyes open."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from gudgeon.problem import Refused
from gudgeon.web.forms import Wrong, hand, wrongs
from gudgeon.web.shape import Screen, Sheet, bench, job_sheet, page
from gudgeon.workbench.data_out import export
from gudgeon.workbench.leftovers import Left, keep, left
from gudgeon.workbench.papers import PaperKind, issue, paper, paper_html, papers, what_changed
from gudgeon.workbench.view import EntryView, JobView

#: So many entries stand on the page at first.
SHOWN = 60
#: What can never be retracted, and what a retraction is not asked for.
FOR_GOOD = ("job_opened", "paper_issued", "retraction", "gauge_pinned")


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryLine:
    """An entry, and whether it may be taken back here."""

    entry: EntryView
    at: str
    retractable: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Retracting:
    """An entry that somebody wants to take back, and what would change."""

    entry: EntryView
    changes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Superseded:
    """A paper that was handed over and no longer says what the job says: each line with what became of it."""

    name: str
    entry: int
    lines: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PapersPage:
    """What the page of papers shows."""

    sheet: Sheet
    job: JobView
    kinds: tuple[PaperKind, ...]
    entries: tuple[EntryLine, ...]
    older: int
    search: str
    retracting: Retracting | None
    superseded: Superseded | None
    problems: tuple[Wrong, ...]
    open_count: int
    left: tuple[Left, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperSheet:
    """One paper on the screen."""

    sheet: Sheet
    number: str
    kind: PaperKind
    paper: str


def papers_page(request: HttpRequest, number: str, problems: tuple[Wrong, ...] = ()) -> PapersPage:
    """The page of a job."""
    try:
        view = bench().view(number)
        retracting = _retracting(view, request.GET.get("retract", ""))
        superseded = _superseded(view, request.GET.get("changed", ""))
    except Refused as refused:
        raise Http404(str(refused)) from None
    search = request.GET.get("search", "").strip()[:80]
    found = [e for e in reversed(view.entries) if search.casefold() in f"{e.seq} {e.words} {e.where} {e.by}".casefold()]
    shown = found if request.GET.get("all") else found[:SHOWN]
    return PapersPage(
        sheet=job_sheet("papers", view.job, view.ledger, title=_("Papers"), subtitle=view.job.machine),
        job=view,
        kinds=tuple(papers(view)),
        entries=tuple(_line(e) for e in shown),
        older=len(found) - len(shown),
        search=search,
        retracting=retracting,
        superseded=superseded,
        problems=problems,
        open_count=len(view.open),
        left=left(bench(), number) if view.job.state != "open" else (),
    )


def _line(entry: EntryView) -> EntryLine:
    at = entry.at[:16].replace("T", " ")
    return EntryLine(entry=entry, at=at, retractable=not entry.retracted and entry.fact not in FOR_GOOD)


def _retracting(view: JobView, seq: str) -> Retracting | None:
    if not seq.isdecimal():
        return None
    entry = next((e for e in view.entries if e.seq == int(seq)), None)
    if entry is None or entry.retracted or entry.fact in FOR_GOOD:
        return None
    return Retracting(entry=entry, changes=bench().if_retracted(view.job.number, entry.seq))


def _superseded(view: JobView, entry: str) -> Superseded | None:
    for kind in papers(view):
        for issued in kind.issued:
            if str(issued.entry) == entry:
                lines = tuple(_change(line) for line in what_changed(bench(), view.job.number, issued))
                return Superseded(name=kind.name, entry=issued.entry, lines=lines)
    return None


def _change(line: str) -> tuple[str, str]:
    """A change as (what became of it, the line); the count of those left out has no such word."""
    word, colon, rest = line.partition(": ")
    named = {"no longer": _("no longer"), "now": _("now")}
    return (named[word], rest) if colon and word in named else ("", line)


@require_GET
def show(request: HttpRequest, number: str) -> HttpResponse:
    """The page of papers."""
    return page(request, "screens/papers/papers.html", papers_page(request, number))


@require_POST
def leftovers(request: HttpRequest, number: str) -> HttpResponse:
    """Book what is left over to the shelf."""
    counts = {key.removeprefix("left."): str(value) for key, value in request.POST.items() if key.startswith("left.")}
    try:
        keep(bench(), number, counts)
    except Refused as refused:
        return page(request, "screens/papers/papers.html", papers_page(request, number, wrongs(refused)), status=422)
    return HttpResponseRedirect(f"/job/{number}/papers")


@require_GET
def one_paper(request: HttpRequest, number: str, kind: str) -> HttpResponse:
    """A paper as a page, to be looked at before it is printed."""
    known = next((k for k in papers() if k.key == kind), None)
    if known is None:
        raise Http404(kind)
    try:
        view = bench().view(number)
        sheet = job_sheet("papers", view.job, view.ledger, title=known.name, subtitle=known.for_whom)
        shown = PaperSheet(sheet=sheet, number=number, kind=known, paper=paper_html(bench(), number, kind))
    except Refused as refused:
        return page(request, "screens/papers/papers.html", papers_page(request, number, wrongs(refused)), status=422)
    return page(request, "screens/papers/paper.html", shown)


@require_GET
def as_pdf(request: HttpRequest, number: str, kind: str) -> HttpResponse:
    """A paper as a file for the printer."""
    try:
        data = paper(bench(), number, kind, size=request.GET.get("size", "a4"))
    except Refused as refused:
        return page(request, "screens/papers/papers.html", papers_page(request, number, wrongs(refused)), status=422)
    headers = {"Content-Disposition": f'inline; filename="{number}-{kind}.pdf"'}
    return HttpResponse(data, content_type="application/pdf", headers=headers)


@require_POST
def hand_over(request: HttpRequest, number: str, kind: str) -> HttpResponse:
    """Write down that a paper was handed over as it stands."""
    try:
        issue(bench(), number, kind, hand(request))
    except Refused as refused:
        return page(request, "screens/papers/papers.html", papers_page(request, number, wrongs(refused)), status=422)
    return HttpResponseRedirect(f"/job/{number}/papers")


#: The files a job is given out as: the end of their names, what is written, and what a browser is told.
FILES: dict[str, tuple[str, Literal["readings", "verdicts"], str]] = {
    "gudgeon.zip": (".zip", "readings", "application/zip"),
    "xlsx": (".xlsx", "readings", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"),
    "readings.csv": (".csv", "readings", "text/csv; charset=utf-8"),
    "verdicts.csv": (".csv", "verdicts", "text/csv; charset=utf-8"),
    "json": (".json", "readings", "application/json"),
}


@require_GET
def data(request: HttpRequest, number: str, name: str) -> HttpResponse:
    """The job as a file: whole, as tables, or for other programs."""
    if name not in FILES:
        raise Http404(name)
    ending, table, kind = FILES[name]
    try:
        given = export(bench(), number, ending, table)
    except Refused as refused:
        shown = papers_page(request, number, wrongs(refused))
        return page(request, "screens/papers/papers.html", shown, status=422)
    headers = {"Content-Disposition": f'attachment; filename="{number}.{name}"'}
    return HttpResponse(given, content_type=kind, headers=headers)


SCREEN = Screen(
    key="papers",
    name="papers",
    context=PapersPage,
    urls=(
        path("job/<str:number>/papers", show, name="papers"),
        path("job/<str:number>/leftovers", leftovers, name="leftovers"),
        path("job/<str:number>/paper/<str:kind>.pdf", as_pdf, name="pdf"),
        path("job/<str:number>/paper/<str:kind>/issued", hand_over, name="issued"),
        path("job/<str:number>/paper/<str:kind>", one_paper, name="paper"),
        path("job/<str:number>/data/<str:name>", data, name="data"),
    ),
)
