"""The one read model of a job: what ``job show --json`` prints and what every screen and paper is made from.

Numbers are in the canonical unit; keys are always there, ``null`` is unknown; new keys may come, none goes within job/1.
"""

from __future__ import annotations

from msgspec import Struct

Number = float | None


class BookRef(Struct, frozen=True, kw_only=True):
    """Which book a job is judged by."""

    name: str
    edition: str
    sha256: str


class JobHead(Struct, frozen=True, kw_only=True):
    """What stands in the title block."""

    number: str
    engine_number: str
    machine: str
    hours: Number
    complaint: str
    scope: str
    scope_name: str
    state: str
    altitude: str
    opened_at: str
    owner: str
    book: BookRef
    stopped: str = ""


class LedgerHead(Struct, frozen=True, kw_only=True):
    """Where the ledger stands, and whether every digest follows from its line."""

    head: int
    digest: str
    verified: bool
    at: str = ""
    by: str = ""


class ReasonView(Struct, frozen=True, kw_only=True):
    """Why something no longer counts."""

    entry: int
    feature: str
    how: str
    words: str


class Points(Struct, frozen=True, kw_only=True):
    """How many places are wanted, and how many stand."""

    wanted: int
    fresh: int


class BudgetLine(Struct, frozen=True, kw_only=True):
    """One contribution to the standard uncertainty."""

    source: str
    u: float


class SettlesView(Struct, frozen=True, kw_only=True):
    """A gauge that would settle it."""

    gauge: str
    name: str
    readings: int


class AsFoundView(Struct, frozen=True, kw_only=True):
    """What was read before anything was touched."""

    value: Number
    said: str
    verdict: str
    rests_on: tuple[int, ...]
    u: Number = None
    low: Number = None
    high: Number = None


class CharacteristicView(Struct, frozen=True, kw_only=True):
    """One characteristic at one place. `said` is the value as shown: the number, "no gap", or a word.

    `spared`: not read and need not be, since measuring by sample found the worst of its kind far from its limit.
    """

    address: str
    key: str
    place: str
    name: str
    unit: str
    places: int
    value: Number
    said: str
    u: Number
    low: Number
    high: Number
    new: tuple[Number, Number] | None
    judged_new: bool
    page: str
    formula: str
    source: str
    probability: Number
    verdict: str
    fresh: bool | None
    asked: bool
    spared: bool
    reasons: tuple[ReasonView, ...]
    notes: tuple[str, ...]
    points: Points
    rests_on: tuple[int, ...]
    gauges: tuple[str, ...]
    budget: tuple[BudgetLine, ...]
    settles: tuple[SettlesView, ...]
    as_found: AsFoundView | None
    contradicts: tuple[int, ...]


class PartView(Struct, frozen=True, kw_only=True):
    """Which part stands in a slot; `out` when it lies on the bench; `what` is its disposition."""

    slot: str
    name: str
    kind: str
    part: str | None
    number: str
    mark: str
    thickness: str = ""
    out: bool
    new: bool
    what: str
    reason: str
    findings: tuple[str, ...]


class HoldView(Struct, frozen=True, kw_only=True):
    """A hold point and what it waits for."""

    hold: str
    name: str
    hides: str
    state: str
    needs: tuple[str, ...]
    asks: tuple[str, ...]
    words: tuple[str, ...]
    entry: int
    override: str


class LineView(Struct, frozen=True, kw_only=True):
    """One line of a plan."""

    where: str
    name: str
    what: str
    numbers: dict[str, float | str | bool | None]
    because: tuple[str, ...]


class BuyView(Struct, frozen=True, kw_only=True):
    """Something to order."""

    number: str
    name: str
    count: int
    slots: tuple[str, ...]
    because: str
    sure: bool
    price: Number


class CutView(Struct, frozen=True, kw_only=True):
    """Something a machine shop does, with its bounds."""

    where: str
    name: str
    what: str
    to_reach: tuple[str, ...]
    low_mm: Number
    high_mm: Number
    never_over_mm: Number
    because: tuple[str, ...]
    forbidden: tuple[str, ...]
    encloses: tuple[str, ...]
    measures: tuple[str, ...]


class PlanView(Struct, frozen=True, kw_only=True):
    """A plan."""

    key: str
    name: str
    state: str
    lines: tuple[LineView, ...]
    needs: tuple[str, ...]
    buys: tuple[BuyView, ...]
    machines: tuple[CutView, ...]
    rests_on: tuple[int, ...]
    reasons: tuple[str, ...]


class PaperView(Struct, frozen=True, kw_only=True):
    """A paper that was handed over, and whether the job has moved on since."""

    paper: str
    entry: int
    content: str
    superseded: bool


class NextView(Struct, frozen=True, kw_only=True):
    """The one thing to do next."""

    do: str
    address: str
    words: str


class ProblemView(Struct, frozen=True, kw_only=True):
    """Something wrong, where, and what to do."""

    where: str
    what: str
    remedy: str


class EntryView(Struct, frozen=True, kw_only=True):
    """One line of the ledger as people read it; `words` says it, `counts` what became of it."""

    seq: int
    id: str
    at: str
    by: str
    bench: str
    fact: str
    words: str
    where: str
    digest: str
    retracted: bool
    counts: str
    reasons: tuple[str, ...]


class JobView(Struct, frozen=True, kw_only=True):
    """The whole job."""

    format: str
    job: JobHead
    ledger: LedgerHead
    characteristics: tuple[CharacteristicView, ...]
    parts: tuple[PartView, ...]
    holds: tuple[HoldView, ...]
    plans: tuple[PlanView, ...]
    papers: tuple[PaperView, ...]
    entries: tuple[EntryView, ...]
    next: NextView
    problems: tuple[ProblemView, ...]

    def plan(self, key: str) -> PlanView | None:
        """A plan by its key."""
        return next((p for p in self.plans if p.key == key), None)

    def at(self, address: str) -> CharacteristicView | None:
        """A characteristic by its address."""
        return next((c for c in self.characteristics if c.address == address), None)

    @property
    def open(self) -> tuple[str, ...]:
        """What keeps the engine from its first start: asked evidence that is missing, stale or failed, and open holds."""
        good = ("as new", "serviceable", "in setting", "holds", "in line")
        missing = tuple(f"{c.name}: {c.verdict}" for c in self.characteristics if c.asked and c.verdict not in good)
        holds = tuple(f"{h.hold} {h.name}" for h in self.holds if h.state in ("open", "undone"))
        return (*missing, *holds)
