"""A calculator as a page: its fields, filled in by the address that opened it, and its answer with method and source."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import Http404, HttpRequest, HttpResponse
from django.urls import path
from django.utils.translation import gettext as _

from gudgeon.calculators.asking import work_out
from gudgeon.calculators.catalogue import CALCULATORS, calculator
from gudgeon.calculators.shape import FILE, Answer, Calculator, Key
from gudgeon.figures.chart import ChartSpec, Mark, Series, chart
from gudgeon.figures.timing import TimingSpec, timing
from gudgeon.problem import Refused
from gudgeon.web.forms import Wrong, uploaded, wrongs
from gudgeon.web.shape import Screen, Sheet, page
from gudgeon.web.words import FIGURES, figures, spoken

MOST_TYPED = 4000
KEPT = ("back",)
"""What may stand in the address beside the fields: where the page was opened from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One field of the form, as it was typed."""

    name: str
    help: str
    unit: str
    value: str
    choices: tuple[str, ...]
    file: bool
    needed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class CalcPage:
    """A calculator, what was typed, and what comes of it."""

    sheet: Sheet
    key: str
    line: str
    fields: tuple[Field, ...]
    example: str
    figures: tuple[tuple[str, str, str], ...]
    answer: Answer | None
    drawn: str
    problems: tuple[Wrong, ...]
    back: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ListPage:
    """All calculators."""

    sheet: Sheet
    calculators: tuple[tuple[str, str], ...]


def calculators(request: HttpRequest) -> HttpResponse:
    """All calculators, one line each."""
    found = tuple((name, line) for name, (line, _module) in CALCULATORS.items())
    sheet = Sheet(door="more", title=_("Calculators"))
    return page(request, "screens/calc/calculators.html", ListPage(sheet=sheet, calculators=found))


def calc(request: HttpRequest, name: str) -> HttpResponse:
    """The form, and the answer once enough was given: in the address, or with a file."""
    try:
        kind = calculator(name)
    except Refused as refused:
        raise Http404(str(refused)) from None
    typed, problems = _typed(request, kind)
    answer = None
    if typed and not problems and (request.method == "POST" or _enough(kind, typed)):
        try:
            answer = work_out(kind, typed.items())
        except Refused as refused:
            problems = wrongs(refused)
    shown = tuple(_field(key, typed) for key in kind.keys)
    found = tuple((r.name, _shown(r.value), r.unit) for r in answer.results) if answer else ()
    context = CalcPage(
        sheet=Sheet(door="more", title=kind.key.replace("-", " ").capitalize(), subtitle=_("calculator")),
        key=kind.key,
        line=kind.line,
        fields=shown,
        example=kind.example,
        figures=found,
        answer=answer,
        drawn=figures(_drawn(kind, answer)) if answer else "",
        problems=problems,
        back=_back(request),
    )
    return page(request, "screens/calc/calc.html", context, status=422 if problems else 200)


def _drawn(kind: Calculator, answer: Answer) -> str:
    """The figure of the answer, where it has one: the events around the crank, or lines over it."""
    title = spoken(kind.key.replace("-", " "))
    if answer.events:
        opens, closes, out, shuts = answer.events
        spec = TimingSpec(title=title, intake_opens_btdc_deg=opens, intake_closes_abdc_deg=closes,
                          exhaust_opens_bbdc_deg=out, exhaust_closes_atdc_deg=shuts)  # fmt: skip
        return timing(spec, FIGURES)
    if not answer.curves:
        return ""
    marks: tuple[Mark, ...] = ("dashed", "dotted", "none")
    lines = tuple(
        Series(name=spoken(c.name), points=c.points, mark=mark) for c, mark in zip(answer.curves, marks, strict=False)
    )
    return chart(ChartSpec(title=title, across="°", up="mm", series=lines, low=0.0, places=1), FIGURES)


def _typed(request: HttpRequest, kind: Calculator) -> tuple[dict[str, str], tuple[Wrong, ...]]:
    """What stands in the fields; an empty field was not given."""
    given = request.POST if request.method == "POST" else request.GET
    typed = {key.name: str(given.get(key.name, ""))[:MOST_TYPED].strip() for key in kind.keys}
    problems: tuple[Wrong, ...] = ()
    for key in kind.keys:
        if key.dimension == FILE and key.name in request.FILES:
            try:
                typed[key.name] = uploaded(request, key.name)[1].removeprefix("\ufeff")
            except Refused as refused:
                problems += wrongs(refused)
    return {name: text for name, text in typed.items() if text}, problems


def _enough(kind: Calculator, typed: dict[str, str]) -> bool:
    return all(key.name in typed for key in kind.keys if key.required)


def _field(key: Key, typed: dict[str, str]) -> Field:
    file = key.dimension == FILE
    return Field(
        name=key.name,
        help=key.help,
        unit="" if key.choices or file else (key.bare_unit or ""),
        value="" if file else typed.get(key.name, key.default or ""),
        choices=key.choices,
        file=file,
        needed=key.required,
    )


def _shown(value: float | str) -> str:
    if isinstance(value, str):
        return value
    text = f"{value:.6g}" if abs(value) < 1e6 else f"{value:.0f}"
    return text.replace("-", "−", 1) if text.startswith("-") else text


def _back(request: HttpRequest) -> str:
    """Back to the job it was opened from: an address of this server or nothing."""
    given = request.POST if request.method == "POST" else request.GET
    back = str(given.get("back", ""))
    return back if back.startswith("/job/") and "\\" not in back else ""


SCREEN = Screen(
    key="calc",
    name="calculators",
    context=CalcPage,
    urls=(
        path("calc", calculators, name="calculators"),
        path("calc/<str:name>", calc, name="calc"),
    ),
)
