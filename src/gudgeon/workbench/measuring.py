"""The route through the readings: what is asked next, with which gauge, against which limit, at which place of the part."""

from __future__ import annotations

from msgspec import Struct

from gudgeon.anatomy import Anatomy, say
from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.characteristics.own import characteristics
from gudgeon.job.entries import GoNoGo, ZeroChecked
from gudgeon.job.state import Taken
from gudgeon.measurands.own import measurands
from gudgeon.measurands.shape import NEEDS, Measurand
from gudgeon.plans.shape import Given
from gudgeon.problem import caution, refuse
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.units import Quantity, read
from gudgeon.verdicts.gather import about
from gudgeon.verdicts.value import Interpreter
from gudgeon.workbench.asks import AskView, ask_at, asks_of, point_words, series
from gudgeon.workbench.blanks import train_of
from gudgeon.workbench.build import Worked
from gudgeon.workbench.view import CharacteristicView, JobHead, LedgerHead


class GaugeView(Struct, frozen=True, kw_only=True):
    """A gauge that could read it."""

    id: str
    name: str
    kind: str
    unit: str
    deviation: bool
    master: str
    zero: str


class WayView(Struct, frozen=True, kw_only=True):
    """How a measurand is read: what a field that goes on without the network needs to know of the next one."""

    gauge: str
    unit: str
    needs: str
    deviation: bool
    master: str


class FigureView(Struct, frozen=True, kw_only=True):
    """A place on the drawing: its figure once taken, and whether it is wanted now."""

    key: str
    label: str
    figure: str
    state: str


class LimitView(Struct, frozen=True, kw_only=True):
    """What the book says of it, as typed."""

    characteristic: str
    new: str
    least: str
    most: str
    expect: str
    page: str
    place: str


class MeasureView(Struct, frozen=True, kw_only=True):
    """Everything the bench needs for one reading."""

    job: JobHead
    ledger: LedgerHead
    ask: AskView | None
    ask_words: str
    needs: tuple[str, ...]
    needs_met: tuple[str, ...]
    points: tuple[str, ...]
    caution: str
    words: tuple[str, ...]
    pair: bool
    enters: tuple[str, ...]
    unit: str
    dimension: str
    gauges: tuple[GaugeView, ...]
    gauge: GaugeView | None
    limit: LimitView | None
    limit_wanted: bool
    judged: tuple[CharacteristicView, ...]
    drawing: str
    train: str
    lash_at: str
    figures: tuple[FigureView, ...]
    left_with_gauge: int
    asks: tuple[AskView, ...]
    ways: dict[str, WayView]
    last: str
    last_seq: int


def measure(
    worked: Worked, measurand: str = "", place: str = "", point: str | None = None, gauge: str = ""
) -> MeasureView:
    """What is asked at an address, or, without one, what is asked next."""
    given, seen = worked.given, worked.view
    asks = asks_of(given, worked.plans)
    ask = _chosen(given, asks, measurand, place, point)
    if ask is not None and ask not in asks:
        asks = (*series(given, ask), *asks)
    kind = measurands(given.state.anatomy)[ask.measurand] if ask else None
    cards = _gauges(given, kind) if kind else ()
    judged = tuple(c for c in seen.characteristics if ask and _concerns(c, ask, given))
    settles = next((s.gauge for c in judged for s in c.settles), "")
    chosen = next((g for wanted in (gauge, settles) for g in cards if g.id == wanted), None)
    card = chosen or _habit(given, kind, cards)
    same = [a for a in asks if ask and a.gauge_kind == ask.gauge_kind]
    last = next((e for e in reversed(seen.entries) if e.fact in ("reading", "go_no_go") and not e.retracted), None)
    limit = _limit(given, ask) if ask else None
    needed = tuple(n for n in kind.needs if _applies(n, given, ask)) if kind else ()
    return MeasureView(
        job=seen.job,
        ledger=seen.ledger,
        ask=ask,
        ask_words=kind.ask if kind else "",
        needs=tuple(NEEDS[n] for n in needed),
        needs_met=needed,
        points=tuple(p for p in kind.points(given.state.anatomy, ask.place) if p) if kind and ask else (),
        caution=caution(kind.caution) if kind else "",
        words=kind.words if kind else (),
        pair=bool(kind and (kind.pair or (card and card.kind == "pin"))),
        enters=_pins(card, limit) if card and card.kind == "pin" else (),
        unit=(card.unit if card else kind.unit) if kind else "",
        dimension=kind.dimension if kind else "",
        gauges=cards,
        gauge=card,
        limit=limit,
        limit_wanted=bool(ask and limit is None and _wants_limit(ask)),
        judged=judged,
        drawing=kind.drawing if kind else "gauge",
        train=train_of(given.state.anatomy.layout.side(ask.place)) if ask else "finger",
        lash_at="cam" if ask and given.state.anatomy.layout.side(ask.place).lash_read == "cam" else "tip",
        figures=_figures(given, ask, kind) if ask and kind else (),
        left_with_gauge=len(same),
        asks=asks,
        ways=_ways(given, asks),
        last=f"{last.where} {last.words}" if last else "",
        last_seq=last.seq if last else 0,
    )


