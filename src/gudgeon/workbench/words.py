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


def fact_words(body: Body) -> str:
    """One entry in one line."""
    match body:
        case Reading():
            name = _named(body.measurand)
            return f"{name} {body.point}".strip() + f": {body.text} {body.unit}".rstrip() + f" with {body.gauge}"
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
            return f"{say(body.slot)} taken out"
        case PartFitted():
            old = "the part that was out" if body.part.startswith("orig:") else "new part"
            return f"{say(body.slot)}: {old} fitted"
        case PartsSwapped():
            return f"{say(body.slot)} and {say(body.other)} exchanged"
        case Arrived():
            return (
                f"order {body.order}: " + ", ".join(f"{n} × {number}" for number, n in body.lines.items()) + " arrived"
            )
        case ArrivedWrong():
            told = f", {body.words}" if body.words else ""
            return f"order {body.order}: {body.count} × {body.number} no good, {body.what}{told}"
        case GaugePinned():
            return f"gauge {body.gauge} taken into the job"
        case EarlierPinned():
            return f"read in job {body.job} at {body.hours}: {len(body.rows)} sizes taken into the job"
        case ZeroChecked():
            return f"zero of {body.gauge}: {body.text} {body.unit}, {'holds' if body.holds else 'drifted'}"
        case _:
            return type(body).__name__


def _decided_words(body: Body) -> str:
    match body:
        case JobOpened():
            return f"job {body.number} opened, engine {body.engine_number}, {body.scope}"
        case BookPinned():
            return f"book {body.name}, edition {body.edition}"
        case RulesPinned():
            return "workshop rules taken into the job"
        case ScopeWidened():
            return f"scope: {body.scope}"
        case OwnAdded():
            return f"own {body.kind}: {body.row.get('name', '')}"
        case Disposition():
            return f"{say(body.part.removeprefix('orig:'))}: {body.what.replace('_', ' ')} ({body.reason})"
        case HoldPassed():
            return f"hold {body.hold} signed" + (f" against its evidence: {body.override}" if body.override else "")
        case Ordered():
            return f"order {body.order} ({body.kind}): " + ", ".join(
                f"{n} × {number}" for number, n in body.lines.items()
            )
        case EstimateApproved():
            return f"approved by {body.by}: {body.amount} {body.currency}"
        case PaperIssued():
            return f"paper {body.paper.replace('_', ' ')} handed over"
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
