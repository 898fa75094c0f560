"""When the head comes back: each tip against what was agreed, and where it was cut too far, what is still possible."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from gudgeon.anatomy import say
from gudgeon.job.entries import Ordered
from gudgeon.plans.bounds import load_at
from gudgeon.plans.evidence import Evidence, written_mm
from gudgeon.plans.lashes import stack_of, window_of
from gudgeon.plans.prices import price_of
from gudgeon.plans.shape import Buy, Given, Line
from gudgeon.plans.shim_items import system_of
from gudgeon.problem import Said, said

_FROM_TO = re.compile(r"(\d+[.,]\d+)\s*(?:mm)?\s*(?:to|–|-)\s*(\d+[.,]\d+)")
_NEVER = re.compile(r"never over\s*(\d+[.,]\d+)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreed:
    """What an order said of one tip."""

    low_mm: float
    high_mm: float
    never_over_mm: float | None
    seq: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One valve as it came back: its lines, whether a bound was broken, and whether that was decided upon."""

    valve: str
    lines: tuple[Line, ...]
    broken: bool = False
    decided: bool = False
    needs: tuple[str, ...] = ()
    spacer: Buy | None = None


def checks(evidence: Evidence) -> tuple[Check, ...]:
    """Every valve whose bounds stood on an order that came back."""
    found = []
    for seq, order in evidence.state.orders:
        if order.kind != "machining":
            continue
        for valve in evidence.state.anatomy.valves:
            agreed = agreed_on(order, valve, seq, single=evidence.state.anatomy.layout.cylinders == 1)
            worked = _worked(evidence, valve, seq)
            if agreed is not None and worked:
                found.append(_check(evidence, valve, agreed, worked))
    return tuple(found)


def broken_bounds(given: Given) -> frozenset[str]:
    """Valves that came back outside what was agreed, with nothing decided since."""
    if not any(order.kind == "machining" for _seq, order in given.state.orders):
        return frozenset()
    return frozenset(c.valve for c in checks(Evidence(given=given)) if c.broken and not c.decided)


def agreed_on(order: Ordered, valve: str, seq: int, *, single: bool) -> Agreed | None:
    """The bounds that an order gives for a valve, in its words."""
    names = (valve, say(valve), say(valve, single=single))
    for key, words in order.words.items():
        if not any(name in key or name in words for name in names):
            continue
        span, never = _FROM_TO.search(words), _NEVER.search(words)
        if span is not None:
            low, high = (float(g.replace(",", ".")) for g in span.groups())
            last = float(never.group(1).replace(",", ".")) if never else None
            return Agreed(low_mm=low, high_mm=high, never_over_mm=last, seq=seq)
    return None


def _worked(evidence: Evidence, valve: str, after: int) -> int:
    """The last work on this seat since the order, as its entry; a guide alone leaves nothing to be checked in it."""
    did = [
        d.entry.seq
        for d in evidence.state.done
        if d.entry.seq > after and d.where == valve and d.operation in ("cut_seat", "lap_valve")
    ]
    return max(did, default=0)


def _check(evidence: Evidence, valve: str, agreed: Agreed, worked: int) -> Check:
    latest = evidence.latest("tip_height", valve)
    if latest is None or latest[1].entry.seq < worked:
        return Check(valve=valve, lines=(), needs=(f"tip_height@{valve}",))
    tip, taken = latest
    broken = _broken(tip.value, agreed)
    decided = _decided(evidence, valve, taken.entry.seq)
    lines = [_compared(evidence, valve, tip.value, agreed, broken)]
    spacer = None
    if broken == "over":
        ways, spacer = _ways_out(evidence, valve, tip.value, agreed)
        lines += [] if decided else ways
    return Check(valve=valve, lines=tuple(lines), broken=bool(broken), decided=decided, spacer=spacer)


def _broken(tip_mm: float, agreed: Agreed) -> str:
    if tip_mm > agreed.high_mm + 1e-9:
        return "over"
    return "under" if tip_mm < agreed.low_mm - 1e-9 else ""


def _decided(evidence: Evidence, valve: str, after: int) -> bool:
    parts = {evidence.state.slots.get(f"{valve}/{kind}") for kind in ("seat", "valve", "spring")}
    spoke = any(part in parts and seq > after for part, (seq, _d) in evidence.state.dispositions.items())
    return spoke or any(d.operation == "fit_spacer" and d.where == valve and d.entry.seq > after
                        for d in evidence.state.done)  # fmt: skip


def _compared(evidence: Evidence, valve: str, tip_mm: float, agreed: Agreed, broken: str) -> Line:
    template = {
        "over": "came back at {tip:.2f}: over the {high:.2f} that was agreed",
        "under": "came back at {tip:.2f}: under the {low:.2f} that was agreed",
        "": "came back at {tip:.2f}: within {low:.2f} to {high:.2f}",
    }[broken]
    never = agreed.never_over_mm
    ends = broken == "over" and never is not None
    if ends and never is not None:
        template += (
            ", under the {never:.2f} that ends it" if tip_mm <= never else ", and over the {never:.2f} that ends it"
        )
    what = said(template, tip=tip_mm, low=agreed.low_mm, high=agreed.high_mm, never=never or 0.0)
    numbers = (
        ("tip_mm", tip_mm),
        ("low_mm", agreed.low_mm),
        ("high_mm", agreed.high_mm),
        ("never_over_mm", never),
        ("broken", broken),
    )
    return Line(where=valve, what=what, numbers=numbers)


def _ways_out(evidence: Evidence, valve: str, tip_mm: float, agreed: Agreed) -> tuple[list[Line], Buy | None]:
    """What is still possible, the cheapest first."""
    spacer, buy = _spacer(evidence, valve, tip_mm, agreed)
    insert = _insert(evidence, valve)
    return [*spacer, insert, _tip_grinding(evidence, valve, tip_mm, agreed)], buy


