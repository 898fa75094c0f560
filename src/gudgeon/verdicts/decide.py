"""The word for a value: wear and guards are proven, settings are judged as the book does, tests are heard or seen."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from gudgeon.metrology.conformity import conformance_probability, decide
from gudgeon.metrology.known import Known
from gudgeon.problem import Said, said
from gudgeon.verdicts.shape import Word


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What a value is held against, in the inside unit; `judged_new` when the new range is the limit."""

    low: float | None
    high: float | None
    new_low: float | None
    new_high: float | None
    judged_new: bool

    def in_new(self, value: float) -> bool:
        """Whether a value, at face value, lies in the new range."""
        if self.new_low is None and self.new_high is None:
            return False
        return (
            (self.new_low if self.new_low is not None else -inf) - 1e-9
            <= value
            <= (self.new_high if self.new_high is not None else inf) + 1e-9
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """A word, the probability behind it, and whether only a better reading can tell."""

    word: Word
    probability: float | None = None
    open: bool = False
    notes: tuple[Said, ...] = ()


def of_size(known: Known, limits: Limits, *, risk: float, guarded: bool, guard: bool) -> Outcome:
    """A size against its limits: proven inside, proven past, or open."""
    probability = conformance_probability(known.value, known.u, limits.low, limits.high)
    rule = "guarded" if guarded else "simple"
    proven = decide(known.value, known.u, limits.low, limits.high, rule=rule, risk=risk).proven  # type: ignore[arg-type]
    if proven == "inside":
        return Outcome(word=_inside(known.value, limits, guard=guard), probability=probability)
    if proven == "outside":
        return Outcome(word="past limit", probability=probability)
    return Outcome(word="too close to call", probability=probability, open=True)


def _inside(value: float, limits: Limits, *, guard: bool) -> Word:
    if limits.in_new(value):
        return "as new"
    has_new = limits.new_low is not None or limits.new_high is not None
    return "holds" if guard and not has_new else "serviceable"


def at_face_value(known: Known, limits: Limits, *, guard: bool) -> Outcome:
    """What is said when nothing on the shelf can settle it: as read, except where a wrong word wrecks an engine."""
    probability = conformance_probability(known.value, known.u, limits.low, limits.high)
    note = said("nothing on the shelf can settle it; judged as read")
    inside = (limits.low is None or known.value >= limits.low) and (limits.high is None or known.value <= limits.high)
    if guard:
        refused = said("nothing on the shelf can settle it; not proven, so not passed")
        return Outcome(word="past limit", probability=probability, notes=(refused,))
    return Outcome(word=_inside(known.value, limits, guard=False) if inside else "past limit",
                   probability=probability, notes=(note,))  # fmt: skip


def of_bounds(above: float | None, below: float | None, limits: Limits, *, guard: bool) -> Outcome:
    """Go and no-go gauges: a limit gauge that does not enter passes what may not be larger (common practice, no source)."""
    if limits.high is not None:
        if below is not None and below <= limits.high and (limits.low is None or (above or 0.0) >= limits.low):
            return Outcome(word="holds" if guard else "serviceable", probability=None)
        if above is not None and above >= limits.high:
            return Outcome(word="past limit")
    elif limits.low is not None:
        if above is not None and above >= limits.low:
            return Outcome(word="holds" if guard else "serviceable", probability=None)
        if below is not None and below <= limits.low:
            return Outcome(word="past limit")
    return Outcome(word="too close to call", open=True)


def of_setting(known: Known, limits: Limits, *, risk: float, tight_guarded: bool, loose_guarded: bool) -> Outcome:
    """Lash: the tight wall is guarded, the loose wall taken as the feeler says, unless the rules say otherwise."""
    probability = conformance_probability(known.value, known.u, limits.low, limits.high)
    if limits.low is not None:
        tight = decide(known.value, known.u, limits.low, None, rule="guarded" if tight_guarded else "simple", risk=risk)
        if tight.proven == "outside":
            return Outcome(word="tight", probability=probability)
        if tight.proven == "neither":
            return Outcome(word="too close to call", probability=probability, open=True)
    if limits.high is not None:
        loose = decide(
            known.value, known.u, None, limits.high, rule="guarded" if loose_guarded else "simple", risk=risk
        )
        if loose.proven == "outside":
            return Outcome(word="loose", probability=probability)
        if loose.proven == "neither":
            return Outcome(word="too close to call", probability=probability, open=True)
    return Outcome(word="in setting", probability=probability)
