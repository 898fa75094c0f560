"""What only papers and the technical record need of a job, made when a paper is: screens do not pay for it."""

from __future__ import annotations

from msgspec import Struct

from gudgeon.figures.wear import WearSpec
from gudgeon.view.job import JobView


class CardView(Struct, frozen=True, kw_only=True):
    """A gauge of this job as its card was pinned, and its last zero check in words."""

    id: str
    name: str
    kind: str
    unit: str
    error: str
    source: str
    due: str
    zero: str


class ReadingView(Struct, frozen=True, kw_only=True):
    """One reading as typed, and what became of it."""

    seq: int
    at: str
    by: str
    measurand: str
    name: str
    place: str
    part: str
    where: str
    point: str
    text: str
    unit: str
    gauge: str
    temperature: str
    confirmed: tuple[str, ...]
    counts: str
    reasons: tuple[str, ...]


class WorkView(Struct, frozen=True, kw_only=True):
    """Work that was done."""

    seq: int
    at: str
    by: str
    operation: str
    place: str
    where: str
    words: str
    detail: dict[str, str]
    late: str


class TorqueView(Struct, frozen=True, kw_only=True):
    """One stage of tightening as it was written down; `final` closes the joint, `fresh` says it was not opened since."""

    seq: int
    at: str
    by: str
    joint: str
    where: str
    stage: int
    of: int
    setting: str
    unit: str
    wrench: str
    final: bool
    fresh: bool


class FastenerView(Struct, frozen=True, kw_only=True):
    """Fasteners of one kind, as the book has them; texts as typed there."""

    name: str
    joint: str
    place: str
    count: int
    thread: str
    grade: str
    stages: tuple[str, ...]
    angle: str
    thread_state: str
    under_head: str
    locker: str
    cure: str
    washer: str
    renew: str
    retighten: str
    order: tuple[int, ...]
    positions_mm: tuple[tuple[float, float], ...]
    page: str
    note: str


class BookPartView(Struct, frozen=True, kw_only=True):
    """A part number of the book: its name, its price, and what it is mistaken for."""

    number: str
    name: str
    price: str
    renew: str
    look_alike: str


class BlankRow(Struct, frozen=True, kw_only=True):
    """A place to be read, at which points, with what the book says of it."""

    place: str
    where: str
    points: tuple[str, ...]
    new: str
    limit: str
    page: str


class BlankView(Struct, frozen=True, kw_only=True):
    """A measurand of the job's scope as a blank form: its points, and a row for each place."""

    measurand: str
    name: str
    unit: str
    gauge: str
    gauges: tuple[str, ...]
    drawing: str
    train: str
    lash_at: str
    ask: str
    words: tuple[str, ...]
    needs: tuple[str, ...]
    caution: str
    points: tuple[str, ...]
    point_keys: tuple[str, ...]
    rows: tuple[BlankRow, ...]


class FindingView(Struct, frozen=True, kw_only=True):
    """Something seen, heard or felt, with the digests of its `pictures`; `stands` while its part is in the engine, unworked."""

    seq: int
    at: str
    where: str
    kind: str
    words: str
    photos: int
    stands: bool
    pictures: tuple[str, ...] = ()


class DecisionView(Struct, frozen=True, kw_only=True):
    """What became of a part, and why."""

    seq: int
    part: str
    where: str
    what: str
    reason: str


class OrderView(Struct, frozen=True, kw_only=True):
    """An order as given, and what came of it."""

    seq: int
    at: str
    order: str
    kind: str
    lines: dict[str, int]
    words: dict[str, str]
    arrived: dict[str, int]


class ApprovalView(Struct, frozen=True, kw_only=True):
    """The owner's word."""

    seq: int
    at: str
    amount: str
    currency: str
    by: str


class NoteView(Struct, frozen=True, kw_only=True):
    """Words for a later reader; `where` may be a place, "advised" or "not done" (both stand on the owner's page)."""

    seq: int
    at: str
    by: str
    where: str
    words: str
    photos: int
    pictures: tuple[str, ...] = ()


class LeftPartView(Struct, frozen=True, kw_only=True):
    """A part that came out of the engine and stands in no slot now."""

    part: str
    where: str
    kind: str
    number: str
    mark: str
    thickness: str
    reason: str


class LoosePart(Struct, frozen=True, kw_only=True):
    """A part that is not where it works: what it is, where it lies or which joint is open, and what was noted of it."""

    what: str
    lies: str
    note: str


class RetractionView(Struct, frozen=True, kw_only=True):
    """An entry taken back, and why; `stands` unless it was taken back itself."""

    seq: int
    of: int
    words: str
    reason: str
    stands: bool


class CautionView(Struct, frozen=True, kw_only=True):
    """What can hurt, at the work where it waits."""

    at: str
    name: str
    words: str


class WearView(Struct, frozen=True, kw_only=True):
    """Something that wears: by which hours it is measured again, why then, and its drawing over hours."""

    address: str
    name: str
    due: float
    words: str
    drawn: WearSpec


class RecordView(Struct, frozen=True, kw_only=True):
    """Everything of a job that a paper may need beyond what the screens show."""

    cards: tuple[CardView, ...] = ()
    readings: tuple[ReadingView, ...] = ()
    work: tuple[WorkView, ...] = ()
    torques: tuple[TorqueView, ...] = ()
    fasteners: tuple[FastenerView, ...] = ()
    blanks: tuple[BlankView, ...] = ()
    findings: tuple[FindingView, ...] = ()
    decisions: tuple[DecisionView, ...] = ()
    orders: tuple[OrderView, ...] = ()
    approvals: tuple[ApprovalView, ...] = ()
    notes: tuple[NoteView, ...] = ()
    left: tuple[LeftPartView, ...] = ()
    loose: tuple[LoosePart, ...] = ()
    retractions: tuple[RetractionView, ...] = ()
    cautions: tuple[CautionView, ...] = ()
    wear: tuple[WearView, ...] = ()
    rules: dict[str, str] = {}
    catalogue: tuple[BookPartView, ...] = ()


class JobRecord(JobView, frozen=True, kw_only=True):
    """A job as a paper sees it: the read model of the screens, and its record."""

    record: RecordView
