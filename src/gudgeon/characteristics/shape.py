"""What every characteristic must say of itself: what is judged, from which readings, by which formula and kind of rule."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from gudgeon.anatomy import Anatomy, Feature, Surface
from gudgeon.metrology.known import Known

Where = Callable[[Anatomy], tuple[str, ...]]
#: The features that must all be new or machined for the new range to apply; none at all: the wear limit always does.
Features = Callable[[Anatomy, str], tuple[Feature, ...]]
Statistic = Literal["smallest", "largest", "mean", "spread across", "spread along"]
#: wear: a part against its limit · setting: adjusted by hand · guard: wrecks the engine · test: holds or does not.
Rule = Literal["wear", "setting", "guard", "test"]


def same_place(_anatomy: Anatomy, where: str) -> str:
    """The place itself."""
    return where


@dataclass(frozen=True, slots=True, kw_only=True)
class Wants:
    """One measurand, the statistic of its points that counts, and the place where it is read."""

    measurand: str
    statistic: Statistic = "mean"
    at: Callable[[Anatomy, str], str] = same_place


def only(known: tuple[Known, ...]) -> Known:
    """The one value, as it is."""
    return known[0]


def difference(known: tuple[Known, ...]) -> Known:
    """The first less the second; what they share cancels."""
    return known[0].plus(known[1], -1.0)


def surfaces(*pairs: tuple[str, str]) -> Features:
    """Surfaces of parts at the place itself: ``surfaces(("valve", "stem"), ("guide", "bore"))``."""
    return lambda _anatomy, where: tuple(Surface(slot=f"{where}/{part}", name=name) for part, name in pairs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Characteristic:
    """Something that is judged: measured (one want) or derived (several).

    Renewed features, or those of `renewed_by`, are judged against the new range, reused ones against the wear limit.
    """

    key: str
    name: str
    dimension: str
    unit: str
    where: Where
    wants: tuple[Wants, ...]
    rule: Rule = "wear"
    places: int = 3
    good: tuple[str, ...] = ()
    good_word: str = ""
    bad_word: str = ""
    renewed_by: Features | None = None
    combine: Callable[[tuple[Known, ...]], Known] = only
    formula: str
    source: str = "common practice, no source"
    example: str
