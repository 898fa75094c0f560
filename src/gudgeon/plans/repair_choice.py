"""The cheapest set of repairs for the whole engine, chosen together, with the sooner one and the one that cuts less beside it.

Part by part every answer may be right and their sum too dear: a kit, a new head or one ring set answers several at once.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from gudgeon.anatomy import say
from gudgeon.plans.joint import Best, cheapest
from gudgeon.plans.repair_task import CUTS, Doing, Wanted, Weight, wanted, why_hopeless
from gudgeon.plans.shape import Given, Line
from gudgeon.problem import Said, said

#: What a seat cut or a new valve moves besides itself: `bench-rules` of the trade, "sink".
_MOVES = said("a seat cut moves tip height, spring height and lash: a shim may follow, counted at its full price")


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One set of repairs for the whole engine: what is done, what it costs, when it is here, and its proof."""

    doings: tuple[Doing, ...]
    bought: tuple[tuple[str, int], ...]
    price: float
    unpriced: int
    unbilled: int
    days: int | None
    without_term: int
    cuts: int
    lower: float
    proven: bool

    @property
    def renewed(self) -> tuple[str, ...]:
        """The slots that get a new part."""
        return tuple(slot for d in self.doings if d.words == "renew" for slot in d.slots)

    @property
    def worked(self) -> tuple[str, ...]:
        """The work on parts that stay, as ``"cut seat c1.in.left/seat"``."""
        return tuple(f"{d.words} {d.slots[0]}" for d in self.doings if d.words not in ("renew", "shim"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """The best set and at most two others that are sooner or cut less; or why there is none."""

    choices: tuple[Choice, ...] = ()
    failed: tuple[str, ...] = ()
    overruled: bool = False
    reasons: tuple[Said, ...] = ()


def choose(given: Given) -> Found:
    """The best set for the whole engine: the least money, then the soonest, then the fewest cuts, then the fewest pieces."""
    asked = wanted(given)
    if not asked.failed:
        return Found()
    wishes = True
    best = cheapest(asked.task())
    if best is None:
        wishes, best = False, cheapest(asked.task(wishes=False))
    failed = tuple(v.address for v in asked.failed)
    hopeless = tuple(why_hopeless(v) for v in asked.hopeless)
    if best is None:
        why = said("no set of repairs restores everything that failed: what is asked for excludes itself")
        return Found(failed=failed, reasons=(why, *hopeless, *_clashes(asked)))
    first = _soonest(asked, _choice(asked, best), wishes=wishes)
    others = [c for c in (_sooner(asked, first, wishes=wishes), _fewest_cuts(asked, first, wishes=wishes)) if c]
    kept = [first, *(c for n, c in enumerate(others) if c.doings not in {o.doings for o in others[:n]})]
    overruled = () if wishes else (
        said("what was decided to stay, or a fit that holds today, cannot be kept: a measured breach is never overruled"),)  # fmt: skip
    return Found(choices=tuple(kept), failed=failed, overruled=not wishes, reasons=(*overruled, *hopeless))


def _choice(asked: Wanted, best: Best, *, cuts_first: bool = False) -> Choice:
    doings = asked.meant(best.chosen)
    packs = [(asked.packs[number], count) for number, count in best.bought.items()]
    own = [d.weight for d in doings]
    cents = sum(w.cents for w in own) + sum(w.cents * n for (w, _p), n in packs)
    terms = [p.days for (_w, p), _n in packs]
    known = [t for t in terms if t is not None]
    lower = cents if best.proven else _cents_of(best.lower, cuts_first=cuts_first)
    return Choice(
        doings=doings,
        bought=tuple(best.bought.items()),
        price=cents / 100.0,
        unpriced=sum(w.unpriced for w in own) + sum(w.unpriced * n for (w, _p), n in packs),
        unbilled=sum(w.unbilled for w in own),
        days=max(known, default=None),
        without_term=len(terms) - len(known),
        cuts=sum(d.words in CUTS for d in doings),
        lower=lower / 100.0,
        proven=best.proven,
    )


def _cents_of(ranked: int, *, cuts_first: bool) -> int:
    """The money in a ranked sum."""
    step = Weight(cents=1).ranked(cuts_first=cuts_first)
    return ranked // step % (Weight(unpriced=1).ranked(cuts_first=cuts_first) // step)


def _within(asked: Wanted, days: int, *, wishes: bool) -> Choice | None:
    best = cheapest(asked.task(days=days, wishes=wishes))
    return _choice(asked, best) if best is not None else None


def _terms(asked: Wanted, below: int | None) -> list[int]:
    """The terms of delivery that are shorter, the longest first."""
    days = {p.days for _w, p in asked.packs.values() if p.days is not None}
    return sorted((d for d in days if below is not None and d < below), reverse=True)


def _soonest(asked: Wanted, first: Choice, *, wishes: bool) -> Choice:
    """Of the sets that cost as little the one that is here first."""
    for days in _terms(asked, first.days):
        found = _within(asked, days, wishes=wishes)
        if found is None or (found.unpriced, found.price) > (first.unpriced, first.price):
            break
        first = found
    return first


def _sooner(asked: Wanted, first: Choice, *, wishes: bool) -> Choice | None:
    """The cheapest set that is here sooner."""
    terms = _terms(asked, first.days)
    return _within(asked, terms[0], wishes=wishes) if terms else None


def _fewest_cuts(asked: Wanted, first: Choice, *, wishes: bool) -> Choice | None:
    """The cheapest set of those that cut least."""
    if not first.cuts:
        return None
    best = cheapest(asked.task(cuts_first=True, wishes=wishes))
    found = _choice(asked, best, cuts_first=True) if best is not None else None
    return found if found is not None and found.cuts < first.cuts else None


def _clashes(asked: Wanted) -> tuple[Said, ...]:
    """The rules that cannot be kept even one by one beside what was condemned, as far as they can be named."""
    empty = [rule for rule in asked.rules if not rule.rows]
    return tuple(said("{names}: nothing is allowed", names=", ".join(rule.repairs)) for rule in empty)


def lines_of(given: Given, found: Found) -> tuple[Line, ...]:
    """One line a set, the best first, three at most."""
    names = _names(found.choices)
    return tuple(_line(given, choice, name) for choice, name in zip(found.choices, names, strict=True))


def _names(choices: tuple[Choice, ...]) -> list[str]:
    names = ["best"]
    for other in choices[1:]:
        sooner = other.days is not None and choices[0].days is not None and other.days < choices[0].days
        names.append("sooner" if sooner else "fewer cuts")
    return names[: len(choices)]


def _line(given: Given, choice: Choice, name: str) -> Line:
    numbers = (
        ("set", name),
        ("renews", ", ".join(choice.renewed)),
        ("works", ", ".join(choice.worked)),
        ("buys", ", ".join(f"{n} × {number}" for number, n in choice.bought)),
        ("price", round(choice.price, 2)),
        ("unpriced", float(choice.unpriced)),
        ("unbilled", float(choice.unbilled)),
        ("days", float(choice.days) if choice.days is not None else None),
        ("cuts", float(choice.cuts)),
        ("lower_bound", round(choice.lower, 2)),
        ("proven", choice.proven),
    )
    words = said(
        "{name}: {doings}: {price:.2f}, {days}, {cuts} cuts",
        name=name,
        doings=_told(given, choice),
        price=choice.price,
        days=_term_words(choice),
        cuts=choice.cuts,
    )
    return Line(where="engine", what=words, numbers=numbers, because=tuple(_because(choice)))


def _term_words(choice: Choice) -> str:
    if choice.days is not None:
        return f"here in {choice.days} days"
    return "no term of delivery known" if choice.without_term else "nothing to wait for"


def _told(given: Given, choice: Choice) -> str:
    """What is done, alike things together: "new guide: intake left, intake right"."""
    single, groups = given.state.anatomy.layout.cylinders == 1, dict[str, list[str]]()
    for doing in choice.doings:
        if doing.words == "shim":
            continue
        place, _, kind = doing.slots[0].partition("/")
        what = f"new {kind}" if doing.words == "renew" else doing.words
        groups.setdefault(what, []).append(say(place, single=single) if place != "engine" else "")
    return "; ".join(f"{what} {', '.join(w for w in where if w)}".strip() for what, where in groups.items())


def _because(choice: Choice) -> Iterable[Said]:
    kinds = {d.slots[0].split("/")[1] for d in choice.doings if d.words == "renew"}
    if "guide" in kinds:
        yield said("a new guide forces its seat to be cut, after it")
    if any(d.words in ("cut seat", "shim") for d in choice.doings):
        yield _MOVES
    if any(d.words == "rebore" for d in choice.doings):
        yield said("rebore only with the new piston in hand: the bore is cut to it")
    for number, count in choice.bought:
        held = sum(d.number == number for d in choice.doings)
        if not held:
            yield said("{count} × kit {number}: cheaper than its pieces", count=count, number=number)
    if choice.unpriced:
        yield said("{n} prices are not known: what has none is avoided first", n=choice.unpriced)
    if choice.unbilled:
        yield said("no price for {n} bills of the shop: they are not counted", n=choice.unbilled)
    if choice.proven:
        yield said("no set of the same parts costs less: lower bound {lower:.2f}", lower=choice.lower)
