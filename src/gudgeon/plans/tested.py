"""The air tests of a cylinder as one picture: what was read cold, warm and wet, and what was heard, then or now."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from gudgeon.job.state import Taken
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.heard import heard
from gudgeon.verdicts.value import Value

When = Literal["as found", "now"]
TESTS = ("leak_down", "compression")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tested:
    """Leak-down and compression of one cylinder by point (cold, warm, wet), and where air was heard or not."""

    cylinder: str
    when: When
    leak: Mapping[str, Value]
    pressure: Mapping[str, Value]
    heard: tuple[str, ...]
    quiet: tuple[str, ...]
    rests_on: tuple[int, ...]

    @property
    def empty(self) -> bool:
        """Whether nothing was read or heard."""
        return not (self.leak or self.pressure or self.heard)

    @property
    def worst(self) -> Value | None:
        """The greatest leak, cold or warm."""
        dry = [v for point, v in self.leak.items() if point != "wet" and v.known]
        return max(dry, key=lambda v: v.known.value if v.known else 0.0, default=None)


def tested(evidence: Evidence, cylinder: str, when: When) -> Tested:
    """What the tests of a cylinder showed before anything was opened, or what still stands."""
    state = evidence.state
    mine = [t for t in state.readings if t.fact.measurand in TESTS and t.fact.where == cylinder]
    chosen = _by_point([t for t in mine if (t.as_found if when == "as found" else t.fresh)], first=when == "as found")
    values = {key: evidence.interpreter.value(t, MEASURANDS[key[0]]) for key, t in chosen.items()}
    kept = {t.entry.seq for t in chosen.values()}
    sounds = [h for h in heard(state, cylinder) if _belongs(h.seq, mine) in kept]
    last = {h.place: h.there for h in sounds}
    return Tested(
        cylinder=cylinder,
        when=when,
        leak={point: v for (key, point), v in values.items() if key == "leak_down" and v is not None and v.known},
        pressure={point: v for (key, point), v in values.items() if key == "compression" and v is not None and v.known},
        heard=tuple(place for place, there in last.items() if there),
        quiet=tuple(place for place, there in last.items() if not there),
        rests_on=tuple(sorted(kept | {h.seq for h in sounds})),
    )


def _by_point(taken: list[Taken], *, first: bool) -> dict[tuple[str, str], Taken]:
    """One reading a point: the first of those as found, the last of those that stand."""
    ordered = list(reversed(taken)) if first else taken
    return {(t.fact.measurand, t.fact.point): t for t in ordered}


def _belongs(seq: int, readings: list[Taken]) -> int:
    """The test during which something was heard: the last one written before it, else the first after it."""
    leaks = [t.entry.seq for t in readings if t.fact.measurand == "leak_down"]
    before = [n for n in leaks if n < seq]
    return before[-1] if before else next(iter(leaks), 0)
