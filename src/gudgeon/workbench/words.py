"""Entries in words, as a person reads the ledger."""

from __future__ import annotations

from gudgeon.anatomy import Anatomy, say
from gudgeon.characteristics.own import characteristics
from gudgeon.job.entries import (
    Arrived,
    ArrivedWrong,
    Body,
    BookPinned,
    Disposition,
    EarlierPinned,
    EstimateApproved,
    Finding,
    GaugePinned,
    GoNoGo,
    HoldPassed,
    JobClosed,
    JobOpened,
    Note,
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
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.operations.catalogue import OPERATIONS
from gudgeon.problem import said


def fact_words(body: Body) -> str:
    """One entry in one line."""
    match body:
        case Reading():
            name = _named(body.measurand)
            what, text = f"{name} {body.point}".strip(), f"{body.text} {body.unit}".strip()
            return str(said("{what}: {text} with {gauge}", what=what, text=text, gauge=body.gauge))
        case GoNoGo():
            name = _named(body.measurand)
            return (
                f"{name} {body.point}".strip()
                + f": {body.size} {body.unit} {'enters' if body.enters else 'does not enter'}"
            )
        case OperationDone():
            did = OPERATIONS[body.operation].did if body.operation in OPERATIONS else _plain(body.operation)
            detail = ", ".join(f"{k} {v}" for k, v in body.detail.items())
            late = f" (before an earlier entry: {body.because})" if body.before else ""
            return did + (f": {detail}" if detail else "") + late
        case Finding():
            return f"found: {body.kind}" + (f", {body.words}" if body.words else "")
        case TorqueApplied():
            return f"stage {body.stage} of {body.of}: {body.setting} {body.unit} with {body.wrench}"
        case Note():
            return f"note: {body.words}"
        case _:
            return _decided_words(body) or _part_words(body)


def _named(measurand: str) -> str:
    return MEASURANDS[measurand].name if measurand in MEASURANDS else _plain(measurand)


def _plain(key: str) -> str:
    """The key of an own thing is its name."""
    return key.replace("_", " ")


def _part_words(body: Body) -> str:
    match body:
        case PartReceived():
            return f"{body.kind} received" + "".join(f", {t}" for t in (body.number, body.mark, body.thickness) if t)
        case PartRemoved():
            return str(said("{slot} taken out", slot=say(body.slot)))
        case PartFitted():
            if body.part.startswith("orig:"):
                return str(said("{slot}: the part that was out fitted", slot=say(body.slot)))
            return str(said("{slot}: new part fitted", slot=say(body.slot)))
        case PartsSwapped():
            return str(said("{slot} and {other} exchanged", slot=say(body.slot), other=say(body.other)))
        case Arrived():
            return (
                f"order {body.order}: " + ", ".join(f"{n} × {number}" for number, n in body.lines.items()) + " arrived"
            )
        case ArrivedWrong():
            told = f", {body.words}" if body.words else ""
            return f"order {body.order}: {body.count} × {body.number} no good, {body.what}{told}"
        case GaugePinned():
            return str(said("gauge {gauge} taken into the job", gauge=body.gauge))
        case EarlierPinned():
            return f"read in job {body.job} at {body.hours}: {len(body.rows)} sizes taken into the job"
        case ZeroChecked():
            return f"zero of {body.gauge}: {body.text} {body.unit}, {'holds' if body.holds else 'drifted'}"
        case _:
            return type(body).__name__


def _decided_words(body: Body) -> str:
    match body:
        case JobOpened():
            return str(
                said(
                    "job {n} opened, engine {engine}, {scope}",
                    n=body.number,
                    engine=body.engine_number,
                    scope=body.scope,
                )
            )
        case BookPinned():
            return str(said("book {name}, edition {edition}", name=body.name, edition=body.edition))
        case RulesPinned():
            return "workshop rules taken into the job"
        case ScopeWidened():
            return f"scope: {body.scope}"
        case OwnAdded():
            return f"own {body.kind}: {body.row.get('name', '')}"
        case Disposition():
            part, what = say(body.part.removeprefix("orig:")), body.what.replace("_", " ")
            return str(said("{part}, decided: {what} ({reason})", part=part, what=what, reason=body.reason))
        case HoldPassed():
            if body.override:
                return str(
                    said("hold {hold} signed against its evidence: {reason}", hold=body.hold, reason=body.override)
                )
            return str(said("hold {hold} signed", hold=body.hold))
        case Ordered():
            return f"order {body.order} ({body.kind}): " + ", ".join(
                f"{n} × {number}" for number, n in body.lines.items()
            )
        case EstimateApproved():
            return str(
                said("approved by {by}: {amount} {currency}", by=body.by, amount=body.amount, currency=body.currency)
            )
        case PaperIssued():
            return str(said("paper {paper} handed over", paper=body.paper.replace("_", " ")))
        case Retraction():
            return f"retracted: {body.reason}"
        case JobClosed():
            ended = "job stopped, the engine goes back in parts" if body.outcome == "stopped" else "job closed"
            return ended + (f": {body.reason}" if body.reason else "")
        case _:
            return ""


def fact_place(body: Body) -> str:
    """Where an entry belongs, for the list."""
    if isinstance(body, TorqueApplied):
        return joint_words(body.joint)
    for name in ("where", "slot"):
        value = getattr(body, name, "")
        if value:
            return "" if str(value).startswith("part:") else say(str(value))
    return ""


def joint_words(joint: str, *, single: bool = False) -> str:
    """A joint in words, or the fasteners of it that are meant: ``head head#head nuts`` is "head nuts"."""
    whole, _, fastener = joint.partition("#")
    place, _, name = whole.partition(" ")
    return fastener or (name if place in (name, "engine") else f"{say(place, single=single)} {name}")


def formula_of(key: str, anatomy: Anatomy) -> tuple[str, str]:
    """Formula and source of a characteristic."""
    kind = characteristics(anatomy)[key]
    return kind.formula, kind.source
