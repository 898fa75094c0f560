"""What is checked before an entry lands: text, unit, place, gauge, part, hold. After that replay takes it as it is."""

from __future__ import annotations

from gudgeon import units
from gudgeon.anatomy import say
from gudgeon.book.limits import LimitRow
from gudgeon.book.owning import with_own
from gudgeon.characteristics.own import characteristics
from gudgeon.job.entries import (
    FOR_GOOD,
    Arrived,
    ArrivedWrong,
    Body,
    BookPinned,
    Disposition,
    EstimateApproved,
    GaugePinned,
    GoNoGo,
    HoldPassed,
    JobClosed,
    JobOpened,
    OperationDone,
    Ordered,
    OwnAdded,
    PaperIssued,
    PartFitted,
    PartReceived,
    PartRemoved,
    PartsSwapped,
    Reading,
    Retraction,
    RulesPinned,
    ScopeWidened,
    TorqueApplied,
    ZeroChecked,
)
from gudgeon.job.state import JobState
from gudgeon.measurands.own import measurands
from gudgeon.measurands.shape import NEEDS, NOT, Measurand
from gudgeon.operations.own import operations
from gudgeon.plans.holds import needed
from gudgeon.plans.run import plan_all
from gudgeon.plans.shape import Given
from gudgeon.problem import Refused, refuse
from gudgeon.routes.own import holds
from gudgeon.routes.scopes import SCOPES
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.verdicts.value import indicated, is_deviation
from gudgeon.workbench.pinning import check_pin
from gudgeon.workbench.slips import Seen, ask, slip_of
from gudgeon.workbench.torques import check_torque

LONGEST_WORDS = 10_000
#: What is tried may lie beyond what the part can be, as a leaf that does not enter; not by more than this factor.
FAR = 2.0
#: Gauges that may be set to a size and tried: what goes in or does not.
ENTERING = ("feeler", "small-hole gauge", "bore gauge", "straightedge", "square and feeler", "pin")

#: Nothing turns while something lies in the engine.
TURNS = ("turn_forwards", "turn_backwards")


def check(body: Body, given: Given, card: GaugeCard | None) -> None:
    """Refuse what cannot be used, with where it is wrong and what to do. `card` is that of a reading's or a zero's gauge."""
    state, where = given.state, f"job {given.state.opened.number if given.state.opened else ''}"
    if state.closed and not isinstance(body, PaperIssued) and not _reopens(body, state):
        raise refuse(where, "The job is closed since entry {n}.", "Retract the closing first.", n=state.closed)
    _lengths(body, where)
    match body:
        case JobOpened() if state.opened is not None:
            raise refuse(where, "The job is open already.", "Open another one.")
        case Reading() | GoNoGo():
            _reading(body, given, card)
        case OperationDone():
            _operation(body, state)
        case PartReceived() | PartRemoved() | PartFitted() | PartsSwapped():
            _part(body, state)
        case HoldPassed():
            _hold(body, given)
        case TorqueApplied():
            check_torque(body, given)
        case Retraction():
            _retraction(body, state)
        case Disposition() | EstimateApproved() | ScopeWidened():
            _decision(body, state)
        case GaugePinned() | RulesPinned() | ZeroChecked():
            check_pin(body, given, card)
        case OwnAdded():
            _own(body, given)
        case Ordered():
            _counts(body)
            _authority(body, given)
        case Arrived():
            _counts(body)
        case JobClosed() if body.outcome == "stopped" and not body.reason.strip():
            raise refuse(
                "the stop", "A job that is given up needs its reason.", "Say why the engine goes back in parts."
            )
        case ArrivedWrong():
            _no_good(body, state)
        case _:
            pass


def _reopens(body: Body, state: JobState) -> bool:
    closing = next((e.typed.id for e in state.entries if e.seq == state.closed), "")
    return isinstance(body, Retraction) and body.entry == closing


def same_setting(pinned: GaugeCard, on_shelf: GaugeCard | None) -> GaugeCard:
    """The card as this job pinned it; refused where the gauge now stands on another master, or runs the other way."""
    here = (pinned.deviation, pinned.master and pinned.master.exact, pinned.direction)
    there = on_shelf and (on_shelf.deviation, on_shelf.master and on_shelf.master.exact, on_shelf.direction)
    if on_shelf is not None and here != there:
        raise refuse(pinned.name, "This job reads it from {old}; on the shelf it now stands on {new}.",
                     "Give the gauge on its new master an id of its own.", old=_master(pinned), new=_master(on_shelf))  # fmt: skip
    return pinned


