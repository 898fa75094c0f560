"""What is still possible when a head came back outside what was agreed: each way with its numbers and its price.

A seat that was cut too far is not yet a head for scrap: a spacer gives back the spring's height, a thin shim the lash, a new
insert everything; what coating or projection forbids is said too, so that nobody tries it.
"""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon.book.parts import PartRow
from gudgeon.plans.bounds import load_at
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.lashes import stack_of, window_of
from gudgeon.plans.prices import price_of
from gudgeon.plans.shape import Buy, Given, Line
from gudgeon.plans.shim_items import system_of
from gudgeon.plans.shim_lines import shim_cents
from gudgeon.plans.shim_none import grinding
from gudgeon.problem import Said, said


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreed:
    """What an order said of one tip."""

    low_mm: float
    high_mm: float
    never_over_mm: float | None
    seq: int


def ways_out(
    evidence: Evidence, valve: str, tip_mm: float, agreed: Agreed, broken: str
) -> tuple[list[Line], Buy | None]:  # fmt: skip
    """What is still possible; where it was cut too little, how much more, else the cheapest way first."""
    if broken == "under":
        return [_cut_on(valve, tip_mm, agreed), *_other_valve(evidence, valve, agreed.low_mm - tip_mm)], None
    off = tip_mm - agreed.high_mm
    spacer, buy = _spacer(evidence, valve, tip_mm, agreed)
    shim, other = _other_shim(evidence, valve, tip_mm), _other_valve(evidence, valve, off)
    return [*spacer, *shim, *other, _insert(evidence, valve), grinding(evidence, valve, off)], buy


def _cut_on(valve: str, tip_mm: float, agreed: Agreed) -> Line:
    """Too shallow: metal is still there."""
    least, most = agreed.low_mm - tip_mm, agreed.high_mm - tip_mm
    numbers = (("way", "cut on"), ("possible", True), ("least_mm", least), ("most_mm", most))
    what = said("cut on: the tip {least:.2f} to {most:.2f} higher", least=least, most=most)
    return Line(where=valve, what=what, numbers=numbers, because=(said("less than the thickest shim can take up"),))


def _other_shim(evidence: Evidence, valve: str, tip_mm: float) -> list[Line]:
    """The shim alone, without a spacer: enough where the spring's height is still within its new range."""
    given, window, system = evidence.given, window_of(evidence.given, valve), system_of(evidence.given, valve)
    stack = stack_of(evidence, valve, window) if window else None
    if window is None or system is None or stack is None:
        return []
    lashes = {size: (stack[0].value - tip_mm - size) / window.factor for size in system.sizes()}
    fits = [s for s, lash in lashes.items() if window.low_mm <= lash <= window.high_mm]
    size = min(fits or lashes, key=lambda s: abs(lashes[s] - window.aim_mm))
    height, row = _height(evidence, valve), given.book.limit_for("installed_height", valve)
    most = row.new_high if row is not None else None
    low = height is not None and most is not None and height > most
    numbers = (
        ("way", "other shim"),
        ("possible", bool(fits) and not low),
        ("shim_mm", size),
        ("lash_mm", lashes[size]),
        ("height_mm", height),
        ("price", shim_cents(given, valve) / 100.0),
    )
    what = said("shim {shim:.2f} alone: lash {lash:.3f}", shim=size, lash=lashes[size])
    because: tuple[Said, ...] = ()
    if low and height is not None and most is not None:
        because = (
            said(
                "not alone: the spring stands {height:.2f} high, over the {most:.2f} of a fresh cut",
                height=height,
                most=most,
            ),
        )
    if not fits:
        because = (*because, said("no shim on sale gives a lash in the window"))
    return [Line(where=valve, what=what, numbers=numbers, because=because)]


def _other_valve(evidence: Evidence, valve: str, off_mm: float) -> list[Line]:
    """Another valve of the same number: as good as what it measures in this seat, no better known than that."""
    row = next(iter(evidence.given.book.parts_in(f"{valve}/valve")), None)
    if row is None:
        return []
    price = price_of(evidence.given, row.number)
    numbers = (("way", "other valve"), ("possible", None), ("part", row.number), ("price", price), ("off_mm", off_mm))
    way = "lower" if off_mm > 0 else "higher"
    what = said("another valve, {terms}: helps if its tip comes {off:.2f} {way} in this seat; measure it there first",
                terms=_terms(evidence.given, row), off=abs(off_mm), way=way)  # fmt: skip
    return [Line(where=valve, what=what, numbers=numbers)]