def _ways(given: Given, asks: tuple[AskView, ...]) -> dict[str, WayView]:
    found: dict[str, WayView] = {}
    for ask in (a for a in asks if a.measurand not in found):
        kind = measurands(given.state.anatomy)[ask.measurand]
        _cards, card = gauges_of(given, ask.measurand)
        needed = " ".join(n for n in kind.needs if _applies(n, given, ask))
        found[ask.measurand] = WayView(gauge=card.id if card else "", unit=card.unit if card else kind.unit, needs=needed,
                                       deviation=bool(card and card.deviation), master=card.master if card else "")  # fmt: skip
    return found


def _chosen(given: Given, asks: tuple[AskView, ...], measurand: str, place: str, point: str | None) -> AskView | None:
    if not measurand:
        return asks[0] if asks else _read_without_limit(given)
    anatomy = given.state.anatomy
    derived = characteristics(anatomy).get(measurand) if measurand not in measurands(anatomy) else None
    if derived is not None and place in derived.where(anatomy):  # a fit is measured by what it is worked out from
        ways = [(w.measurand, w.at(anatomy, place)) for w in derived.wants]
        measurand, place = next((w for w in ways if w in {(a.measurand, a.place) for a in asks}), ways[0])
    kind = measurands(anatomy).get(measurand)
    if kind is None or place not in kind.where(anatomy):
        raise refuse(
            "measure", "There is no {what} at {where}.", "Choose it from the list.", what=measurand, where=place
        )
    if point is None:
        wanted = next((a for a in asks if (a.measurand, a.place) == (measurand, place)), None)
        return wanted or ask_at(given, measurand, place, kind.points(given.state.anatomy, place)[0])
    return ask_at(given, measurand, place, point)


def _read_without_limit(given: Given) -> AskView | None:
    """A setting that was read before the book had a window for it: nothing can follow from it until somebody types one."""
    for verdict in given.judged.verdicts:
        kind = CHARACTERISTICS.get(verdict.key)
        if kind is not None and kind.rule == "setting" and verdict.row is None and verdict.fresh:
            want = kind.wants[0]
            there = want.at(given.state.anatomy, verdict.place)
            points = measurands(given.state.anatomy)[want.measurand].points(given.state.anatomy, there)
            return ask_at(given, want.measurand, there, points[0])
    return None


def _gauges(given: Given, kind: Measurand) -> tuple[GaugeView, ...]:
    cards = [card for k in kind.gauges for card in given.shelf.of_kind(k)]
    zeros = {fact.gauge: fact for _seq, fact in given.state.zeros}
    return tuple(_gauge(card, zeros.get(card.id)) for card in cards)


def _gauge(card: GaugeCard, zero: ZeroChecked | None) -> GaugeView:
    said = "" if zero is None else ("zero checked" if zero.holds else "zero drifted")
    master = str(card.master) if card.master is not None else ""
    return GaugeView(
        id=card.id, name=card.name, kind=card.kind, unit=card.unit, deviation=card.deviation, master=master, zero=said
    )


def _habit(given: Given, kind: Measurand | None, cards: tuple[GaugeView, ...]) -> GaugeView | None:
    """The gauge taken last for this measurand, else the first whose range covers what the book says."""
    used = [t.fact.gauge for t in given.state.readings if kind and t.fact.measurand == kind.key]
    for gauge in reversed(used):
        known = next((c for c in cards if c.id == gauge), None)
        if known:
            return known
    rows = [r for r in given.book.limits if kind and _reads(r.of, kind.key, given.state.anatomy)]
    sizes = [v for r in rows for v in (r.new_low, r.least, r.most) if v is not None]
    able = [c for c in cards if all(_covers(given, c.id, v) for v in sizes[:1])]
    return next(iter(able or cards), None)


def _covers(given: Given, gauge: str, value: float) -> bool:
    card = given.shelf.gauge(gauge)
    return card is not None and (card.covers(value) or card.deviation)


