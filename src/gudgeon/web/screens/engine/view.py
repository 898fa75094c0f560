"""The job page: the engine in section, taken apart along its centre line; the one thing to do next is blue."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from gudgeon.figures.stack_rows import level_figure, mark_figure
from gudgeon.problem import Refused
from gudgeon.web.marks import measure_link
from gudgeon.web.shape import Screen, Sheet, bench, job_sheet, page
from gudgeon.web.words import spoken
from gudgeon.workbench.stack import EngineView, LevelView, engine
from gudgeon.workbench.view import JobView


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One level with its drawings and where it leads."""

    level: LevelView
    mark: str
    drawing: str
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class EnginePage:
    """What the job page shows."""

    sheet: Sheet
    e: EngineView
    rows: tuple[Row, ...]
    next_words: str
    next_href: str
    open_count: int


def subtitle(view: JobView) -> str:
    """What stands beside the machine's name."""
    hours = f"{view.job.hours:g} h" if view.job.hours is not None else ""
    engine_words = f"{view.job.book.name} no. {view.job.engine_number}"
    return " · ".join(t for t in (engine_words, hours, view.job.complaint, view.job.scope_name) if t)


def href(number: str, door: str, address: str) -> str:
    """Where a level or the next thing leads."""
    if door == "measure":
        return measure_link(number, address)
    return f"/job/{number}/{door}" + (f"#{address}" if address else "")


def next_of(view: JobView) -> tuple[str, str]:
    """The blue button: its words and where it leads."""
    number, step = view.job.number, view.next
    match step.do:
        case "measure":
            return _("Measure: %(words)s") % {"words": spoken(step.words)}, measure_link(number, step.address)
        case "decide":
            return _("Decide: %(words)s") % {"words": spoken(step.words)}, href(
                number, "decide", f"plan-{step.address}"
            )
        case "wait":
            return spoken(step.words[:1].upper() + step.words[1:]), href(number, "decide", f"plan-{step.address}")
        case "hold":
            return _("Sign: %(words)s") % {"words": spoken(step.words)}, href(number, "build", f"hold-{step.address}")
        case "paper":
            return spoken(step.words[:1].upper() + step.words[1:]), href(number, "papers", "")
        case _:
            return _("Papers"), href(number, "papers", "")


def engine_page(number: str) -> EnginePage:
    """The page of a job."""
    try:
        seen = engine(bench(), number)
    except Refused as refused:
        raise Http404(str(refused)) from None
    words, where = next_of(seen.job)
    return EnginePage(
        sheet=job_sheet("engine", seen.job.job, seen.job.ledger, subtitle=subtitle(seen.job)),
        e=seen,
        rows=tuple(
            Row(
                level=level,
                mark=mark_figure(level.shape, level.word, now=level.now),  # type: ignore[arg-type]
                drawing=level_figure(level.drawing, level.name, now=level.now),
                href=href(number, level.door, level.address),
            )
            for level in seen.levels
        ),
        next_words=words,
        next_href=where,
        open_count=len(seen.job.open),
    )


@require_GET
def show(request: HttpRequest, number: str) -> HttpResponse:
    """The job page."""
    return page(request, "screens/engine/engine.html", engine_page(number))


SCREEN = Screen(key="engine", name="engine", context=EnginePage, urls=(path("job/<str:number>/", show, name="engine"),))