def _spacer(evidence: Evidence, valve: str, tip_mm: float, agreed: Agreed) -> tuple[list[Line], Buy | None]:
    """A spacer under the spring for the height, the thinnest shim for the lash."""
    given, side = evidence.given, "in" if ".in" in valve else "ex"
    spring, window, system = given.book.spring(side), window_of(given, valve), system_of(given, valve)
    before, height = _before(evidence, valve, agreed.seq), _height(evidence, valve)
    stack = stack_of(evidence, valve, window) if window else None
    if spring is None or spring.spacer is None or window is None or system is None or stack is None or height is None:
        return [], None
    thick, thinnest = spring.spacer.value, system.sizes()[0]
    lash = (stack[0].value - tip_mm - thinnest) / window.factor
    load, row = load_at(evidence, valve, height - thick), spacer_row(given, thick)
    fits = before is None or thick <= tip_mm - before + 1e-9
    possible = fits and lash >= window.low_mm
    own = price_of(given, row.number) if row is not None else None
    price = own + shim_cents(given, valve) / 100.0 if own is not None else None
    numbers = (
        ("way", "spacer"),
        ("possible", possible),
        ("spacer_mm", thick),
        ("height_mm", height - thick),
        ("load_n", load),
        ("shim_mm", thinnest),
        ("lash_mm", lash),
        ("sink_mm", tip_mm - before if before is not None else None),
        ("reserve_mm", agreed.never_over_mm - tip_mm if agreed.never_over_mm is not None else None),
        ("price", price),
    )
    what = said("a {thick:.2f} spacer under the spring: height {after:.2f}, load {load:.1f} N; thinnest shim {shim:.2f}, "
                "lash {lash:.3f}", thick=thick, after=height - thick, load=load or 0.0, shim=thinnest, lash=lash)  # fmt: skip
    cost = (said("{price:.2f} with its shim", price=price),) if price is not None else ()
    thicker = said("the spacer is thicker than the sink: less room between the coils than the maker gave")
    because = (said("no reserve for the next overhaul: then a new insert"), *(() if fits else (thicker,)), *cost)
    buy = Buy(number=row.number, name=row.name, count=1, slots=(f"{valve}/spring",), because=said("to restore the spring height"),
              sure=False, price=own) if row and possible else None  # fmt: skip
    return [Line(where=valve, what=what, numbers=numbers, because=because)], buy


def spacer_row(given: Given, thick_mm: float) -> PartRow | None:
    """The spacer of a thickness in the book."""
    rows = (p for p in given.book.parts if p.thickness and "spacer" in p.name)
    return next((p for p in rows if p.thickness and abs(p.thickness.value - thick_mm) < 5e-4), None)


def _before(evidence: Evidence, valve: str, order: int) -> float | None:
    """The tip that stood when the order went out."""
    for taken in evidence.at("tip_height", valve):
        tip = evidence.number(taken) if taken.entry.seq < order else None
        if tip is not None:
            return tip.value
    return None


def _height(evidence: Evidence, valve: str) -> float | None:
    """The installed height without a spacer: as read, while none was fitted."""
    latest = evidence.latest("installed_height", valve)
    return latest[0].value if latest else None


def _insert(evidence: Evidence, valve: str) -> Line:
    """A new insert: everything is as new, at its price and the shop's."""
    given = evidence.given
    part = next(iter(given.book.parts_in(f"{valve}/seat")), None)
    price = price_of(given, part.number) if part else None
    bills = [row.price.value for of in ("fit_insert", "cut_seat") if (row := given.shelf.work(of)) and row.price]
    numbers = (
        ("way", "new insert"),
        ("possible", part is not None),
        ("part", part.number if part else None),
        ("price", price),
        ("work", sum(bills) if bills else None),
    )
    if part is None:
        return Line(where=valve, what=said("a new insert: the book sells none, ask the shop"), numbers=numbers)
    what = said("a new insert, {terms}: fitted and cut anew", terms=_terms(given, part))
    because = (said("work outside {work:.2f} as far as its price is known", work=sum(bills)),) if bills else ()
    return Line(where=valve, what=what, numbers=numbers, because=because)


def _terms(given: Given, row: PartRow) -> str:
    """Number, price and term of a part."""
    price = price_of(given, row.number)
    return ", ".join((row.number, f"{price:.2f}" if price is not None else "no price", row.delivery or "no term"))
