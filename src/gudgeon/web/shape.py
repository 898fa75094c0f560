"""What a screen is, and what every screen needs: the workbench, the sheet's title block, and plain words for a refusal."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.shortcuts import render
from django.urls import URLPattern
from django.utils.translation import gettext
from django.utils.translation import gettext_noop as _

from gudgeon.problem import Refused
from gudgeon.web.words import problem_words
from gudgeon.wiring.bench import workbench
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.view import JobHead, LedgerHead


@dataclass(frozen=True, slots=True, kw_only=True)
class Screen:
    """A screen: its key, its name on the doors, the type its template sees, and its addresses."""

    key: str
    name: str
    context: type
    urls: tuple[URLPattern, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """The frame of every page: which door it stands behind, its title, and the title block's cells."""

    door: str
    title: str
    subtitle: str = ""
    job: str = ""
    cells: tuple[tuple[str, str], ...] = ()
    head: int = 0


@cache
def bench() -> Workbench:
    """The one workbench of this server."""
    return workbench()


def job_sheet(door: str, job: JobHead, ledger: LedgerHead, title: str = "", subtitle: str = "") -> Sheet:
    """The sheet of a job's page."""
    name = job.machine or job.number
    return Sheet(
        door=door,
        title=title or name[:1].upper() + name[1:],
        subtitle=subtitle,
        job=job.number,
        head=ledger.head,
        cells=(
            (_("engine"), f"{job.book.name} · {job.engine_number}"),
            (_("job"), " · ".join(t for t in (job.number, job.machine) if t)),
            (_("book"), gettext("edition %(edition)s") % {"edition": job.book.edition}),
            (_("ledger"), f"{ledger.head} · {ledger.digest[:4]} {ledger.digest[4:8]}"),
        ),
    )


def page(request: HttpRequest, template: str, context: object, status: int = 200) -> HttpResponse:
    """A page from its context; the template sees the context and nothing else."""
    fields: dict[str, Any] = {name: getattr(context, name) for name in type(context).__dataclass_fields__}  # type: ignore[attr-defined]
    get_token(request)  # the queue reads the cookie when it sends
    return render(request, template, fields, status=status)


def refusal(refused: Refused, status: int = 422) -> JsonResponse:
    """A refusal as JSON: what the command line prints with ``--json``."""
    return JsonResponse({"problems": [problem_words(p) for p in refused.problems]}, status=status)
