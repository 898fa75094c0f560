"""The word for a value: wear and guards are proven, settings are judged as the book does, tests are heard or seen."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from gudgeon.characteristics.shape import Rule
from gudgeon.metrology.conformity import Proven, conformance_probability, decide
from gudgeon.metrology.conformity import Rule as DecisionRule
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

    @property
    def given(self) -> bool:
        """Whether there is a limit at all."""
        return self.low is not None or self.high is not None

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
    """A word, the probability behind it, whether only a better reading can tell, and whether it stands at face value."""

    word: Word
    probability: float | None = None
    open: bool = False
    as_read: bool = False
    notes: tuple[Said, ...] = ()


def of_size(known: Known, limits: Limits, *, risk: float, guarded: bool, guard: bool) -> Outcome:
    """A size against its limits: proven inside, proven past, or open."""
    probability = conformance_probability(known.value, known.u, limits.low, limits.high)
    rule: DecisionRule = "guarded" if guarded else "simple"
    proven = decide(known.value, known.u, limits.low, limits.high, rule=rule, risk=risk).proven
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
        return Outcome(word="past limit", probability=probability, as_read=True, notes=(refused,))
    return Outcome(word=_inside(known.value, limits, guard=False) if inside else "past limit",
                   probability=probability, as_read=True, notes=(note,))  # fmt: skip


def of_bounds(above: float | None, below: float | None, limits: Limits, *, rule: Rule) -> Outcome:
    """Go and no-go gauges: a limit gauge that does not enter passes what may not be larger (common practice, no source)."""
    low, high = limits.low, limits.high
    if high is not None and above is not None and above >= high:
        return Outcome(word="loose" if rule == "setting" else "past limit")
    if low is not None and below is not None and below <= low:
        return Outcome(word="tight" if rule == "setting" else "past limit")
    wide = high is None or (below is not None and below <= high)
    narrow = low is None or (above is not None and above >= low)
    if not (wide and narrow):
        return Outcome(word="not measured", notes=(said("what was tried does not reach the limit"),))
    if rule == "setting":
        return Outcome(word="in setting")
    new = limits.new_low is not None and above is not None and above >= limits.new_low
    if new and limits.new_high is not None and below is not None and below <= limits.new_high:
        return Outcome(word="as new")
    return Outcome(word="holds" if rule == "guard" else "serviceable")


def of_setting(known: Known, limits: Limits, *, risk: float, tight_guarded: bool, loose_guarded: bool) -> Outcome:
    """Lash: the tight wall is guarded, the loose wall taken as the feeler says, unless the rules say otherwise."""
    probability = conformance_probability(known.value, known.u, limits.low, limits.high)
    tight = _wall(known, limits.low, None, guarded=tight_guarded, risk=risk)
    loose = _wall(known, None, limits.high, guarded=loose_guarded, risk=risk)
    if tight == "outside":
        return Outcome(word="tight", probability=probability)
    if loose == "outside":
        return Outcome(word="loose", probability=probability)
    if "neither" in (tight, loose):
        return Outcome(word="too close to call", probability=probability, open=True)
    return Outcome(word="in setting", probability=probability)


def _wall(known: Known, low: float | None, high: float | None, *, guarded: bool, risk: float) -> Proven:
    if low is None and high is None:
        return "inside"
    return decide(known.value, known.u, low, high, rule="guarded" if guarded else "simple", risk=risk).proven
