"""The facts a job is made of.

*What happened* always lands. *What was decided* lands only on the head that was seen: two people must not decide
past each other. A bench makes a :class:`Typed`; the server adds its place and time and makes it an :class:`Entry`.
"""

from __future__ import annotations

from typing import Literal

from msgspec import Struct


class Fact(Struct, frozen=True, kw_only=True, omit_defaults=True, forbid_unknown_fields=True, tag_field="fact"):
    """One thing that happened or was decided."""


# -- what happened: always lands ------------------------------------------------------------------------------------


class JobOpened(Fact, frozen=True, kw_only=True, tag="job_opened/1"):
    """A job begins: which engine, how far worn, what it complains of. `owner` is an id beside the ledger, no name."""

    number: str
    engine_number: str
    scope: str = "valves"
    machine: str = ""
    hours: str = ""
    complaint: str = ""
    owner: str = ""
    altitude: str = ""


class GaugePinned(Fact, frozen=True, kw_only=True, tag="gauge_pinned/1"):
    """A gauge's card as it stood, so that an archive stands alone."""

    gauge: str
    card: dict[str, str]


class Past(Struct, frozen=True, kw_only=True, omit_defaults=True, forbid_unknown_fields=True):
    """One thing that wears, in an earlier job: as it came in and as it was left, in the inside unit, and if renewed then."""

    address: str
    came: str = ""
    left: str = ""
    u: str = ""
    renewed: bool = False


class EarlierPinned(Fact, frozen=True, kw_only=True, tag="earlier_pinned/1"):
    """What an earlier job read of this engine, or of one of its family, so that wear over hours needs no other ledger."""

    job: str
    on: str
    engine: str
    hours: str
    of: Literal["engine", "family"]
    rows: tuple[Past, ...]


class ZeroChecked(Fact, frozen=True, kw_only=True, tag="zero_checked/1"):
    """A gauge on its zero or its setting master, before or after a series."""

    gauge: str
    text: str
    unit: str
    holds: bool


class Reading(Fact, frozen=True, kw_only=True, tag="reading/1"):
    """One indication as typed, in the unit that the field showed, at a place or of a part (``part:<id>``).

    `needs` says what was so (``cold``) and what was not (``not cold``); silence says nothing.
    """

    measurand: str
    where: str
    point: str = ""
    text: str
    unit: str
    gauge: str
    temperature: str = ""
    needs: tuple[str, ...] = ()
    confirmed: tuple[str, ...] = ()


class GoNoGo(Fact, frozen=True, kw_only=True, tag="go_no_go/1"):
    """A fixed gauge of a stated size that enters, or does not."""

    measurand: str
    where: str
    point: str = ""
    gauge: str
    size: str
    unit: str
    enters: bool
    needs: tuple[str, ...] = ()


class Finding(Fact, frozen=True, kw_only=True, tag="finding/1"):
    """Something seen, heard or felt that no number holds. `photos` are digests of stored pictures."""

    kind: str
    where: str
    words: str = ""
    photos: tuple[str, ...] = ()


class OperationDone(Fact, frozen=True, kw_only=True, tag="operation_done/1"):
    """Work done at a place. Remembered late, it names the entry it came before, and why."""

    operation: str
    where: str
    detail: dict[str, str] = {}
    before: str = ""
    because: str = ""


class PartReceived(Fact, frozen=True, kw_only=True, tag="part_received/1"):
    """A new part in hand; its id is this entry's id."""

    kind: str
    number: str = ""
    mark: str = ""
    thickness: str = ""
    order: str = ""


class PartRemoved(Fact, frozen=True, kw_only=True, tag="part_removed/1"):
    """A part taken out of its slot; it keeps its identity and its readings."""

    slot: str
    before: str = ""
    because: str = ""


class PartFitted(Fact, frozen=True, kw_only=True, tag="part_fitted/1"):
    """A part put into a slot; where it stood elsewhere, that slot is left empty."""

    part: str
    slot: str
    before: str = ""
    because: str = ""


class PartsSwapped(Fact, frozen=True, kw_only=True, tag="parts_swapped/1"):
    """The parts of two slots exchanged, in one entry."""

    slot: str
    other: str
    before: str = ""
    because: str = ""


class TorqueApplied(Fact, frozen=True, kw_only=True, tag="torque_applied/1"):
    """One stage of a joint, or of one kind of its fasteners: ``head head#head nuts``; an angle is a stage in degrees.

    `setting` is what the wrench was set to. An adapter makes the lever longer: `adapter` holds its ``extension``, its
    ``angle`` and the ``length`` of the wrench, as typed.
    """

    joint: str
    stage: int
    of: int
    setting: str
    unit: str
    wrench: str
    adapter: dict[str, str] = {}