def _master(card: GaugeCard) -> str:
    return str(card.master) if card.deviation and card.master is not None else "its own zero"


def _lengths(body: Body, where: str) -> None:
    for name in ("words", "reason", "text", "because", "complaint", "override"):
        value = getattr(body, name, "")
        if isinstance(value, str) and len(value) > LONGEST_WORDS:
            raise refuse(where, "{name} has {n} characters.", "Shorten it to {most}.",
                         name=name, n=len(value), most=LONGEST_WORDS)  # fmt: skip


def _reading(body: Reading | GoNoGo, given: Given, card: GaugeCard | None) -> None:
    every = measurands(given.state.anatomy)
    kind = every.get(body.measurand)
    if kind is None:
        raise refuse(body.measurand, "Nothing of this name is measured.", "Use one of: {known}.", known=_some(every))
    place = _place_of(body, kind, given)
    where = f"{kind.name}, {say(place)} {body.point}".strip()
    points = (*kind.points(given.state.anatomy, place), *kind.extra_points(given.state.anatomy, place))
    if body.point not in points:
        raise refuse(where, "There is no point {point}.", "Use one of: {known}.",
                     point=body.point or "without name", known=", ".join(p or "the plain one" for p in points))  # fmt: skip
    if card is None:
        raise refuse(where, "The shelf has no gauge {gauge}.", "Put it on the shelf first.", gauge=body.gauge)
    if card.kind not in kind.gauges:
        raise refuse(
            where, "A {kind} does not read this.", "Use: {known}.", kind=card.kind, known=", ".join(kind.gauges)
        )
    strange = [need for need in body.needs if need.removeprefix(NOT) not in NEEDS]
    if strange:
        raise refuse(where, "Nobody knows the condition {need}.", "Use one of: {known}, each with or without “not”.",
                     need=strange[0], known=", ".join(NEEDS))  # fmt: skip
    if isinstance(body, GoNoGo):
        if card.kind not in ENTERING:
            raise refuse(where, "A {kind} enters nothing.", "Type the number it shows.", kind=card.kind)
        size = units.read(body.size, kind.dimension, unit=body.unit, where=where)
        least, most = kind.plausible or (0.0, float("inf"))
        if size.number <= 0 or not least / FAR <= size.value <= most * FAR:
            raise refuse(where, "{size} is no size of a gauge.", "Type what is written on it.", size=body.size)
    elif kind.dimension == "words":
        if body.text.strip().lower() not in kind.words:
            raise refuse(where, "{text} is none of its words.", "Use one of: {known}.",
                         text=body.text, known=", ".join(kind.words))  # fmt: skip
    else:
        _size(body, given, kind, card, place, where)


def _place_of(body: Reading | GoNoGo, kind: Measurand, given: Given) -> str:
    places = kind.where(given.state.anatomy)
    if body.where.startswith("part:"):
        part = given.state.parts.get(body.where[5:])
        if part is None or not places:
            raise refuse(kind.name, "There is no part {part}.", "Receive it first.", part=body.where[5:])
        return places[0]
    if body.where not in places:
        raise refuse(kind.name, "This engine has none at {where}.", "Its places: {known}.",
                     where=body.where, known=", ".join(places) or "none")  # fmt: skip
    return body.where


def _size(body: Reading, given: Given, kind: Measurand, card: GaugeCard, place: str, where: str) -> None:
    if body.temperature:
        units.read(body.temperature, "temperature", unit="°C", where=f"{where}, temperature")
    read = indicated(body.text, kind, card, body.unit, where=where)
    one_number = read.low is not None and read.high is not None and read.low.exact == read.high.exact
    if not one_number and not kind.pair and (card.kind != "pin" or read.no_gap):
        raise refuse(where, "{text} is no reading of it.", "Type a number.", text=body.text)
    size = read.low or read.high
    if size is None:
        return
    if size.number < 0 and kind.plausible is not None and kind.plausible[0] >= 0:
        raise refuse(where, "{size} is below nothing.", "Type it without its sign.", size=str(size))
    row = next((r for key in _judged_by(kind, given) if (r := given.book.limit_for(key, place))), None)
    master = card.master if card.deviation else None
    dial = master is not None and is_deviation(body.text, kind, master, body.unit, where)
    slip = slip_of(
        Seen(
            size=size,
            kind=kind,
            row=row,
            origin=master.value if dial and master is not None else 0.0,
            step=card.resolution.value if card.resolution is not None else 0.0,
            others=_others(kind, card, row, given),
            bored=given.state.anatomy.layout.bore == "iron",
        )
    )
    thinner = kind.pair and read.low is not None and card.low is not None and 0 < read.low.value < card.low.value
    if thinner or (not card.covers(size.value) and not kind.pair):
        meant = f"Did you mean {slip.meant:.6g} {kind.unit}? " if slip and slip.meant is not None else ""
        raise refuse(where, "{size} is outside the range of {gauge}.", "{meant}Take another gauge, or look at its unit.",
                     size=str(size), gauge=card.name, meant=meant)  # fmt: skip
    if slip is not None and slip.key not in body.confirmed:
        raise ask(where, slip, body.text, kind)


