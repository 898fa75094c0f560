"""The bench: the part as a drawing that is being dimensioned, one reading asked at a time, its verdict at once."""

from __future__ import annotations

from dataclasses import dataclass

import msgspec
from django.http import Http404, HttpRequest, HttpResponse
from django.urls import path
from django.utils.translation import gettext
from django.utils.translation import gettext_noop as _

from gudgeon.figures.part import part_drawing
from gudgeon.figures.places import DrawingSpec, PlaceFigure
from gudgeon.figures.strip import StripSpec, limit_strip
from gudgeon.problem import Refused
from gudgeon.web.screens.measure import photos, typing
from gudgeon.web.shape import Screen, Sheet, bench, job_sheet, page
from gudgeon.workbench.calc_links import CalcLink, calculators_for
from gudgeon.workbench.heard_at import HeardPlace, listening_at
from gudgeon.workbench.measuring import MeasureView
from gudgeon.workbench.view import CharacteristicView
from gudgeon.workbench.zeros import ZeroView, zero_wanted, zeros_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A verdict beside the field: its strip, its words, and what would settle it."""

    view: CharacteristicView
    strip: str
    words: str
    doubt: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasurePage:
    """What the bench shows."""

    sheet: Sheet
    m: MeasureView
    drawing: str
    judged: tuple[Judged, ...]
    asks_json: str
    ways_json: str
    limit_words: str
    keys: tuple[tuple[str, ...], ...]
    zero: ZeroView | None
    zero_again: ZeroView | None
    calcs: tuple[CalcLink, ...]
    needs: tuple[tuple[str, str], ...]
    explained: str
    page: str
    listening: tuple[HeardPlace, ...]
    listening_at: str


CONDITIONS = {
    "cold": _("engine cold"),
    "clean": _("clean, dry"),
    "tdc": _("at TDC"),
    "holder": _("holder tight"),
    "turned": _("turned twice"),
    "room": _("room temperature"),
    "decompressor": _("decompressor off"),
}
"""What must be so, in the fewest words: each is a key that a glove taps off."""
EXPLAINED = ("tdc", "turned")
"""Those of which the few words are not enough."""
KEYS = (("7", "8", "9", "±", "⌫"), ("4", "5", "6", ".", "/"), ("1", "2", "3", "0", "no gap"))


def measure_page(request: HttpRequest, number: str) -> MeasurePage:
    """The page for the address in the query, or for what is asked next."""
    ask = request.GET
    point = ask.get("point")
    try:
        m = bench().measure(number, ask.get("m", ""), ask.get("at", ""), point, ask.get("gauge", ""))
    except Refused as refused:
        raise Http404(str(refused)) from None
    title = m.ask.name[:1].upper() + m.ask.name[1:] if m.ask else "Nothing to measure"
    gauge = ""
    if m.gauge:
        gauge = ", ".join(t for t in (m.gauge.name, f"set {m.gauge.master}" if m.gauge.master else "") if t)
        gauge += f" · {m.gauge.zero}" if m.gauge.zero else ""
    asked, drifted = _zeros(number, m)
    leaking = _leaking(m, ask.get("just", ""))
    return MeasurePage(
        sheet=job_sheet("measure", m.job, m.ledger, title=title, subtitle=gauge),
        m=m,
        drawing=_drawing(m),
        judged=_shown(number, m, ask.get("just", "")),
        asks_json=msgspec.json.encode(m.asks).decode().replace("<", "\\u003c"),
        ways_json=msgspec.json.encode(m.ways).decode().replace("<", "\\u003c"),
        limit_words=_limit_words(m),
        keys=KEYS,
        zero=asked,
        zero_again=drifted,
        calcs=calculators_for(bench(), number, m),
        needs=tuple((need, gettext(CONDITIONS[need])) for need in m.needs_met),
        explained=", ".join(words for need, words in zip(m.needs_met, m.needs, strict=True) if need in EXPLAINED),
        page=m.limit.page if m.limit else "",
        listening=listening_at(bench(), number, leaking) if leaking else (),
        listening_at=leaking,
    )


def _leaking(m: MeasureView, just: str) -> str:
    """The cylinder that is under air, or was when the last reading was typed."""
    if m.ask and m.ask.measurand == "leak_down":
        return m.ask.place
    measurand, _, place = just.partition("@")
    return place if measurand == "leak_down" else ""


def _zeros(number: str, m: MeasureView) -> tuple[ZeroView | None, ZeroView | None]:
    """The zero that is asked now: after the series of a gauge that was put down, before that of the one in hand."""
    used = {zero.gauge: zero for zero in zeros_of(bench(), number)}
    here = m.gauge.id if m.gauge else ""
    put_down = next((z for z in used.values() if z.wanted == "after" and z.gauge != here), None)
    now = used.get(here) or (zero_wanted(bench(), number, here) if here else None)
    before = now if now and now.wanted == "before" and now.on else None
    return put_down or before, next((z for z in used.values() if z.holds is False and z.again), None)


def _shown(number: str, m: MeasureView, just: str) -> tuple[Judged, ...]:
    """The verdicts beside the field: those of this place, or, while nothing stands here yet, of the reading just taken."""
    here = [c for c in m.judged if c.points.fresh]
    if not here and just:
        measurand, _, place = just.partition("@")
        try:
            here = [c for c in bench().measure(number, measurand, place).judged if c.points.fresh]
        except Refused:
            here = []
    return tuple(_judged(c) for c in (here or m.judged[:1])[:3])


def _limit_words(m: MeasureView) -> str:
    limit = m.limit
    if limit is None:
        return ""
    if limit.least and limit.most:
        wall = f"from {limit.least} to {limit.most}"
    else:
        wall = f"not under {limit.least}" if limit.least else f"not over {limit.most}" if limit.most else ""
    unit = wall.rpartition(" ")[2]
    new = f"new {limit.new}" if limit.new else ""
    if wall and new.endswith(f" {unit}"):
        new = new.removesuffix(f" {unit}")
    return " · ".join(t for t in (new, wall, limit.expect) if t)


def _drawing(m: MeasureView) -> str:
    if m.ask is None:
        return ""
    places = tuple(
        PlaceFigure(key=f.key, label=f.label, figure=f.figure or None, state=f.state)  # type: ignore[arg-type]
        for f in m.figures
    )
    spec = DrawingSpec(
        title=f"{m.ask.name}, {m.ask.place_words}",
        places=places,
        large=True,
        train=m.train,  # type: ignore[arg-type]
        lash_at=m.lash_at,  # type: ignore[arg-type]
    )
    return part_drawing(m.drawing, spec)


def _judged(c: CharacteristicView) -> Judged:
    new = c.new or (None, None)
    strip = ""
    if c.unit and (c.low is not None or c.high is not None or c.new):
        strip = limit_strip(
            StripSpec(
                value=c.value,
                whisker=2 * c.u if c.u is not None else None,
                new_low=new[0],
                new_high=new[1],
                low=c.low,
                high=c.high,
                unit=c.unit,
                places=c.places,
                title=f"{c.name}: {c.verdict}",
                width=548,
                large=True,
            )
        )
    settles = f"settled by {c.settles[0].name}" if c.settles else ""
    doubt = f"{c.said} ± {2 * c.u:.{c.places}f}" if c.u and c.value is not None else c.said
    return Judged(view=c, strip=strip, words=settles, doubt=doubt)


def measure(request: HttpRequest, number: str) -> HttpResponse:
    """The whole page, or its panel when a fragment is asked for."""
    template = "screens/measure/panel.html" if request.headers.get("HX-Request") else "screens/measure/measure.html"
    return page(request, template, measure_page(request, number))


SCREEN = Screen(
    key="measure",
    name="measure",
    context=MeasurePage,
    urls=(
        path("job/<str:number>/measure", measure, name="measure"),
        path("job/<str:number>/sheet", typing.typing, name="typing"),
        path("job/<str:number>/photo", photos.take, name="photo"),
        path("job/<str:number>/photo/<str:sha>.jpg", photos.picture, name="photo_file"),
        path("job/<str:number>/photos", photos.photos, name="photos"),
    ),
)