def _reads(characteristic: str, measurand: str, anatomy: Anatomy) -> bool:
    kind = characteristics(anatomy)[characteristic]
    return len(kind.wants) == 1 and kind.wants[0].measurand == measurand


def _concerns(c: CharacteristicView, ask: AskView, given: Given) -> bool:
    kind = characteristics(given.state.anatomy)[c.key]
    return any(w.measurand == ask.measurand and w.at(given.state.anatomy, c.place) == ask.place for w in kind.wants)


def own_characteristic(measurand: str, anatomy: Anatomy | None = None) -> str:
    """The characteristic that judges a measurand by itself, or an empty text."""
    own = (characteristics(anatomy) if anatomy else CHARACTERISTICS).get(measurand)
    return measurand if own and own.wants[0].measurand == measurand else ""


def _wants_limit(ask: AskView) -> bool:
    own = own_characteristic(ask.measurand)
    return bool(own) and CHARACTERISTICS[own].dimension != "words"


def _limit(given: Given, ask: AskView) -> LimitView | None:
    own = own_characteristic(ask.measurand, given.state.anatomy)
    row = given.book.limit_for(own, ask.place) if own else None
    if row is None:
        return None
    new = f"{_plain(row.new[0], row.new[1].unit)} – {row.new[1]}" if row.new else ""
    return LimitView(
        characteristic=own,
        new=new,
        least=str(row.typed_least) if row.typed_least is not None else "",
        most=str(row.typed_most) if row.typed_most is not None else "",
        expect=row.expect,
        page=row.page,
        place=row.place_words,
    )


def _pins(card: GaugeView, limit: LimitView | None) -> tuple[str, ...]:
    """Pins to try first: the ends that the book names, for a pin is tried against a wall."""
    named = (*(limit.new.split(" – ") if limit else ()), limit.least if limit else "", limit.most if limit else "")
    sizes = (read(size, "length", unit=card.unit) for size in named if size)
    return tuple(dict.fromkeys(_plain(size, card.unit) for size in sizes if size.unit == card.unit)) or ("",)


def _plain(size: Quantity, unit: str) -> str:
    """The number alone where the unit follows anyway."""
    return str(size).removesuffix(f" {unit}")


def _applies(need: str, given: Given, ask: AskView | None) -> bool:
    if need != "decompressor":
        return True
    return bool(given.state.anatomy.layout.decompressor) and ask is not None


def _figures(given: Given, ask: AskView, kind: Measurand) -> tuple[FigureView, ...]:
    """The points of this place; or, where there is one point a place, all places of the measurand."""
    points = kind.points(given.state.anatomy, ask.place)
    what = f"{kind.drawing} {kind.key.replace('_', ' ')}"
    if len(points) > 1:
        spots = [(ask.place, p, point_words(p), f"{what} {p}") for p in points]
    else:
        spots = [(w, points[0], say(w, single=True), f"{what} {w}") for w in kind.where(given.state.anatomy)]
    interpreter = Interpreter(given.state.gauges)
    latest = {(t.part or t.fact.where, t.fact.point): t for t in given.state.readings
              if t.fact.measurand == kind.key and t.fresh}  # fmt: skip
    found = []
    for place, point, label, key in spots:
        taken = latest.get((about(given.state, kind.key, place), point))
        wanted = (place, point) == (ask.place, ask.point)
        figure = _figure(taken, kind, interpreter, given.state.anatomy) if taken else ""
        found.append(
            FigureView(key=key, label=label, figure=figure, state="wanted" if wanted else "taken" if taken else "later")
        )
    return tuple(found)


def _figure(taken: Taken, kind: Measurand, interpreter: Interpreter, anatomy: Anatomy) -> str:
    """What stands on the drawing: the size that a deviation means, else what was typed."""
    fact = taken.fact
    if isinstance(fact, GoNoGo):
        return f"{'≥' if fact.enters else '<'} {fact.size}"
    value = interpreter.value(taken, kind)
    if value is None or value.known is None or not interpreter.card(fact.gauge).deviation:
        return fact.text
    own = characteristics(anatomy).get(own_characteristic(fact.measurand, anatomy))
    return f"{value.known.value:.{own.places if own else 3}f}"


def gauges_of(given: Given, measurand: str) -> tuple[tuple[GaugeView, ...], GaugeView | None]:
    """The gauges of the shelf that could read it, and the one that is taken unless somebody says otherwise."""
    kind = measurands(given.state.anatomy)[measurand]
    cards = _gauges(given, kind)
    return cards, _habit(given, kind, cards)