def _spacer(evidence: Evidence, valve: str, tip_mm: float, agreed: Agreed) -> tuple[list[Line], Buy | None]:
    """A spacer under the spring for the height, the thinnest shim for the lash."""
    given, side = evidence.given, "in" if ".in" in valve else "ex"
    spring, window, system = given.book.spring(side), window_of(given, valve), system_of(given, valve)
    before, height = _before(evidence, valve, agreed.seq), _height(evidence, valve)
    stack = stack_of(evidence, valve, window) if window else None
    if spring is None or spring.spacer is None or window is None or system is None or stack is None or height is None:
        return [], None
    thick = spring.spacer.value
    after = height - thick
    lash = (stack[0].value - tip_mm - system.sizes()[0]) / window.factor
    load = load_at(evidence, valve, after)
    fits = before is None or thick <= tip_mm - before + 1e-9
    possible = fits and lash >= window.low_mm
    numbers = (
        ("way", "spacer"),
        ("possible", possible),
        ("spacer_mm", thick),
        ("height_mm", after),
        ("load_n", load),
        ("shim_mm", system.sizes()[0]),
        ("lash_mm", lash),
        ("sink_mm", tip_mm - before if before is not None else None),
        ("reserve_mm", agreed.never_over_mm - tip_mm if agreed.never_over_mm is not None else None),
    )
    what = said("a {thick:.2f} spacer under the spring: height {after:.2f}, load {load:.1f} N; thinnest shim {shim:.2f}, "
                "lash {lash:.3f}", thick=thick, after=after, load=load or 0.0, shim=system.sizes()[0], lash=lash)  # fmt: skip
    because: tuple[Said, ...] = (said("no reserve for the next overhaul: then a new insert"),)
    because += (
        () if fits else (said("the spacer is thicker than the sink: less room between the coils than the maker gave"),)
    )
    row = next(
        (p for p in given.book.parts if p.thickness and abs(p.thickness.value - thick) < 5e-4 and "spacer" in p.name),
        None,
    )
    buy = Buy(number=row.number, name=row.name, count=1, slots=(f"{valve}/spring",), because=said("to restore the spring height"),
              sure=False, price=price_of(given, row.number)) if row and possible else None  # fmt: skip
    return [Line(where=valve, what=what, numbers=numbers, because=because)], buy


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
    part = next(iter(evidence.given.book.parts_in(f"{valve}/seat")), None)
    price = price_of(evidence.given, part.number) if part else None
    numbers = (
        ("way", "new insert"),
        ("possible", part is not None),
        ("part", part.number if part else None),
        ("price", price),
    )
    if part is None:
        return Line(where=valve, what=said("a new insert: the book sells none, ask the shop"), numbers=numbers)
    what = said("a new insert, {number}, {price}, {delivery}: fitted and cut anew", number=part.number,
                price=f"{price:.2f}" if price is not None else "no price", delivery=part.delivery or "no term")  # fmt: skip
    return Line(where=valve, what=what, numbers=numbers)


def _tip_grinding(evidence: Evidence, valve: str, tip_mm: float, agreed: Agreed) -> Line:
    coated = evidence.state.anatomy.layout.side(valve).coated
    off = tip_mm - agreed.high_mm
    numbers = (("way", "tip grinding"), ("possible", not coated), ("off_mm", off))
    if coated:
        return Line(where=valve, what=said("tip grinding: refused, the valve is coated"), numbers=numbers)
    what = said(
        "tip ground {off:.2f} shorter, where the maker allows it and the tip still stands above its keepers", off=off
    )
    return Line(where=valve, what=what, numbers=numbers)


def spacer_buys(evidence: Evidence, back: Iterable[Check]) -> tuple[Buy, ...]:
    """Spacers that were fitted, and those that a way out asks for."""
    given = evidence.given
    found: dict[str, Buy] = {}
    for check in back:
        if check.spacer is not None and not check.decided:
            found[check.valve] = check.spacer
    for done in evidence.state.did("fit_spacer"):
        size = _size(done.detail.get("thickness", ""))
        row = next(
            (
                p
                for p in given.book.parts
                if p.thickness and abs(p.thickness.value - size) < 5e-4 and "spacer" in p.name
            ),
            None,
        )
        if row is not None:
            found[done.where] = Buy(number=row.number, name=row.name, count=1, slots=(f"{done.where}/spring",),
                                    because=said("fitted under the spring"), price=price_of(given, row.number), on_hand=True)  # fmt: skip
    return tuple(found.values())


def _size(text: str) -> float:
    return written_mm(text) or 0.0


def low_springs(evidence: Evidence, back: Iterable[Check]) -> tuple[Line, ...]:
    """Installed heights past their limit that no order speaks of: the spacer that brings them back."""
    known = {check.valve for check in back if check.broken}
    found = []
    for verdict in evidence.given.judged.of("installed_height"):
        spring = evidence.given.book.spring("in" if ".in" in verdict.place else "ex")
        over = verdict.bad and verdict.high is not None and verdict.value is not None and verdict.value > verdict.high
        if not over or verdict.place in known or verdict.value is None or spring is None or spring.spacer is None:
            continue
        after = verdict.value - spring.spacer.value
        load = load_at(evidence, verdict.place, after)
        what = said("a {thick:.2f} spacer under the spring: height {after:.2f}, load {load:.1f} N",
                    thick=spring.spacer.value, after=after, load=load or 0.0)  # fmt: skip
        numbers = (("way", "spacer"), ("spacer_mm", spring.spacer.value), ("height_mm", after), ("load_n", load))
        found.append(Line(where=verdict.place, what=what, numbers=numbers))
    return tuple(found)
