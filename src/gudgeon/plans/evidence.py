"""What planners ask of the evidence: numbers behind readings, which shim is how thick, what happened between two readings."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from math import sqrt
from typing import Literal

from gudgeon import units
from gudgeon.job.freshness import Key, Reason
from gudgeon.job.state import JobState, Taken
from gudgeon.measurands.own import measurands
from gudgeon.metrology.known import Known, known, mean_of
from gudgeon.operations.own import operations
from gudgeon.plans.shape import Given
from gudgeon.plans.shim_marks import decoded, meanings
from gudgeon.problem import Refused
from gudgeon.verdicts.gather import best
from gudgeon.verdicts.value import Interpreter, Value

#: How far a new shim may be from its mark, and a worn one: half widths in mm (common practice, no source).
NEW_SHIM_HALF_MM = 0.005
USED_SHIM_HALF_MM = 0.02

How = Literal["measured", "mark", "unknown"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Thickness:
    """How thick a shim is, and how that is known; `meanings` are the sizes that its mark may mean."""

    known: Known | None
    how: How
    rests_on: tuple[int, ...] = ()
    meanings: tuple[float, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Evidence:
    """The readings of a job, by what they measure and where; built once a planner."""

    given: Given

    @property
    def state(self) -> JobState:
        """The job."""
        return self.given.state

    @cached_property
    def interpreter(self) -> Interpreter:
        """Reads what was typed by the pinned gauge cards."""
        return Interpreter(self.state.gauges)

    @cached_property
    def cleanings(self) -> frozenset[int]:
        """The entries that only cleaned: they move nothing but dirt."""
        return frozenset(
            d.entry.seq for d in self.state.done if operations(self.state.anatomy)[d.operation].first_time_only
        )

    @cached_property
    def _listed(self) -> dict[tuple[str, str], list[Taken]]:
        found: dict[tuple[str, str], list[Taken]] = {}
        for taken in self.state.readings:
            found.setdefault((taken.fact.measurand, taken.part or taken.fact.where), []).append(taken)
        return found

    def at(self, measurand: str, about: str) -> tuple[Taken, ...]:
        """The readings of a measurand at a place, or of a part that travels, newest first."""
        return tuple(reversed(self._listed.get((measurand, about), [])))

    def value(self, taken: Taken) -> Value | None:
        """What one reading says."""
        return self.interpreter.value(taken, measurands(self.state.anatomy)[taken.fact.measurand])

    def number(self, taken: Taken) -> Known | None:
        """The number of a reading; none where it is a word, a bound, or "no gap"."""
        value = self.value(taken)
        return value.known if value is not None and value.above is None and not value.no_gap else None

    def latest(self, measurand: str, about: str) -> tuple[Known, Taken] | None:
        """The newest reading that may still predict, with its number; one that was read under another belief comes last."""
        for taken in sorted(self.at(measurand, about), key=lambda t: bool(t.other_belief)):
            found = self.number(taken) if taken.predicts and not taken.warm else None
            if found is not None:
                return found, taken
        return None

    def thickness(self, part: str) -> Thickness:
        """How thick a shim is: measured beats what is written on it."""
        fresh = [t for t in self.at("shim_thickness", part) if t.fresh]
        values = best(v for t in fresh if (v := self.value(t)) is not None and v.known is not None)
        if values:
            whole = mean_of(tuple(v.known for v in values if v.known is not None))
            seqs = tuple(v.seq for v in values)
            return Thickness(known=whole, how="measured", rests_on=seqs, meanings=self._meant(part)[1])
        row, (says, meant) = self.state.parts.get(part), self._meant(part)
        if row is None:
            return Thickness(known=None, how="unknown")
        written = written_mm(row.thickness) or says
        if written is None:
            return Thickness(known=None, how="unknown", meanings=meant)
        half = USED_SHIM_HALF_MM if part.startswith("orig:") else NEW_SHIM_HALF_MM
        return Thickness(known=by_mark(written, f"mark of {part}", half), how="mark", meanings=meant)

    def _meant(self, part: str) -> tuple[float | None, tuple[float, ...]]:
        """What its mark says, and all that it may mean, by the systems whose shim it can be."""
        row, systems = self.state.parts.get(part), self.given.book.shim_systems
        if row is None or not row.mark:
            return None, ()
        slot = self.state.slot_of(part) or part.removeprefix("orig:")
        own = self.given.book.shims_for("in" if ".in" in slot else "ex") if "/shim" in slot else None
        numbered = tuple(s for s in systems if row.number and s.part == row.number)
        its = (own,) if own is not None else (numbered or systems)
        return decoded(row.mark, its), meanings(row.mark, its)

    def touched(self, keys: Iterable[Key], one: Taken, other: Taken) -> tuple[int, ...]:
        """The entries that touched one of these keys between two readings, whichever came first."""
        first, last = sorted((one.observed.position, other.observed.position))
        found = (
            t.seq
            for key in keys
            for t in one.timeline.touched.get(key, ())
            if first < t.position <= last
        )  # fmt: skip
        return tuple(dict.fromkeys(found))

    def only_cleaned(self, reason: Reason) -> bool:
        """Whether a reason is a cleaning and nothing else."""
        return reason.entry in self.cleanings


def by_mark(size_mm: float, label: str, half_mm: float = NEW_SHIM_HALF_MM) -> Known:
    """A size that is only written: as likely anywhere within `half_mm` of it."""
    return known(size_mm, label, half_mm / sqrt(3.0))


def written_mm(text: str) -> float | None:
    """A thickness as typed, in mm."""
    if not text.strip():
        return None
    try:
        return units.read(text, "length", unit="mm").value
    except Refused:
        return None


def marked_mm(mark: str) -> float | None:
    """What a shim's mark says: three digits are hundredths of a millimetre; a shorter mark has two meanings and says nothing."""
    digits = mark.strip()
    return int(digits) / 100.0 if len(digits) == 3 and digits.isdigit() else None
