"""Which part most likely leaks: a table of signs, each speaking for or against a cause, added up in the open.

The signs are what was heard, what oil and warmth changed, and what this job knows of lash, seats, rings and faces. The
weights are common practice, no source; no percentage is made of them, only a word.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from gudgeon.plans.leak_signs import signs_of
from gudgeon.plans.shape import Given
from gudgeon.plans.tested import Tested

Word = Literal["likely", "possible", "open", "unlikely"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One sign, the cause it speaks for (weight above zero) or against, and how that is said."""

    cause: str
    sign: str
    weight: int
    words: str


#: Causes in the order in which they are looked at, and where to look first.
CAUSES = {
    "intake valve": "lash, then seat and valve face of the intake",
    "exhaust valve": "lash, then seat and valve face of the exhaust",
    "rings, piston or bore": "bore, ring gaps, piston; leave the head alone until they are read",
    "head gasket or crack": "torque of the head, then gasket and both faces",
    "plug or tester joint": "sealing ring of the plug, hose and adapter, before anything is taken apart",
    "not at top dead centre": "find compression top dead centre again, decompressor not acting, and repeat",
}


def _valve(cause: str, side: str, place: str) -> tuple[Rule, ...]:
    return (
        Rule(cause=cause, sign=f"heard:{place}", weight=3, words=f"air heard at the {place}"),
        Rule(cause=cause, sign=f"quiet:{place}", weight=-3, words=f"quiet at the {place}"),
        Rule(cause=cause, sign=f"tight:{side}", weight=2, words="a lash below its window: the valve may not close"),
        Rule(cause=cause, sign=f"lash good:{side}", weight=-1, words="every lash of this side is in its window"),
        Rule(cause=cause, sign=f"seal leaks:{side}", weight=3, words="the seal test leaks"),
        Rule(cause=cause, sign=f"seal holds:{side}", weight=-2, words="the seal test holds"),
        Rule(cause=cause, sign=f"worked:{side}", weight=1, words="seat or valve was worked or renewed in this job"),
        Rule(cause=cause, sign="worse warm", weight=1, words="worse warm than cold: lash that closes up"),
        Rule(cause=cause, sign="oil changes nothing", weight=1, words="oil in the cylinder changes nothing"),
        Rule(cause=cause, sign="oil helps", weight=-1, words="oil in the cylinder helps"),
    )


_RINGS, _GASKET, _PLUG, _TDC = (c for c in CAUSES if not c.endswith("valve"))

#: Common practice, no source.
RULES: tuple[Rule, ...] = (
    *_valve("intake valve", "in", "intake"),
    *_valve("exhaust valve", "ex", "exhaust"),
    Rule(cause=_RINGS, sign="heard:filler", weight=3, words="air heard at the filler or breather"),
    Rule(cause=_RINGS, sign="quiet:filler", weight=-3, words="quiet at the filler or breather"),
    Rule(cause=_RINGS, sign="oil helps", weight=2, words="oil in the cylinder helps"),
    Rule(cause=_RINGS, sign="oil changes nothing", weight=-2, words="oil in the cylinder changes nothing"),
    Rule(cause=_RINGS, sign="bore worn", weight=2, words="bore, piston or ring gap past its limit"),
    Rule(cause=_RINGS, sign="rings new", weight=1, words="new rings, not run in: it falls after the first hours"),
    Rule(cause=_RINGS, sign="better warm", weight=1, words="better warm than cold"),
    Rule(cause=_GASKET, sign="heard:coolant", weight=3, words="bubbles in the coolant"),
    Rule(cause=_GASKET, sign="heard:head joint", weight=3, words="air heard at the edge of the head joint"),
    Rule(cause=_GASKET, sign="heard:next cylinder", weight=3, words="air heard in the next cylinder"),
    Rule(cause=_GASKET, sign="quiet:coolant", weight=-2, words="no bubbles in the coolant"),
    Rule(cause=_GASKET, sign="quiet:head joint", weight=-1, words="quiet at the edge of the head joint"),
    Rule(cause=_GASKET, sign="quiet:next cylinder", weight=-1, words="quiet in the next cylinder"),
    Rule(cause=_GASKET, sign="face out", weight=2, words="a face of the joint past its limit"),
    Rule(cause=_GASKET, sign="gasket twice", weight=2, words="the gasket was drawn up twice"),
    Rule(cause=_GASKET, sign="head open", weight=2, words="the head is not at final torque"),
    Rule(cause=_PLUG, sign="heard:plug", weight=3, words="air heard at the plug or the tester hose"),
    Rule(cause=_PLUG, sign="quiet:plug", weight=-2, words="quiet at the plug and the tester hose"),
    Rule(
        cause=_TDC,
        sign="heard:both",
        weight=4,  # a test on the wrong stroke is looked for first: to repeat it costs nothing
        words="air at intake and exhaust at once: both open, or both valves leak",
    ),
    Rule(cause=_TDC, sign="decompressor", weight=1, words="this engine has a decompressor: it must not act"),
    Rule(cause=_TDC, sign="pressure good", weight=1, words="cranking pressure is good, so the cylinder closes"),
    Rule(cause=_TDC, sign="seal holds:all", weight=1, words="every valve holds on the bench"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspect:
    """A cause with what speaks for it and against it, and the word that follows."""

    cause: str
    look: str
    weight: int
    speaks_for: tuple[str, ...]
    against: tuple[str, ...]

    @property
    def word(self) -> Word:
        """Three points and more are likely, one and two possible; below nothing it is unlikely: common practice."""
        if self.weight >= 3:
            return "likely"
        if self.weight > 0:
            return "possible"
        return "unlikely" if self.weight < 0 else "open"


def suspects(given: Given, test: Tested) -> tuple[Suspect, ...]:
    """Every cause that anything speaks for or against, the likeliest first."""
    signs = signs_of(given, test)
    found = []
    for cause, look in CAUSES.items():
        met = [rule for rule in RULES if rule.cause == cause and rule.sign in signs]
        if met:
            found.append(
                Suspect(
                    cause=cause,
                    look=look,
                    weight=sum(rule.weight for rule in met),
                    speaks_for=tuple(rule.words for rule in met if rule.weight > 0),
                    against=tuple(rule.words for rule in met if rule.weight < 0),
                )
            )
    return tuple(sorted(found, key=lambda s: -s.weight))
