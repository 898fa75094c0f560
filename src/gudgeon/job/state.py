"""What a job looks like after its ledger was replayed: a value, compared and shared freely, never stored."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.job.entries import (
    Arrived,
    ArrivedWrong,
    Disposition,
    EarlierPinned,
    Entry,
    EstimateApproved,
    Finding,
    GoNoGo,
    HoldPassed,
    JobOpened,
    Note,
    Ordered,
    PaperIssued,
    Reading,
    TorqueApplied,
    ZeroChecked,
)
from gudgeon.job.freshness import Key, Observed, Position, Reason, Timeline, may_predict
from gudgeon.problem import Problem, Said


@dataclass(frozen=True, kw_only=True)
class Aging:
    """Evidence that ages: `fresh` is known at once, the reasons are worked out when somebody asks."""

    entry: Entry
    observed: Observed
    timeline: Timeline = field(repr=False, compare=False)

    @cached_property
    def fresh(self) -> bool:
        """Whether no later work touched what this observed."""
        return self.timeline.fresh(self.observed)

    @cached_property
    def reasons(self) -> tuple[Reason, ...]:
        """Why it no longer counts; empty when fresh."""
        return () if self.fresh else self.timeline.reasons(self.observed)

    @cached_property
    def predicts(self) -> bool:
        """Whether plans may still use it: every surface is as it was."""
        return self.fresh or may_predict(self.reasons)


@dataclass(frozen=True, kw_only=True)
class Taken(Aging):
    """A reading with all that replay knows of it. `trial` says why it plans but never releases; `unmet` is what was not as needed."""

    fact: Reading | GoNoGo
    part: str
    as_found: bool
    trial: tuple[Said, ...]
    unmet: tuple[Said, ...]
    other_belief: tuple[int, ...]

    @property
    def counts(self) -> bool:
        """Whether this reading may release: fresh, its needs met, cold where it must be."""
        return self.fresh and not self.trial and not self.warm

    @property
    def warm(self) -> bool:
        """Whether something it needs was not so, warm instead of cold most of all: no plan and no verdict uses it."""
        return bool(self.unmet)

    @property
    def misread(self) -> bool:
        """Whether the zero of its gauge was off: it never said what it seemed to say."""
        return not self.fresh and any(r.how == "zero drifted" for r in self.reasons)

    def held(self, slot: str) -> str:
        """The part that stood in a slot when this was read, or an empty text."""
        return dict(self.observed.slots).get(slot, "")


@dataclass(frozen=True, kw_only=True)
class Evidence(Aging):
    """A torque, a signed hold or a finding, which age as readings do; `part` is the part a finding is about."""

    fact: TorqueApplied | HoldPassed | Finding
    part: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part with its identity: the one the engine came with (``orig:<slot>``) or one that was received."""

    id: str
    kind: str
    number: str
    mark: str
    thickness: str
    received: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two parts worked to one another, by entry `seq`; `broken` when they no longer stand together."""

    seq: int
    parts: tuple[str, str]
    slots: tuple[str, str]
    broken: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """An operation that was done, at its place in the order of things."""

    entry: Entry
    operation: str
    where: str
    detail: Mapping[str, str]
    position: Position


@dataclass(frozen=True, slots=True, kw_only=True)
class JobState:
    """The whole job as its ledger says it."""

    anatomy: Anatomy
    entries: tuple[Entry, ...]
    retracted: frozenset[str]
    opened: JobOpened | None
    scope: str
    book: tuple[str, str, str] | None
    rules: Mapping[str, str]
    gauges: Mapping[str, Mapping[str, str]]
    zeros: tuple[tuple[int, ZeroChecked], ...]
    earlier: Mapping[str, EarlierPinned]
    parts: Mapping[str, Part]
    slots: Mapping[str, str | None]
    out: frozenset[str]
    identities: Mapping[str, str]
    renewed: frozenset[Key]
    open_joints: Mapping[str, int]
    opened_at: Mapping[str, Position]
    turns: float | None
    touched_joints: frozenset[str]
    readings: tuple[Taken, ...]
    evidence: tuple[Evidence, ...]
    done: tuple[Done, ...]
    pairs: tuple[Pair, ...]
    dispositions: Mapping[str, tuple[int, Disposition]]
    orders: tuple[tuple[int, Ordered], ...]
    arrived: tuple[tuple[int, Arrived], ...]
    wrong: tuple[tuple[int, ArrivedWrong], ...]
    approvals: tuple[tuple[int, EstimateApproved], ...]
    papers: tuple[tuple[int, PaperIssued], ...]
    notes: tuple[tuple[int, Note], ...]
    used: Mapping[str, int]
    unusable: Mapping[str, int]
    dropped_in: int
    rags_in: int
    closed: int
    stopped: str
    problems: tuple[Problem, ...]

    def key(self, feature: Feature) -> Key:
        """A feature as it stands now."""
        if isinstance(feature, Surface):
            return (self.identities.get(feature.slot) or f"no:{feature.slot}", feature.name)
        return (f"@{feature.place}", feature.name)

    def is_new(self, feature: Feature) -> bool:
        """Whether this surface is a new part's, or was machined in this job."""
        key = self.key(feature)
        return key in self.renewed or not key[0].startswith(("orig:", "no:", "@"))

    def slot_of(self, part: str) -> str:
        """The slot in which a part stands, or an empty text."""
        return next((slot for slot, held in self.slots.items() if held == part), "")

    @property
    def used_twice(self) -> tuple[str, ...]:
        """Slots whose one-use part was drawn up to its joint's final stage more than once."""
        return tuple(slot for slot, part in self.slots.items() if part and self.used.get(part, 0) > 1)

    @property
    def oil_due(self) -> bool:
        """Whether parts were washed or cleaned and not oiled since."""
        last = next((d for d in reversed(self.done) if d.operation in ("wash", "clean", "oil_before_fitting")), None)
        return last is not None and last.operation != "oil_before_fitting"

    def did(self, operation: str, where: str = "") -> tuple[Done, ...]:
        """The times an operation was done, oldest first."""
        return tuple(d for d in self.done if d.operation == operation and where in ("", d.where))
