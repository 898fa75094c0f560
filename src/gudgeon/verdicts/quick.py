"""Quick measuring: the worst place first, and the rest only near a limit, in disagreement, or where something else is wrong.

The law, in shares of the wear allowance (from the new range to the limit; both from the book): what was not read is taken
to have worn at most three times as far as the one place that was, or twice as far as the worst of several that agree
within a quarter of the allowance. So one place at a third, or several at a half, release the rest. What was read counts
with its doubt on top. Common practice in kind, no source for the shares: ``docs/decisions/quick-or-full.md`` has what
they cost, played over random engines.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from gudgeon.metrology.normal import phi_inverse
from gudgeon.problem import said
from gudgeon.verdicts.decide import Limits
from gudgeon.verdicts.shape import FAILED, Verdict

#: How far the worst may have worn for the rest to be spared: where one place was read, and where several agree.
ALONE, AGREEING = 1.0 / 3.0, 0.5
#: How far apart places may lie and still agree.
APART = 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Worn:
    """How far something has worn, its doubt on top, in shares of the allowance; how many places say so, how far apart."""

    share: float
    read: int
    apart: float

    @property
    def far_from_limit(self) -> bool:
        """Whether what was not read may be left."""
        return self.share <= ALONE or (self.read > 1 and self.share <= AGREEING and self.apart <= APART)


def worn(value: float, u: float, limits: Limits, *, risk: float, read: int, apart: float) -> Worn | None:
    """How far a value has gone from its new range to its limit; none where the book does not say both."""
    doubt = phi_inverse(1.0 - risk) * u
    shares, allowances = [], []
    for limit, new, way in ((limits.high, limits.new_high, 1.0), (limits.low, limits.new_low, -1.0)):
        if limit is None:
            continue
        allowance = way * (limit - new) if new is not None else 0.0
        if new is None or allowance <= 0.0:
            return None
        allowances.append(allowance)
        shares.append((way * (value - new) + doubt) / allowance)
    return Worn(share=max(shares), read=read, apart=apart / min(allowances)) if shares else None


def ranked(places: Iterable[str]) -> tuple[str, ...]:
    """Places, the worst first: the exhaust side is hotter and runs drier (common practice, no source)."""
    return tuple(sorted(places, key=lambda place: ".ex" not in f".{place}"))


def spared(
    verdicts: tuple[Verdict, ...], wear: Mapping[str, Callable[[Verdict], Worn | None]], doubted: frozenset[str]
) -> tuple[Verdict, ...]:
    """The verdicts, with what need not be read marked so: other parts of a kind whose worst is far from its limit.

    `wear` gives, by the key of what wears, how far a verdict of it has gone. `doubted` are the places where something
    was found; there, and where anything failed or leaks, everything is read.
    """
    doubted |= {v.place for v in verdicts if _wrong(v)}
    return tuple(
        _spare(v, wear[v.key], verdicts) if v.key in wear and _unread(v) and not _touches(v.place, doubted) else v
        for v in verdicts
    )


def _wrong(v: Verdict) -> bool:
    """Whether something is wrong there or was, as found; a setting is no sign of wear."""
    words = {v.verdict, v.as_found.verdict if v.as_found else v.verdict}
    return bool(words & (FAILED - {"tight", "loose"})) or "too close to call" in words


def _unread(v: Verdict) -> bool:
    return v.verdict == "not measured" and v.fresh is None and not v.judged_new and v.row is not None


def _touches(place: str, doubted: frozenset[str]) -> bool:
    """Whether a place lies within one that is doubted, or one of those within it: a cylinder's leak is its valves'."""
    return any(
        place == d or place.startswith((f"{d}.", f"{d}/")) or d.startswith((f"{place}.", f"{place}/")) for d in doubted
    )


def _spare(v: Verdict, how_far: Callable[[Verdict], Worn | None], verdicts: tuple[Verdict, ...]) -> Verdict:
    kind = [other for other in verdicts if other.key == v.key]
    read = {other.place: w for other in kind if other.fresh and not other.judged_new and (w := how_far(other))}
    if not read or ranked(other.place for other in kind)[0] not in read:
        return v
    shares = [w.share for w in read.values()]
    all_of_it = Worn(share=max(shares), read=len(read), apart=max(shares) - min(shares))
    if not all_of_it.far_from_limit:
        return v
    place = max(read, key=lambda place: read[place].share)
    worst = next(other.name for other in kind if other.place == place)
    note = said("not read: quick, the worst of its kind ({worst}) has used {share:.0%} of its allowance",
                worst=worst, share=max(0.0, all_of_it.share))  # fmt: skip
    return replace(v, spared=True, notes=(*v.notes, note))