def _judged_by(kind: Measurand, given: Given) -> tuple[str, ...]:
    """The measured characteristics of a measurand, whose rows say what it may be."""
    return tuple(key for key, measurand in _measured(given) if measurand == kind.key)


def _measured(given: Given) -> tuple[tuple[str, str], ...]:
    """Every characteristic that is one reading, with its measurand."""
    return tuple(
        (key, c.wants[0].measurand)
        for key, c in characteristics(given.state.anatomy).items()
        if len(c.wants) == 1 and not c.wants[0].statistic.startswith("spread")
    )


def _others(kind: Measurand, card: GaugeCard, row: LimitRow | None, given: Given) -> tuple[tuple[str, LimitRow], ...]:
    """The book's other rows that this gauge could have read, those of the same measurand first."""
    every, read = measurands(given.state.anatomy), dict(_measured(given))
    found = [
        (r.of != (row.of if row else ""), f"{every[read[r.of]].name} {say(r.side)}".strip(), r)
        for r in given.book.limits
        if r is not row and r.of in read and every[read[r.of]].dimension == kind.dimension
        and card.kind in every[read[r.of]].gauges
    ]  # fmt: skip
    return tuple((name, r) for _, name, r in sorted(found, key=lambda f: f[0]))


def _operation(body: OperationDone, state: JobState) -> None:
    every = operations(state.anatomy)
    kind = every.get(body.operation)
    if kind is None:
        raise refuse(body.operation, "Nothing of this name is done.", "Use one of: {known}.", known=_some(every))
    if body.where not in kind.where(state.anatomy):
        known = ", ".join(kind.where(state.anatomy)[:12]) or "none"
        raise refuse(kind.name, "It is not done at {at}.", "Places: {known}.", at=body.where, known=known)
    _late(body.before, body.because, state, kind.name)
    if kind.key in TURNS and state.dropped_in and body.detail.get("already") != "done":
        raise refuse(kind.name, "Something was dropped into the engine and is not found.",
                     "Find and count it first; if it was turned already, write it with already=done.")  # fmt: skip
    forbidden = _forbidden(kind.forbidden_on, body.where, state)
    if forbidden and body.detail.get("already") != "done":
        raise refuse(kind.name, "Not on a {what} part: {at}.", "If it was done already, write it with already=done; "
                     "the part is then no longer usable.", what=forbidden, at=say(body.where))  # fmt: skip


def _forbidden(on: tuple[str, ...], where: str, state: JobState) -> str:
    layout = state.anatomy.layout
    if "coated" in on and where in state.anatomy.valves and layout.side(where).coated:
        return "coated"
    return "plated" if "plated" in on and layout.bore == "plated" else ""


def _late(before: str, because: str, state: JobState, where: str) -> None:
    if not before:
        return
    if before not in {e.typed.id for e in state.entries}:
        raise refuse(where, "The entry it came before is not in this job.", "Name one that is.")
    if not because.strip():
        raise refuse(where, "Work remembered late needs its reason.", "Say how you know when it was done.")


def _part(body: PartReceived | PartRemoved | PartFitted | PartsSwapped, state: JobState) -> None:
    kinds = {slot.kind for slot in state.anatomy.slots.values()}
    if isinstance(body, PartReceived):
        if body.kind not in kinds:
            raise refuse("part", "This engine has no {kind}.", "Kinds: {known}.", kind=body.kind, known=_some(kinds))
        if body.thickness:
            units.read(body.thickness, "length", unit="mm", where=f"{body.kind}, thickness")
        return
    _late(body.before, body.because, state, "part")
    for slot in (body.slot, *((body.other,) if isinstance(body, PartsSwapped) else ())):
        if slot not in state.slots:
            raise refuse(slot, "This engine has no such slot.", "Look at its parts for the names.")
    if isinstance(body, PartsSwapped) and _kind(state, body.slot) != _kind(state, body.other):
        raise refuse(body.slot, "Parts of two kinds cannot be exchanged.", "Fit each where it belongs.")
    if isinstance(body, PartFitted):
        part = state.parts.get(body.part)
        if part is None:
            raise refuse(body.slot, "There is no part {part}.", "Receive it first.", part=body.part)
        if part.kind != _kind(state, body.slot):
            raise refuse(body.slot, "A {kind} does not go there.", "Fit it where it belongs.", kind=part.kind)


