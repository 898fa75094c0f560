"""Decisions: verdicts worst first, every plan with its reasons, and the buttons that write down what was decided."""

from __future__ import annotations

from dataclasses import dataclass, replace

import msgspec
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from gudgeon.anatomy import say
from gudgeon.figures.wear import wear
from gudgeon.job.entries import Body
from gudgeon.problem import Refused
from gudgeon.web.forms import Wrong, hand, wrongs
from gudgeon.web.marks import VerdictLine, mark, measure_link, verdict_line
from gudgeon.web.shape import Screen, Sheet, bench, job_sheet, page
from gudgeon.web.words import FIGURES, figures
from gudgeon.workbench.deciding import DISPOSITIONS, DecideView, act_of, anchor, decisions
from gudgeon.workbench.history import take_family, wear_of
from gudgeon.workbench.view import JobView, LineView, PartView, PlanView

#: Numbers of a plan's line that its words say already.
SAID = ("valve", "shim", "moved", "from", "buy", "what", "done", "present_shim", "part", "decided", "of", "amount", "number",
        "name", "count", "status", "to_order", "look_alike", "mark")  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """A button: its words and the entry it writes."""

    words: str
    entry: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanLine:
    """One line of a plan with its numbers in words and what may be done about it."""

    line: LineView
    numbers: tuple[tuple[str, str], ...]
    act: Act | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanCard:
    """A plan as the page shows it."""

    plan: PlanView
    mark: str
    lines: tuple[PlanLine, ...]
    needs: tuple[tuple[str, str], ...]
    words_json: str
    to_order: tuple[tuple[str, str, int], ...]
    all_json: str
    all_count: int
    figures: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLine:
    """A part, its anchor, what was decided, and its buttons."""

    part: PartView
    anchor: str
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DecidePage:
    """What the page of decisions shows."""

    sheet: Sheet
    d: DecideView
    bad: tuple[VerdictLine, ...]
    unclear: tuple[VerdictLine, ...]
    plans: tuple[PlanCard, ...]
    asked_of: tuple[PartLine, ...]
    dispositions: tuple[tuple[str, str], ...]
    asked_sum: str
    problems: tuple[Wrong, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Fragment:
    """What is folded away until somebody looks: verdicts, or parts with their buttons."""

    verdicts: tuple[VerdictLine, ...]
    parts: tuple[PartLine, ...]
    dispositions: tuple[tuple[str, str], ...]


def fragment(number: str, which: str) -> Fragment:
    """One folded list."""
    try:
        d = decisions(bench(), number)
    except Refused as refused:
        raise Http404(str(refused)) from None
    lists = {"good": d.good, "missing": d.missing, "spared": d.spared, "others": ()}
    if which not in lists:
        raise Http404(which)
    return Fragment(
        verdicts=tuple(verdict_line(number, c, strip=which == "good") for c in lists[which]),
        parts=tuple(_part(p) for p in d.others) if which == "others" else (),
        dispositions=tuple(DISPOSITIONS.items()),
    )


def decide_page(number: str) -> DecidePage:
    """The page of a job."""
    try:
        d = decisions(bench(), number)
    except Refused as refused:
        raise Http404(str(refused)) from None
    return DecidePage(
        sheet=job_sheet("decide", d.job.job, d.job.ledger, title=_("Decide"), subtitle=d.job.job.machine),
        d=d,
        bad=tuple(verdict_line(number, c) for c in d.bad),
        unclear=tuple(verdict_line(number, c) for c in d.unclear),
        plans=tuple(_plan(d.job, plan) for plan in d.job.plans if plan.key != "route"),
        asked_of=tuple(_part(p) for p in d.asked_of),
        dispositions=tuple(DISPOSITIONS.items()),
        asked_sum=_asked_sum(d.job),
    )


def _part(part: PartView) -> PartLine:
    return PartLine(part=part, anchor=anchor(f"part-{part.slot}"), what=DISPOSITIONS.get(part.what, part.what))


def _plan(view: JobView, plan: PlanView) -> PlanCard:
    lines = tuple(_line(view, plan, line) for line in plan.lines)
    decided = [line.act.entry for line in lines if line.act] if plan.key == "dispositions" else []
    return PlanCard(
        plan=plan,
        mark=mark(plan.state, now=plan.state == "ready"),
        lines=lines,
        needs=tuple((_need_words(view, need), _need_link(view, need)) for need in plan.needs),
        words_json=_json({f"{cut.where}": cut.what for cut in plan.machines}),
        to_order=_to_order(plan),
        all_json=f"[{','.join(decided)}]",
        all_count=len(decided),
        figures=_figures(view, plan),
    )


def _figures(view: JobView, plan: PlanView) -> tuple[tuple[str, str], ...]:
    """What wears over hours is drawn, each with its name: a line says more than its slope."""
    if plan.key != "interval" or not plan.lines:
        return ()
    return tuple((w.name, figures(wear(w.drawn, FIGURES))) for w in wear_of(bench(), view.job.number))


def _to_order(plan: PlanView) -> tuple[tuple[str, str, int], ...]:
    """What can be ordered now: number, name, how many."""
    found: dict[str, tuple[str, int]] = {}
    for line in plan.lines if plan.key == "order" else ():
        number, count = line.numbers.get("number") or line.numbers.get("name"), line.numbers.get("to_order")
        if isinstance(number, str) and isinstance(count, float) and count and line.numbers.get("sure"):
            found[number] = (str(line.numbers.get("name", "")), found.get(number, ("", 0))[1] + int(count))
    return tuple((number, name, count) for number, (name, count) in found.items())


def _asked_sum(view: JobView) -> str:
    """The total of the estimate, so that nobody types it twice."""
    plan = view.plan("estimate")
    total = next((line for line in plan.lines if line.numbers.get("of") == "total"), None) if plan else None
    amount = total.numbers.get("amount") if total else None
    return f"{amount:.2f}" if isinstance(amount, float) and amount else ""


def _need_words(view: JobView, need: str) -> str:
    known = view.at(need)
    key, _at, place = need.partition("@")
    return known.name if known else ", ".join(t for t in (key.replace("_", " "), say(place, single=True)) if t)


def _need_link(view: JobView, need: str) -> str:
    return measure_link(view.job.number, need) if "@" in need else ""


def _line(view: JobView, plan: PlanView, line: LineView) -> PlanLine:
    act = act_of(view, plan, line)
    return PlanLine(line=line, numbers=_numbers(line), act=Act(words=act[0], entry=_entry(act[1])) if act else None)


def _numbers(line: LineView) -> tuple[tuple[str, str], ...]:
    found = []
    for key, value in line.numbers.items():
        if key in SAID or value is None or value == "" or isinstance(value, bool):
            continue
        name, _, unit = key.rpartition("_") if key.rpartition("_")[2] in ("mm", "kPa", "N", "cm3") else (key, "", "")
        text = (
            f"{value:.4g}" if isinstance(value, float) and not unit else f"{value:.3f}" if unit == "mm" else str(value)
        )
        found.append((name.replace("_", " "), f"{text} {unit}".strip()))
    return tuple(found)


def _entry(body: Body) -> str:
    return msgspec.json.encode(body).decode()


def _json(value: dict[str, str]) -> str:
    return msgspec.json.encode(value).decode()


@require_GET
def show(request: HttpRequest, number: str) -> HttpResponse:
    """The page of decisions."""
    return page(request, "screens/decide/decide.html", decide_page(number))


@require_GET
def folded(request: HttpRequest, number: str, which: str) -> HttpResponse:
    """A folded list, when it is opened."""
    return page(request, "screens/decide/fragment.html", fragment(number, which))


@require_POST
def with_family(request: HttpRequest, number: str) -> HttpResponse:
    """Take in what was read of other engines of the family; where there is none, the page says so."""
    try:
        take_family(bench(), number, hand(request))
    except Refused as refused:
        return page(
            request, "screens/decide/decide.html", replace(decide_page(number), problems=wrongs(refused)), status=422
        )
    return HttpResponseRedirect(f"/job/{number}/decide#plan-interval")


SCREEN = Screen(
    key="decide",
    name="decide",
    context=DecidePage,
    urls=(
        path("job/<str:number>/decide", show, name="decide"),
        path("job/<str:number>/family", with_family, name="family"),
        path("job/<str:number>/decide/<str:which>", folded, name="folded"),
    ),
)
