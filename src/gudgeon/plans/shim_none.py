"""Why no shim on sale helps a valve, and what else would, with numbers and prices: a dead end that says nothing costs a week."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.anatomy import say
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.lashes import Room
from gudgeon.plans.prices import price_of
from gudgeon.plans.shape import Given, Line
from gudgeon.plans.shim_items import Item
from gudgeon.problem import Said, said


@dataclass(frozen=True, slots=True, kw_only=True)
class NoShim:
    """The reason in words, and one line for each other way."""

    why: Said
    ways: tuple[Line, ...] = ()

    @property
    def words(self) -> tuple[Said, ...]:
        """Everything as sentences."""
        return (self.why, *(way.what for way in self.ways))


def no_shim(evidence: Evidence, room: Room, sizes: Sequence[float], items: Sequence[Item]) -> NoShim:
    """Why no shim helps one valve, and what does."""
    where = say(room.valve, single=evidence.state.anatomy.layout.cylinders == 1)
    wanted, known, window = room.wanted_mm, sorted({*sizes, *(i.size_mm for i in items)}), room.window
    if not known or room.room is None:
        return NoShim(
            why=said("{where}: no shim of any size is known: wanted {wanted:.3f}", where=where, wanted=wanted)
        )
    lashes = {size: (room.room.value - size) / window.factor for size in known}
    thinnest, thickest = known[0], known[-1]
    if lashes[thinnest] < window.low_mm:
        drop = window.factor * window.low_mm + thinnest - room.room.value
        why = said("{where}: the thinnest shim, {size:.3f}, gives {lash:.3f}, tight", where=where, size=thinnest,
                   lash=lashes[thinnest])  # fmt: skip
        return NoShim(why=why, ways=_tip_down(evidence, room.valve, drop))
    if lashes[thickest] > window.high_mm:
        rise = room.room.value - window.factor * window.high_mm - thickest
        why = said("{where}: the thickest shim, {size:.3f}, gives {lash:.3f}, loose", where=where, size=thickest,
                   lash=lashes[thickest])  # fmt: skip
        return NoShim(why=why, ways=_tip_up(evidence, room, rise))
    over = max((s for s in known if lashes[s] > window.high_mm), default=thinnest)
    under = min((s for s in known if lashes[s] < window.low_mm), default=thickest)
    why = said("{where}: {thin:.3f} gives {loose:.3f}, {thick:.3f} gives {tight:.3f}: nothing between is on sale",
               where=where, thin=over, loose=lashes[over], thick=under, tight=lashes[under])  # fmt: skip
    low, high = (room.room.value - window.factor * end for end in (window.high_mm, window.low_mm))
    what = said("possible: a shim measured between them, {low:.3f} to {high:.3f}, wanted {wanted:.3f}",
                low=low, high=high, wanted=wanted)  # fmt: skip
    return NoShim(why=why, ways=(_way(room.valve, "between", what, possible=True, by_mm=high - low),))


def _way(valve: str, way: str, what: Said, *, possible: bool | None, by_mm: float, price: float | None = None) -> Line:
    numbers = (
        ("valve", valve),
        ("way", way),
        ("possible", possible),
        ("by_mm", by_mm),
        ("price", price),
        ("moved", False),
    )
    return Line(where=valve, what=what, numbers=numbers)


def _tip_down(evidence: Evidence, valve: str, drop: float) -> tuple[Line, ...]:
    """The tip must fall: by a new insert, by a new valve whose face is not worn, by grinding where that is allowed."""
    head = said(
        "possible: a new seat insert{cost}: the tip must fall {drop:.2f}",
        drop=drop,
        cost=_cost(evidence.given, f"{valve}/seat"),
    )
    new = said("possible where its face is worn: a new valve{cost}: the tip must fall {drop:.2f}", drop=drop,
               cost=_cost(evidence.given, f"{valve}/valve"))  # fmt: skip
    return (
        _way(valve, "new insert", head, possible=_sold(evidence.given, f"{valve}/seat"), by_mm=drop,
             price=_price(evidence.given, f"{valve}/seat")),
        _way(valve, "new valve", new, possible=None, by_mm=drop, price=_price(evidence.given, f"{valve}/valve")),
        grinding(evidence, valve, drop),
    )  # fmt: skip


def grinding(evidence: Evidence, valve: str, off_mm: float) -> Line:
    """Grinding the tip by so much: refused on a coated valve, counted against the projection where that is known."""
    if evidence.state.anatomy.layout.side(valve).coated:
        what = said("not possible: grinding the tip, the valve is coated")
        return _way(valve, "tip grinding", what, possible=False, by_mm=off_mm)
    row, found = evidence.given.book.limit_for("tip_projection", valve), evidence.latest("tip_projection", valve)
    least = row.least if row is not None and row.least is not None else (row.new_low if row is not None else None)
    if found is None or least is None:
        what = said("tip ground {off:.2f} shorter: only where the maker allows it; its projection over the retainer is not known",
                    off=off_mm)  # fmt: skip
        return _way(valve, "tip grinding", what, possible=None, by_mm=off_mm)
    left = found[0].value - off_mm
    word = "enough" if left >= least else "too little: the follower would work on the retainer"
    what = said("tip ground {off:.2f} shorter: projection {left:.2f}, at least {least:.2f}: {word}",
                off=off_mm, left=left, least=least, word=word)  # fmt: skip
    return _way(valve, "tip grinding", what, possible=left >= least, by_mm=off_mm)


def _tip_up(evidence: Evidence, room: Room, rise: float) -> tuple[Line, ...]:
    """The tip must rise, or a thicker shim be found: a cut, another valve, the shims of the other side."""
    given, valve = evidence.given, room.valve
    cut = said("possible: seat cut {rise:.2f} deeper, within the bounds of the machining order", rise=rise)
    new = said("possible: a longer valve{cost}; measure tip and shim again first", cost=_cost(given, f"{valve}/valve"))
    found = [
        _way(valve, "seat cut", cut, possible=None, by_mm=rise),
        _way(valve, "new valve", new, possible=None, by_mm=rise, price=_price(given, f"{valve}/valve")),
    ]
    assert room.room is not None
    low, high = (room.room.value - room.window.factor * end for end in (room.window.high_mm, room.window.low_mm))
    for system in given.book.shim_systems:
        fits = [size for size in system.sizes() if low <= size <= high]
        if fits:
            side = {"in": "intake", "ex": "exhaust"}.get(system.side, "other")
            what = said(
                "possible where the diameter is the same: {size:.2f} of the {side} shims", size=fits[0], side=side
            )
            found.append(_way(valve, "other shims", what, possible=None, by_mm=0.0))
    return tuple(found)


def _price(given: Given, slot: str) -> float | None:
    row = next(iter(given.book.parts_in(slot)), None)
    return price_of(given, row.number) if row is not None else None


def _sold(given: Given, slot: str) -> bool:
    return bool(given.book.parts_in(slot))


def _cost(given: Given, slot: str) -> str:
    """Number, price and term of a part in words, as far as they are known."""
    row = next(iter(given.book.parts_in(slot)), None)
    if row is None:
        return ", which the book does not sell"
    price = price_of(given, row.number)
    known = [row.number, f"{price:.2f}" if price is not None else "", row.delivery]
    return " " + ", ".join(text for text in known if text)