def _kind(state: JobState, slot: str) -> str:
    return state.anatomy.slots[slot].kind


def _hold(body: HoldPassed, given: Given) -> None:
    every = holds(given.state.anatomy)
    hold = every.get(body.hold)
    if hold is None:
        raise refuse(body.hold, "There is no such hold.", "Holds: {known}.", known=_some(every))
    needs = needed(given, hold)
    if needs and not body.override.strip():
        raise refuse(f"hold {hold.key} {hold.name}", "It waits for: {needs}.",
                     "Bring the evidence, or sign against it with a reason.", needs=", ".join(needs))  # fmt: skip


def _retraction(body: Retraction, state: JobState) -> None:
    target = next((e for e in state.entries if e.typed.id == body.entry), None)
    if target is None:
        raise refuse("retraction", "The job has no such entry.", "Look at the ledger for its number.")
    books = [e for e in state.entries if isinstance(e.typed.body, BookPinned) and e.typed.id not in state.retracted]
    if isinstance(target.typed.body, FOR_GOOD) or books == [target]:
        raise refuse(f"entry {target.seq}", "It cannot be retracted.", "Write what is so as a new entry.")
    if not body.reason.strip():
        raise refuse(f"entry {target.seq}", "A retraction needs its reason.", "Say what was wrong with the entry.")


def _decision(body: Disposition | EstimateApproved | ScopeWidened, state: JobState) -> None:
    match body:
        case Disposition() if body.part not in state.parts:
            raise refuse(body.part, "There is no such part.", "Look at the parts for their names.")
        case Disposition() if not body.reason.strip():
            raise refuse(say(body.part.removeprefix("orig:")), "A decision needs its reason.", "Say why.")
        case EstimateApproved():
            if units.read(body.amount, "money", where="approved amount").number < 0:
                raise refuse(
                    "approved amount", "{amount} is below nothing.", "Type what was allowed.", amount=body.amount
                )
        case ScopeWidened() if body.scope not in SCOPES:
            raise refuse(
                "scope", "There is no scope {scope}.", "Scopes: {known}.", scope=body.scope, known=_some(SCOPES)
            )
        case _:
            pass


def _own(body: OwnAdded, given: Given) -> None:
    """An own thing that cannot be used is refused with everything that is wrong with it."""
    where = f"own {body.kind} {body.row.get('name', '')}".strip()
    _book, problems = with_own(given.book, ((where, body.kind, body.row),))
    if problems:
        raise Refused(problems)


def _counts(body: Ordered | Arrived) -> None:
    for number, count in body.lines.items():
        if count < 1:
            raise refuse(f"order {body.order}", "{n} of {number} is no count.", "Count from 1.", n=count, number=number)


def _no_good(body: ArrivedWrong, state: JobState) -> None:
    """Only what was ordered can come wrong, and no more of it than was ordered."""
    ordered = sum(fact.lines.get(body.number, 0) for _seq, fact in state.orders if fact.order == body.order)
    before = sum(f.count for _seq, f in state.wrong if (f.order, f.number) == (body.order, body.number))
    if not 1 <= body.count <= ordered - before:
        raise refuse(f"order {body.order}", "{n} of {number} cannot have come wrong: {left} were ordered and not sent back.",
                     "Look at the order for its number and count.", n=body.count, number=body.number,
                     left=ordered - before)  # fmt: skip


def _authority(body: Ordered, given: Given) -> None:
    """Over the owner's ceiling, or on a word that was taken back, nothing is ordered: that bill ends in a quarrel."""
    estimate = next((p for p in plan_all(given) if p.key == "estimate"), None)
    if estimate is not None and estimate.state == "waits":
        raise refuse(f"order {body.order}", "{why}.", "Ask for a new yes and write it down, then order.",
                     why=str(estimate.reasons[0]))  # fmt: skip


def _some(names: object) -> str:
    listed = sorted(str(n) for n in names)  # type: ignore[attr-defined]
    return ", ".join(listed[:20]) + (" …" if len(listed) > 20 else "")
