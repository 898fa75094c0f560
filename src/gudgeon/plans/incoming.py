"""When the head comes back: each tip against what was agreed, and where it was cut too far, what is still possible."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from gudgeon.anatomy import say
from gudgeon.job.entries import Ordered
from gudgeon.plans.bounds import load_at
from gudgeon.plans.evidence import Evidence, written_mm
from gudgeon.plans.prices import price_of
from gudgeon.plans.shape import Buy, Given, Line
from gudgeon.plans.ways_out import Agreed, spacer_row, ways_out
from gudgeon.problem import said

_FROM_TO = re.compile(r"(\d+[.,]\d+)\s*(?:mm)?\s*(?:to|–|-)\s*(\d+[.,]\d+)")
_NEVER = re.compile(r"never over\s*(\d+[.,]\d+)")


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
    if broken:
        ways, spacer = ways_out(evidence, valve, tip.value, agreed, broken)
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


def spacer_buys(evidence: Evidence, back: Iterable[Check]) -> tuple[Buy, ...]:
    """Spacers that were fitted, and those that a way out asks for."""
    given = evidence.given
    found: dict[str, Buy] = {}
    for check in back:
        if check.spacer is not None and not check.decided:
            found[check.valve] = check.spacer
    for done in evidence.state.did("fit_spacer"):
        size = _size(done.detail.get("thickness", ""))
        row = spacer_row(given, size)
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
