"""The rules on one page: how is decided, what is aimed at, what it costs, what stands on papers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from django.conf import settings
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from gudgeon.problem import Problem, Refused
from gudgeon.web.cells import Cell, Choices, at_cells, problem_at
from gudgeon.web.forms import Wrong, cells, hand, wrongs
from gudgeon.web.grids import Grid, grid_of, typed_rows
from gudgeon.web.screens.rules.words import sections
from gudgeon.web.shape import Screen, Sheet, bench, page
from gudgeon.workbench import shelving
from gudgeon.workbench.ports import JobRow

GRIDS = ("work", "price")
NOTHING: Mapping[str, Problem] = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A rule: its cell, what is usual, and where that comes from."""

    cell: Cell
    usual: str
    source: str
    changed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """Rules that belong together."""

    title: str
    word: str
    rules: tuple[Rule, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RulesPage:
    """What the page shows."""

    sheet: Sheet
    sections: tuple[Section, ...]
    grids: tuple[Grid, ...]
    shown: str
    jobs: tuple[JobRow, ...]
    problems: tuple[Wrong, ...]
    said: str
    languages: tuple[tuple[str, str, bool], ...]


def rules_page(
    request: HttpRequest,
    sent: Mapping[str, str] = MappingProxyType({}),
    wrong: Mapping[str, Problem] = NOTHING,
    problems: tuple[Wrong, ...] = (),
    rows: Mapping[str, tuple[dict[str, str], ...]] = MappingProxyType({}),
) -> RulesPage:
    """The rules as they stand, or as they were typed and refused; `rows` are those of a table that was refused."""
    now, usual = shelving.rule_cells(bench()), shelving.usual_rules()
    typed = {**now, **{k: v for k, v in sent.items() if k in now}}

    def rule(key: str, label: str, choices: Choices, lines: int) -> Rule:
        words, (default, source) = dict(choices), usual[key]
        cell = Cell(
            name=key,
            label=label,
            value=typed[key],
            problem=problem_at(wrong, key),
            choices=choices,
            lines=lines,
            wide=True,
        )
        return Rule(cell=cell, usual=words.get(default, default), source=source, changed=now[key] != default)  # fmt: skip

    said = {"saved": _("Saved. Jobs that run keep the rules they were opened with."),
            "pinned": _("The job goes by today's rules.")}  # fmt: skip
    return RulesPage(
        sheet=Sheet(door="more", title=_("Rules"), subtitle=_("how this workshop decides")),
        sections=tuple(
            Section(title=title, word=word, rules=tuple(rule(*row) for row in rows)) for title, word, rows in sections()
        ),
        grids=tuple(
            grid_of(t, rows[t] if t in rows else shelving.grid(bench(), t), wrong if t in rows else NOTHING)
            for t in GRIDS
        ),
        shown=shelving.seen(bench()),
        jobs=bench().jobs(state="open", limit=50),
        problems=problems,
        said=said.get(request.GET.get("said", ""), ""),
        languages=_languages(request),
    )


def _languages(request: HttpRequest) -> tuple[tuple[str, str, bool], ...]:
    kept = request.COOKIES.get(settings.LANGUAGE_COOKIE_NAME, "")
    return (("", _("as the browser has it"), not kept), *((key, name, key == kept) for key, name in settings.LANGUAGES))


def rules(request: HttpRequest) -> HttpResponse:
    """The page; what was typed stays until it is kept."""
    if request.method != "POST":
        return page(request, "screens/rules/rules.html", rules_page(request))
    sent = cells(request)
    try:
        shelving.put_rules(bench(), sent, shown=sent.get("shown", ""))
    except Refused as refused:
        shown = rules_page(request, sent, at_cells(refused), wrongs(refused))
        return page(request, "screens/rules/rules.html", shown, status=422)
    return HttpResponseRedirect("/rules?said=saved")


@require_POST
def put_grid(request: HttpRequest, table: str) -> HttpResponse:
    """Keep one of the tables of prices."""
    if table not in GRIDS:
        return page(request, "screens/rules/rules.html", rules_page(request), status=404)
    sent = cells(request)
    rows = typed_rows(table, sent)
    try:
        shelving.put_grid(bench(), table, rows, shown=sent.get("shown", ""))
    except Refused as refused:
        shown = rules_page(request, wrong=at_cells(refused), rows={table: rows})
        return page(request, "screens/rules/rules.html", shown, status=422)
    return HttpResponseRedirect(f"/rules?said=saved#h-{table}")


@require_POST
def pin(request: HttpRequest) -> HttpResponse:
    """Let a running job go by today's rules."""
    try:
        shelving.pin_rules(bench(), cells(request).get("job", ""), hand(request))
    except Refused as refused:
        return page(request, "screens/rules/rules.html", rules_page(request, problems=wrongs(refused)), status=422)
    return HttpResponseRedirect("/rules?said=pinned")


@require_POST
def language(request: HttpRequest) -> HttpResponse:
    """The language of this tablet, kept by it; an empty one is the browser's own again."""
    answer = HttpResponseRedirect("/rules")
    chosen = cells(request).get("language", "")
    if not chosen:
        answer.delete_cookie(settings.LANGUAGE_COOKIE_NAME, samesite="Lax")
    elif chosen in dict(settings.LANGUAGES):
        secure = settings.CSRF_COOKIE_SECURE
        answer.set_cookie(
            settings.LANGUAGE_COOKIE_NAME, chosen, 400 * 86_400, samesite="Lax", secure=secure, httponly=True
        )
    return answer


SCREEN = Screen(
    key="rules",
    name="rules",
    context=RulesPage,
    urls=(
        path("rules", rules, name="rules"),
        path("rules/grid/<str:table>", put_grid, name="put_prices"),
        path("rules/pin", pin, name="pin_rules"),
        path("rules/language", language, name="language"),
    ),
)
