"""Building up: the holds with what going on would hide, the work that can be written down, joints with their stages."""

from __future__ import annotations

from dataclasses import dataclass

import msgspec
from django.http import Http404, HttpRequest, HttpResponse
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from gudgeon.anatomy import say
from gudgeon.job.entries import OperationDone
from gudgeon.problem import Refused
from gudgeon.web.marks import mark, measure_link
from gudgeon.web.shape import Screen, Sheet, bench, job_sheet, page
from gudgeon.workbench.doing import BuildView, JointView, building
from gudgeon.workbench.view import EntryView, HoldView, JobView, LineView


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """What a hold waits for, and where it is brought."""

    words: str
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldLine:
    """A hold as the page shows it; `now` is the first that is open."""

    hold: HoldView
    mark: str
    needs: tuple[Need, ...]
    more: int
    now: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StepLine:
    """One step of the route: a hold, work with its entry, a joint with its stages, or a plan to look at.

    `state` is done, next or later.
    """

    state: str
    mark: str
    words: str
    detail: str
    because: tuple[str, ...]
    notes: tuple[str, ...]
    hold: HoldLine | None
    entry: str
    href: str
    now: bool
    joint: JointView | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildPage:
    """What the page of building shows."""

    sheet: Sheet
    b: BuildView
    done: tuple[StepLine, ...]
    steps: tuple[StepLine, ...]
    skipped: tuple[HoldLine, ...]
    open_count: int
    earlier: tuple[tuple[int, str, str], ...]
    adapter: dict[str, str]
    adapter_wrong: str


#: So many needs of a hold are shown before the rest is counted.
SHOWN = 6
#: So many entries back can work be remembered late on this screen.
LATE = 80


def build_page(number: str, adapter: dict[str, str] | None = None) -> BuildPage:
    """The page of a job, its wrench settings through the adapter in hand."""
    wrong = ""
    try:
        b = building(bench(), number)
    except Refused as refused:
        raise Http404(str(refused)) from None
    try:
        b = building(bench(), number, adapter) if adapter else b
    except Refused as refused:
        wrong = str(refused)
    route = b.job.plan("route")
    asked = next((line for line in route.lines if line.numbers.get("state") == "next"), None) if route else None
    first = next((h.hold for h in b.job.holds if h.state in ("open", "undone")), "")
    if asked is not None:
        first = str(asked.numbers.get("hold", ""))
    lines = tuple(_hold(b.job, h, now=h.hold == first) for h in b.job.holds)
    steps = _steps(b, {line.hold.hold: line for line in lines if line.hold.state != "not needed"})
    return BuildPage(
        sheet=job_sheet("build", b.job.job, b.job.ledger, title=_("Build"), subtitle=b.job.job.machine),
        b=b,
        done=tuple(step for step in steps if step.state == "done"),
        steps=tuple(step for step in steps if step.state != "done"),
        skipped=tuple(line for line in lines if line.hold.state == "not needed"),
        open_count=len(b.job.open),
        earlier=tuple((e.seq, e.id, f"{e.where} {e.words}".strip()[:70]) for e in _earlier(b.job)),
        adapter=adapter or {},
        adapter_wrong=wrong,
    )


def _steps(b: BuildView, holds: dict[str, HoldLine]) -> tuple[StepLine, ...]:
    """The route with its holds where they stand, and after it any hold that the route does not meet."""
    plan = b.job.plan("route")
    met = tuple(_step(b, line, holds) for line in plan.lines) if plan else ()
    there = {step.hold.hold.hold for step in met if step.hold}
    return (*met, *(_hold_step(line) for key, line in holds.items() if key not in there))


def _step(b: BuildView, line: LineView, holds: dict[str, HoldLine]) -> StepLine:
    known = holds.get(str(line.numbers.get("hold", "")))
    if known is not None:
        return _hold_step(known)
    state, operation = str(line.numbers.get("state", "later")), line.numbers.get("operation")
    body = OperationDone(operation=str(operation), where=str(line.numbers.get("place"))) if operation else None
    plan, tightened = line.numbers.get("plan"), line.numbers.get("phase") == "build" and line.numbers.get("joint")
    told = (f"{name}: {line.numbers[name]}" for name in ("loosening", "wrench") if line.numbers.get(name))
    return StepLine(
        state=state,
        mark=mark("passed" if state == "done" else "ready" if state == "next" else "open", now=state == "next"),
        words=line.what.partition(": ")[0],
        detail=line.what.partition(": ")[2],
        because=line.because,
        notes=tuple(told),
        hold=None,
        entry=msgspec.json.encode(body).decode() if body else "",
        href=f"/job/{b.job.job.number}/decide#plan-{plan}" if plan else "",
        now=state == "next",
        joint=next((j for j in b.joints if j.joint == tightened), None),
    )


def _hold_step(line: HoldLine) -> StepLine:
    passed = line.hold.state in ("passed", "signed against")
    state = "done" if passed else "next" if line.now else "later"
    return StepLine(
        state=state,
        mark=line.mark,
        words="",
        detail="",
        because=(),
        notes=(),
        hold=line,
        entry="",
        href="",
        now=line.now,
    )


def _earlier(view: JobView) -> tuple[EntryView, ...]:
    """The entries that work remembered late may have come before, the last first."""
    return tuple(e for e in reversed(view.entries) if not e.retracted)[:LATE]


def _hold(view: JobView, hold: HoldView, *, now: bool) -> HoldLine:
    needs = tuple(_need(view, need) for need in hold.needs)
    return HoldLine(
        hold=hold,
        mark=mark("ready" if now else hold.state, now=now),
        needs=needs[:SHOWN],
        more=max(0, len(needs) - SHOWN),
        now=now,
    )


def _need(view: JobView, need: str) -> Need:
    known = view.at(need)
    if "@" in need:
        key, _at, place = need.partition("@")
        words = f"{known.name}: {known.verdict}" if known else f"{key.replace('_', ' ')}, {say(place, single=True)}"
        return Need(words=words, href=measure_link(view.job.number, need))
    if need.startswith("not drawn up: "):
        return Need(words=need, href="#joints")
    if need.startswith("joint "):
        return Need(words=_("open: %(joint)s") % {"joint": need.removeprefix("joint ")}, href="#joints")
    return Need(words=need.replace("_", " "), href="")


@require_GET
def show(request: HttpRequest, number: str) -> HttpResponse:
    """The page of building."""
    typed = {name: request.GET.get(name, "").strip()[:40] for name in ("extension", "angle", "length")}
    adapter = {name: text for name, text in typed.items() if text} if typed["extension"] else {}
    return page(request, "screens/build/build.html", build_page(number, adapter))


SCREEN = Screen(
    key="build", name="build", context=BuildPage, urls=(path("job/<str:number>/build", show, name="build"),)
)
