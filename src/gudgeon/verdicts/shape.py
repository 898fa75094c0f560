"""What a verdict is: a word, and everything it rests on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from gudgeon.book.limits import LimitRow
from gudgeon.job.freshness import Reason
from gudgeon.problem import Problem, Said

Word = Literal[
    "as new",
    "serviceable",
    "past limit",
    "in setting",
    "tight",
    "loose",
    "holds",
    "leaks",
    "in line",
    "off",
    "not seen",
    "too close to call",
    "not measured",
    "stale",
    "not comparable",
]

#: Words with which a hold may pass.
GOOD: frozenset[str] = frozenset({"as new", "serviceable", "in setting", "holds", "in line"})
#: Words that condemn, for which one proven place is enough.
FAILED: frozenset[str] = frozenset({"past limit", "tight", "loose", "leaks", "off", "not seen"})
#: Words that say nothing about the part.
OPEN: frozenset[str] = frozenset({"too close to call", "not measured", "stale", "not comparable"})


@dataclass(frozen=True, slots=True, kw_only=True)
class AsFound:
    """What was read before anything was touched, against which limits, and what it meant."""

    value: float | None
    said: str
    u: float | None
    low: float | None
    high: float | None
    verdict: Word
    rests_on: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Settles:
    """A gauge on this shelf that would settle it, and how many readings with it."""

    gauge: str
    name: str
    readings: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """One characteristic at one place: its value, its limits, its word, and why. Numbers in the inside unit."""

    key: str
    place: str
    name: str
    unit: str
    places: int
    value: float | None
    said: str
    u: float | None
    low: float | None
    high: float | None
    new_low: float | None
    new_high: float | None
    judged_new: bool
    page: str
    probability: float | None
    verdict: Word
    fresh: bool | None
    reasons: tuple[Reason, ...]
    notes: tuple[Said, ...]
    wanted: int
    taken: int
    rests_on: tuple[int, ...]
    gauges: tuple[str, ...]
    budget: tuple[tuple[str, float], ...]
    settles: tuple[Settles, ...]
    as_found: AsFound | None
    contradicts: tuple[int, ...]
    row: LimitRow | None
    #: Not read, and need not be: measuring by sample found the worst of its kind far from its limit.
    spared: bool = False

    @property
    def address(self) -> str:
        """``stem_guide_clearance@c1.in.left``."""
        return f"{self.key}@{self.place}"

    @property
    def good(self) -> bool:
        """Whether a hold may rest on it."""
        return self.verdict in GOOD and not self.contradicts

    @property
    def bad(self) -> bool:
        """Whether the part or the setting failed."""
        return self.verdict in FAILED


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """All verdicts of a job, in the order of the book, and the contradictions between its readings."""

    verdicts: tuple[Verdict, ...]
    problems: tuple[Problem, ...]

    def at(self, key: str, place: str) -> Verdict | None:
        """The verdict of a characteristic at a place."""
        return next((v for v in self.verdicts if v.key == key and v.place == place), None)

    def of(self, key: str) -> tuple[Verdict, ...]:
        """The verdicts of a characteristic at all its places."""
        return tuple(v for v in self.verdicts if v.key == key)
