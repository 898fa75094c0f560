"""What a gauge collected, row by row before anything lands; and another workshop's job, taken in from its archive."""

from __future__ import annotations

from base64 import b64decode, b64encode
from binascii import Error as NoBase64
from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from gudgeon.problem import Refused, refuse
from gudgeon.web.forms import Wrong, cells, hand, wrongs
from gudgeon.web.shape import Screen, Sheet, bench, job_sheet, page
from gudgeon.workbench.gauge_data import Offer, Offered, accept, choices, columns_of, offer, remembered
from gudgeon.workbench.trade import import_job

#: A gauge's file goes with the page until it is accepted; what is larger goes in by the command line.
LARGEST = 1024 * 1024
LARGEST_ARCHIVE = 200 * 1024 * 1024
#: So many rows that need nothing are shown.
SHOWN = 200
COLUMNS = ("value", "where", "point", "unit", "decimal", "separator")


@dataclass(frozen=True, slots=True, kw_only=True)
class DataPage:
    """What the page shows: the form, then the rows of a file as they were offered."""

    sheet: Sheet
    gauges: tuple[tuple[str, str], ...]
    measurands: tuple[tuple[str, str], ...]
    typed: dict[str, str]
    ready: tuple[Offered, ...]
    more: int
    open_rows: tuple[Offered, ...]
    passed: int
    offered: bool
    name: str
    file: str
    problems: tuple[Wrong, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ImportPage:
    """What the page of an archive shows."""

    sheet: Sheet
    number: str
    problems: tuple[Wrong, ...]


def data_page(number: str, typed: dict[str, str], found: Offer | None = None, file: tuple[str, bytes] = ("", b""),
              problems: tuple[Wrong, ...] = ()) -> DataPage:  # fmt: skip
    """The page of a job."""
    try:
        view = bench().view(number)
        gauges, known = choices(bench(), number, typed.get("gauge", ""))
    except Refused as refused:
        raise Http404(str(refused)) from None
    rows = found.rows if found else ()
    ready = [row for row in rows if row.state == "ready"]
    return DataPage(
        sheet=job_sheet("measure", view.job, view.ledger, title=_("From a gauge"), subtitle=view.job.machine),
        gauges=gauges,
        measurands=known,
        typed=typed,
        ready=tuple(ready[:SHOWN]),
        more=len(ready[SHOWN:]),
        open_rows=tuple(row for row in rows if row.state in ("asked", "refused")),
        passed=found.count("passed over") if found else 0,
        offered=found is not None,
        name=file[0],
        file=b64encode(file[1]).decode(),
        problems=problems,
    )


@require_GET
def show(request: HttpRequest, number: str) -> HttpResponse:
    """The form, filled with how the gauge wrote its files the last time."""
    gauge = request.GET.get("gauge", "")[:60]
    kept = remembered(bench(), gauge) if gauge else None
    typed = {"gauge": gauge} | ({name: getattr(kept, name) for name in COLUMNS} if kept else {})
    return page(request, "screens/data/data.html", data_page(number, typed))


@require_POST
def offered(request: HttpRequest, number: str) -> HttpResponse:
    """Read the file, and show what each of its rows would become."""
    typed, file = cells(request), ("", b"")
    try:
        file = _uploaded(request, "file", LARGEST)
        found = _offer(number, typed, file)
    except Refused as refused:
        shown = data_page(number, typed, problems=wrongs(refused))
        return page(request, "screens/data/data.html", shown, status=422)
    return page(request, "screens/data/data.html", data_page(number, typed, found, file))


@require_POST
def accepted(request: HttpRequest, number: str) -> HttpResponse:
    """Land the rows, or none of them: the file is read once more, and nothing but it is believed."""
    typed, found, file = cells(request), None, ("", b"")
    try:
        file = (typed.get("name", "file")[:80], b64decode(typed.get("content", ""), validate=True))
        found = _offer(number, typed, file)
        out = set(request.POST.getlist("out"))
        if typed.get("rest") == "out":
            out |= {row.row for row in found.rows if row.state == "refused"}
        accept(bench(), number, found, hand(request), confirmed=request.POST.getlist("confirmed"), left_out=out)
    except Refused as refused:
        shown = data_page(number, typed, found, file, wrongs(refused))
        return page(request, "screens/data/data.html", shown, status=422)
    except NoBase64:
        raise Http404("file") from None
    return HttpResponseRedirect(f"/job/{number}/decide")


def _offer(number: str, typed: dict[str, str], file: tuple[str, bytes]) -> Offer:
    return offer(bench(), number, file[1], file[0], columns_of(typed), typed.get("measurand", ""))


def _uploaded(request: HttpRequest, field: str, most: int) -> tuple[str, bytes]:
    file = request.FILES.get(field)
    if file is None or isinstance(file, list):
        raise refuse("file", "No file was chosen.", "Choose one first.")
    name = (file.name or "file")[:80]
    if (file.size or 0) > most:
        raise refuse(name, "It has {n} bytes.", "Send at most {most}.", n=file.size or 0, most=most)
    return name, file.read()


def take_in(request: HttpRequest) -> HttpResponse:
    """Another workshop's job from its archive, under its own number or another."""
    problems: tuple[Wrong, ...] = ()
    number = str(request.POST.get("number", "")).strip()[:60]
    if request.method == "POST":
        try:
            name, data = _uploaded(request, "archive", LARGEST_ARCHIVE)
            return HttpResponseRedirect(f"/job/{import_job(bench(), data, name, number)}/")
        except Refused as refused:
            problems = wrongs(refused)
    shown = ImportPage(sheet=Sheet(door="jobs", title=_("Take a job in")), number=number, problems=problems)
    return page(request, "screens/data/import.html", shown, status=422 if problems else 200)


SCREEN = Screen(
    key="data",
    name="from a gauge",
    context=DataPage,
    urls=(
        path("job/<str:number>/gauge-data", show, name="gauge_data"),
        path("job/<str:number>/gauge-data/rows", offered, name="gauge_rows"),
        path("job/<str:number>/gauge-data/land", accepted, name="gauge_land"),
        path("import", take_in, name="import"),
    ),
)
