"""Quick measuring: the usual worst places first, the rest only near a limit, in disagreement or where something was found.

The law. What was not read may be left where the chance that any of it is past its limit, or the reading itself deceives,
is below the rules' risk. In shares of the allowance (from the edge of the new range to the limit, both from the book): an
unread place is taken to lie about the *worst* one read, normally scattered, by the largest of three: half of what has worn
there (all of it, where only one was read and nothing could disagree); how far apart those that were read lie; a tenth of
the allowance. What has worn is counted from the middle of the new range, where the part is taken to have begun. The
reading's doubt is added in squares; the chances of all that is unread are added up (they may go together: Boole).

Common practice in kind; the shares have no source. `docs/decisions/quick-or-full.md` has what they cost, played over
randomly worn engines, some with their worst place where nobody looks first.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import hypot

from gudgeon.metrology.known import Known
from gudgeon.metrology.normal import phi
from gudgeon.problem import Said, said
from gudgeon.verdicts.decide import Limits
from gudgeon.verdicts.gather import Gathered
from gudgeon.verdicts.shape import FAILED, Verdict

#: How far an unread place is scattered at the least, in shares of the allowance (assumed).
LEAST = 0.1
#: Over so many readings the scatter is no longer taken smaller: it is what was worn over this (assumed).
AGREEING = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """One limit: how near the worst reading is to it, how far it has worn and its doubt, all in shares of the allowance."""

    share: float
    gone: float
    u: float
    allowance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Worn:
    """The walls of what was read."""

    walls: tuple[Wall, ...]

    @property
    def share(self) -> float:
        """How much of the allowance the worst reading has used."""
        return max(wall.share for wall in self.walls)

    def chance(self, *, apart: float, read: int, left: int) -> float:
        """The chance that something unread is past a limit; `apart` in the inside unit, `left` how much is unread."""
        return min(1.0, left * sum(_chance(wall, apart / wall.allowance, read) for wall in self.walls))


def _chance(wall: Wall, apart: float, read: int) -> float:
    scatter = max(wall.gone / min(read, AGREEING), apart, LEAST)
    return phi((wall.share - 1.0) / hypot(scatter, wall.u))


def worn(value: float, u: float, limits: Limits) -> Worn | None:
    """How far a value has gone from its new range to its limit; none where the book does not say both."""
    walls = []
    for limit, new, other, way in (
        (limits.high, limits.new_high, 0.0 if limits.new_low is None else limits.new_low, 1.0),
        (limits.low, limits.new_low, limits.new_high, -1.0),
    ):
        if limit is None:
            continue
        allowance = way * (limit - new) if new is not None else 0.0
        if new is None or allowance <= 0.0:
            return None
        share, began = way * (value - new), new if other is None else (new + other) / 2.0
        gone = max(0.0, way * (value - began))
        walls.append(Wall(share=share / allowance, gone=gone / allowance, u=u / allowance, allowance=allowance))
    return Worn(walls=tuple(walls)) if walls else None


def enough(
    parts: tuple[Gathered, ...], known: Known, limits: Limits, *, risk: float, spread: bool, sample: bool
) -> bool:
    """Whether the places read release those that are not; `sample` lets places that are like each other stand for all."""
    if not all(g.worst or (sample and g.alike) for g in parts):
        return False
    values = [[v.sized.value for v in g.values if v.sized] or [0.0] for g in parts]
    apart = 0.0 if spread else sum(max(listed) - min(listed) for listed in values)
    gone = worn(known.value, known.u, limits)
    read, left = min(g.taken for g in parts), sum(max(0, g.wanted - g.taken) for g in parts)
    return gone is not None and gone.chance(apart=apart, read=read, left=left) <= risk


def told(parts: tuple[Gathered, ...]) -> Said:
    """What a verdict says of what was left."""
    read, wanted = sum(min(g.taken, g.wanted) for g in parts), sum(g.wanted for g in parts)
    return said("{read} of {wanted} places read: far from the limit", read=read, wanted=wanted)


def ranked(places: Iterable[str]) -> tuple[str, ...]:
    """Places, the worst first: the exhaust side is hotter and runs drier (common practice, no source)."""
    return tuple(sorted(places, key=lambda place: ".ex" not in f".{place}"))


def spared(
    verdicts: tuple[Verdict, ...], wear: frozenset[str], doubted: frozenset[str], risk: float
) -> tuple[Verdict, ...]:
    """The verdicts, with what need not be read marked so: other parts of a kind whose worst is far from its limit.

    `wear` are the keys of what wears, `doubted` the places where something was found; there, and where anything failed or
    leaks, everything is read.
    """
    doubted |= {v.place for v in verdicts if _wrong(v)}
    return tuple(
        _spare(v, verdicts, risk) if v.key in wear and _unread(v) and not touches(v.place, doubted) else v
        for v in verdicts
    )


def _wrong(v: Verdict) -> bool:
    """Whether something is wrong there or was, as found; a setting is no sign of wear."""
    words = {v.verdict, v.as_found.verdict if v.as_found else v.verdict}
    return bool(words & (FAILED - {"tight", "loose"})) or "too close to call" in words


def _unread(v: Verdict) -> bool:
    """Whether nothing of it was read, or, of a fit, only the part that others share: a shaft of two rockers."""
    nothing = v.verdict == "not measured" and v.value is None and not v.said and not v.notes
    return nothing and not v.judged_new and v.row is not None


def touches(place: str, doubted: frozenset[str]) -> bool:
    """Whether a place lies within one that is doubted, or one of those within it: a cylinder's leak is its valves'."""
    return any(
        place == d or place.startswith((f"{d}.", f"{d}/")) or d.startswith((f"{place}.", f"{place}/")) for d in doubted
    )


def _of(v: Verdict) -> Worn | None:
    if v.value is None or v.u is None:
        return None
    limits = Limits(low=v.low, high=v.high, new_low=v.new_low, new_high=v.new_high, judged_new=v.judged_new)
    return worn(v.value, v.u, limits)


def _spare(v: Verdict, verdicts: tuple[Verdict, ...], risk: float) -> Verdict:
    kind = [other for other in verdicts if other.key == v.key]
    sure = [other for other in kind if other.fresh and not other.judged_new and not other.contradicts]
    read = {other.place: (w, other.value) for other in sure if other.value is not None and (w := _of(other))}
    if not read or ranked(other.place for other in kind)[0] not in read:
        return v
    place = max(read, key=lambda place: read[place][0].share)
    values = [value for _worn, value in read.values()]
    apart, worst = max(values) - min(values), read[place][0]
    if worst.chance(apart=apart, read=len(read), left=sum(1 for other in kind if _unread(other))) > risk:
        return v
    name = next(other.name for other in kind if other.place == place)
    note = said("not read: the worst of its kind ({worst}) has used {share:.0%} of its allowance",
                worst=name, share=max(0.0, worst.share))  # fmt: skip
    return replace(v, spared=True, notes=(*v.notes, note))