class Arrived(Fact, frozen=True, kw_only=True, tag="arrived/1"):
    """What came of an order: part numbers and counts."""

    order: str
    lines: dict[str, int]


class ArrivedWrong(Fact, frozen=True, kw_only=True, tag="arrived_wrong/1"):
    """Pieces of an order that came and are no good: they count neither as here nor as on their way."""

    order: str
    number: str
    count: int
    what: Literal["other number", "wrong size", "broken"]
    words: str = ""


class Note(Fact, frozen=True, kw_only=True, tag="note/1"):
    """Words and pictures for whoever reads this later."""

    words: str
    where: str = ""
    photos: tuple[str, ...] = ()


# -- what was decided: lands only on the head that was seen ------------------------------------------------------------


class BookPinned(Fact, frozen=True, kw_only=True, tag="book_pinned/1"):
    """The edition of the book that this job is judged by."""

    name: str
    edition: str
    sha256: str


class RulesPinned(Fact, frozen=True, kw_only=True, tag="rules_pinned/1"):
    """The workshop's decision rules as they stood."""

    rules: dict[str, str]


class ScopeWidened(Fact, frozen=True, kw_only=True, tag="scope_widened/1"):
    """The job asks for more than it began with."""

    scope: str


class OwnAdded(Fact, frozen=True, kw_only=True, tag="own_added/1"):
    """A part, something to measure, a step or a check that only this job has; the last one of a name stands."""

    kind: Literal["part", "measure", "step", "check"]
    row: dict[str, str | bool | tuple[str, ...]]


class Disposition(Fact, frozen=True, kw_only=True, tag="disposition/1"):
    """What becomes of a part, and why."""

    part: str
    what: Literal["reuse", "clean", "renew", "machine", "measure_again"]
    reason: str


class HoldPassed(Fact, frozen=True, kw_only=True, tag="hold_passed/1"):
    """A hold point signed: on its evidence, or, with `override`, against it and why."""

    hold: str
    where: str = ""
    override: str = ""


class Ordered(Fact, frozen=True, kw_only=True, tag="ordered/1"):
    """An order given: parts with counts, or machining with what is to be reached."""

    order: str
    kind: Literal["parts", "machining"]
    lines: dict[str, int] = {}
    words: dict[str, str] = {}


class EstimateApproved(Fact, frozen=True, kw_only=True, tag="estimate_approved/1"):
    """The owner's word, with its ceiling."""

    amount: str
    currency: str
    by: str


class PaperIssued(Fact, frozen=True, kw_only=True, tag="paper_issued/1"):
    """A paper handed over: the digest of its content and the head it was built on."""

    paper: str
    content: str
    of: int


class Retraction(Fact, frozen=True, kw_only=True, tag="retraction/1"):
    """An entry that never happened. Undoing work on the bench is new work, not this."""

    entry: str
    reason: str


class JobClosed(Fact, frozen=True, kw_only=True, tag="job_closed/1"):
    """The job ends: finished, or stopped, and then the engine goes back in parts; retracting this opens it again."""

    reason: str = ""
    outcome: Literal["finished", "stopped"] = "finished"


Body = (
    JobOpened
    | GaugePinned
    | EarlierPinned
    | ZeroChecked
    | Reading
    | GoNoGo
    | Finding
    | OperationDone
    | PartReceived
    | PartRemoved
    | PartFitted
    | PartsSwapped
    | TorqueApplied
    | Arrived
    | ArrivedWrong
    | Note
    | BookPinned
    | RulesPinned
    | ScopeWidened
    | OwnAdded
    | Disposition
    | HoldPassed
    | Ordered
    | EstimateApproved
    | PaperIssued
    | Retraction
    | JobClosed
)

DECIDED = (
    BookPinned,
    RulesPinned,
    ScopeWidened,
    OwnAdded,
    Disposition,
    HoldPassed,
    Ordered,
    EstimateApproved,
    PaperIssued,
    Retraction,
    JobClosed,
)

#: What its own bench may retract at any time, like what happened: or undo would fail without a network.
UNDONE_FREELY = (Reading, GoNoGo, Finding, Note)

#: What can never be retracted.
FOR_GOOD = (JobOpened, PaperIssued)


class Typed(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Made on the bench; the server never changes a byte of it."""

    id: str
    typed_at: str
    by: str
    bench: str
    nth: int
    seen: int
    body: Body


class Entry(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What landed: the server adds its place in the job, its own time and the account."""

    seq: int
    landed_at: str
    account: str
    typed: Typed


def decided(body: Body, *, own_target: Body | None = None) -> bool:
    """Whether this lands only on the head that was seen; `own_target` is what a retraction of one's own names."""
    if isinstance(body, Retraction) and isinstance(own_target, UNDONE_FREELY):
        return False
    return isinstance(body, DECIDED)
