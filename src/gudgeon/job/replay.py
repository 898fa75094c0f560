"""From the ledger to the state of the job: one pass in the order in which things happened. It never raises.

An entry that cannot be used is a problem at its number, and the rest of the job still shows.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from gudgeon.anatomy import Anatomy
from gudgeon.job.belief import beliefs
from gudgeon.job.entries import (
    Arrived,
    ArrivedWrong,
    BookPinned,
    Disposition,
    EarlierPinned,
    Entry,
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
from gudgeon.job.freshness import Position
from gudgeon.job.order import bad_references, in_order, retracted_ids
from gudgeon.job.parts import Inventory
from gudgeon.job.state import JobState
from gudgeon.job.taking import Takings
from gudgeon.job.work import Work
from gudgeon.problem import Problem, Refused, said


def replay(
    entries: Sequence[Entry],
    anatomy: Anatomy,
    *,
    numbers: Mapping[str, str] | None = None,
    fasteners: Mapping[str, tuple[str, ...]] | None = None,
    problems: Sequence[Problem] = (),
) -> JobState:
    """The state of a job.

    `numbers` are the part numbers the engine came with, by slot; `fasteners` what must be drawn up before a joint is
    closed; `problems` those of reading it.
    """
    out = retracted_ids(entries)
    run = _Run(anatomy, Inventory(anatomy, numbers or {}), fasteners or {}, {e.typed.id: e for e in entries}, out)
    for position, entry in in_order(entries, out):
        try:
            run.one(position, entry)
        except Refused as refused:
            run.problems += refused.problems
        except (KeyError, ValueError, TypeError, AttributeError) as wrong:
            what = said("The entry cannot be used: {why}.", why=f"{type(wrong).__name__} {wrong}")
            run.problems.append(Problem(where=f"entry {entry.seq}", what=what, remedy=said("Retract it.")))
    return run.state(entries, out, (*problems, *bad_references(entries, out)))


class _Run:
    """What has been gathered so far; the rooms of the state fill up side by side."""

    def __init__(
        self,
        anatomy: Anatomy,
        inventory: Inventory,
        fasteners: Mapping[str, tuple[str, ...]],
        by_id: Mapping[str, Entry],
        out: frozenset[str],
    ) -> None:
        self.anatomy, self.problems = anatomy, list[Problem]()
        self.inventory = inventory
        self.work = Work(anatomy, self.inventory, fasteners)
        self.takings = Takings(anatomy, self.inventory, self.work, beliefs(by_id, out, anatomy))
        self.opened: JobOpened | None = None
        self.scope, self.closed, self.stopped = "", 0, ""
        self.book: tuple[str, str, str] | None = None
        self.rules: dict[str, str] = {}
        self.gauges: dict[str, Mapping[str, str]] = {}
        self.earlier: dict[str, EarlierPinned] = {}
        self.zeros: list[tuple[int, ZeroChecked]] = []
        self.dispositions: dict[str, tuple[int, Disposition]] = {}
        self.orders: list[tuple[int, Ordered]] = []
        self.arrived: list[tuple[int, Arrived]] = []
        self.wrong: list[tuple[int, ArrivedWrong]] = []
        self.approvals: list[tuple[int, EstimateApproved]] = []
        self.papers: list[tuple[int, PaperIssued]] = []
        self.notes: list[tuple[int, Note]] = []

    def one(self, position: Position, entry: Entry) -> None:
        """Take one live entry into account."""
        match entry.typed.body:
            case Reading() | GoNoGo() as fact:
                self.takings.reading(position, entry, fact)
            case Finding() | TorqueApplied() | HoldPassed() as fact:
                self.takings.evidence(position, entry, fact)
                if isinstance(fact, TorqueApplied) and fact.stage >= fact.of:
                    self.work.torqued(fact.joint)
            case OperationDone() as fact:
                self.work.operation(position, entry, fact)
            case PartReceived() | PartRemoved() | PartFitted() | PartsSwapped() as fact:
                self.work.parts(position, entry, fact)
            case _:
                self.papers_and_pins(position, entry)

    def papers_and_pins(self, position: Position, entry: Entry) -> None:
        """What touches no part: pins, decisions, orders, papers, words."""
        seq = entry.seq
        match entry.typed.body:
            case JobOpened() as fact:
                self.opened, self.scope = fact, self.scope or fact.scope
            case GaugePinned(gauge=gauge, card=card):
                self.gauges[gauge] = card
            case EarlierPinned() as fact:
                self.earlier[fact.job] = fact
            case ZeroChecked() as fact:
                self.zeros.append((seq, self.takings.zeros.checked(position, entry, fact, self.gauges)))
            case BookPinned(name=name, edition=edition, sha256=sha):
                self.book = (name, edition, sha)
            case RulesPinned(rules=rules):
                self.rules = rules
            case ScopeWidened(scope=scope):
                self.scope = scope
            case Disposition() as fact:
                self.dispositions[fact.part] = (seq, fact)
            case JobClosed(outcome=outcome, reason=reason):
                self.closed, self.stopped = seq, reason or "no reason" if outcome == "stopped" else ""
            case Retraction() | OwnAdded():
                pass
            case _:
                self.orders_and_words(entry)

    def orders_and_words(self, entry: Entry) -> None:
        """Orders, arrivals, approvals, papers, notes."""
        match entry.typed.body:
            case Ordered() as fact:
                self.orders.append((entry.seq, fact))
            case Arrived() as fact:
                self.arrived.append((entry.seq, fact))
            case ArrivedWrong() as fact:
                self.wrong.append((entry.seq, fact))
            case EstimateApproved() as fact:
                self.approvals.append((entry.seq, fact))
            case PaperIssued() as fact:
                self.papers.append((entry.seq, fact))
            case Note() as fact:
                self.notes.append((entry.seq, fact))
            case other:
                raise ValueError(f"no place for {type(other).__name__}")

    def state(self, entries: Sequence[Entry], out: frozenset[str], problems: Sequence[Problem]) -> JobState:
        """The finished value."""
        return JobState(
            anatomy=self.anatomy,
            entries=tuple(entries),
            retracted=out,
            opened=self.opened,
            scope=self.scope,
            book=self.book,
            rules=self.rules,
            gauges=self.gauges,
            zeros=tuple(self.zeros),
            earlier=self.earlier,
            parts=self.inventory.parts,
            slots=self.inventory.slots,
            out=frozenset(self.inventory.out),
            identities=self.inventory.held,
            renewed=frozenset(self.work.renewed),
            open_joints=dict(self.work.open_joints),
            opened_at=dict(self.work.opened_at),
            turns=self.work.turns,
            touched_joints=frozenset(f"{k[0][1:]} {k[1]}" for k in self.work.touched if k[0].startswith("@")),
            readings=tuple(self.takings.taken),
            evidence=tuple(self.takings.aged),
            done=tuple(self.work.done),
            pairs=self.work.pairs_now(),
            dispositions=self.dispositions,
            orders=tuple(self.orders),
            arrived=tuple(self.arrived),
            wrong=tuple(self.wrong),
            approvals=tuple(self.approvals),
            papers=tuple(self.papers),
            notes=tuple(self.notes),
            used=dict(self.work.used),
            unusable=dict(self.work.unusable),
            dropped_in=self.work.dropped_in,
            rags_in=self.work.rags_in,
            closed=self.closed,
            stopped=self.stopped,
            problems=(*problems, *self.problems),
        )
