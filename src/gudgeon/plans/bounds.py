"""How deep a seat may be cut, before it is cut, in what the machinist can measure: a tip height with the enclosed valve.

He cannot see a sink. Deepest: the installed height of a fresh cut, the thinnest shim on sale under a lash that still
clears its tight wall, the load of the spring, the limit of the tip. Shallowest: the thickest shim under the loose wall.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import floor

from gudgeon.book.engine import Spring
from gudgeon.mechanics.spring import rate_n_per_mm
from gudgeon.metrology.known import Known
from gudgeon.metrology.student import t_inverse
from gudgeon.plans.evidence import Evidence, by_mark
from gudgeon.plans.lashes import Window, stack_of, window_of
from gudgeon.plans.shape import Given
from gudgeon.plans.shim_items import system_of
from gudgeon.problem import Said, said


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One bound on a tip height, with its arithmetic."""

    tip_mm: float
    words: Said


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """From where to where a tip may come back, and over what it never may; what is missing to say so."""

    low_mm: float | None
    high_mm: float | None
    never_over_mm: float | None
    because: tuple[Said, ...]
    needs: tuple[str, ...]
    rests_on: tuple[int, ...]


def tip_bounds(evidence: Evidence, valve: str, *, with_its_valve: bool) -> Bounds:
    """The bounds of a seat cut; `with_its_valve` where the valve that stands there is the one to be enclosed."""
    window = window_of(evidence.given, valve)
    stack = stack_of(evidence, valve, window) if window else None
    low, thin = _by_shims(evidence, valve, window, stack[0]) if window and stack else (None, None)
    height = _by_height(evidence, valve) if with_its_valve else None
    ends = [
        b for b in (thin, _by_load(evidence, valve) if with_its_valve else None, _by_tip(evidence.given, valve)) if b
    ]
    never = min(ends, key=lambda b: b.tip_mm, default=None)
    highs = [b for b in (height, never) if b is not None]
    high = min(highs, key=lambda b: b.tip_mm, default=None) if with_its_valve else None
    said_ones = tuple(b.words for b in (low, height, *ends) if b is not None)
    return Bounds(
        low_mm=round(low.tip_mm, 2) if low else None,
        high_mm=_floor(high.tip_mm) if high else None,
        never_over_mm=_floor(never.tip_mm) if never else None,
        because=said_ones,
        needs=_needs(evidence, valve, window, stack is not None, with_its_valve),
        rests_on=stack[1] if stack else (),
    )


def _floor(size_mm: float) -> float:
    """Down to the hundredth that a machinist reads, so that a bound never grows by rounding."""
    return floor(size_mm * 100.0 + 1e-6) / 100.0


def _needs(evidence: Evidence, valve: str, window: Window | None, stack: bool, with_its_valve: bool) -> tuple[str, ...]:
    found: list[str] = []
    if window is not None and not stack and system_of(evidence.given, valve) is not None:
        part = evidence.state.slots.get(f"{valve}/shim")
        found += [f"shim_thickness@{valve}"] if part and evidence.thickness(part).known is None else []
    for measurand in ("tip_height", "installed_height") if with_its_valve else ():
        if evidence.latest(measurand, valve) is None:
            found.append(f"{measurand}@{valve}")
    return tuple(found)


def _by_shims(evidence: Evidence, valve: str, window: Window, stack: Known) -> tuple[Limit | None, Limit | None]:
    """Shallowest under the thickest shim, deepest under the thinnest: lash = (H − tip − shim)/f."""
    system, rules = system_of(evidence.given, valve), evidence.given.rules
    if system is None:
        return None, None
    thinnest, thickest = system.sizes()[0], system.sizes()[-1]
    room = stack.plus(by_mark(thinnest, "thinnest shim"), -1.0).plus(_to_come(evidence, valve), -1.0)
    guard = t_inverse(1.0 - rules.risk) * room.u if rules.tight_wall == "guarded" else 0.0
    deep = stack.value - window.factor * window.low_mm - thinnest - guard
    shallow = stack.value - window.factor * window.high_mm - thickest
    words = said("thinnest shim {shim:.2f} under a lash of {lash:.2f}: tip {tip:.3f}, less {guard:.3f} of doubt",
                 shim=thinnest, lash=window.low_mm, tip=deep + guard, guard=guard)  # fmt: skip
    back = said("thickest shim {shim:.2f} under a lash of {lash:.2f}: tip {tip:.3f}",
                shim=thickest, lash=window.high_mm, tip=shallow)  # fmt: skip
    return Limit(tip_mm=shallow, words=back), Limit(tip_mm=deep, words=words)


def _to_come(evidence: Evidence, valve: str) -> Known:
    """The doubt of the tip that will be read when the head is back, with the gauge that read the last one."""
    last = next((k for t in evidence.at("tip_height", valve) if (k := evidence.number(t)) is not None), None)
    parts = last.parts if last is not None else ()
    return Known(value=0.0, parts=tuple((n if n.startswith("gauge ") else "tip to come", p) for n, p in parts))


def _by_height(evidence: Evidence, valve: str) -> Limit | None:
    """A fresh cut must meet the new range of the installed height, without a spacer."""
    row = evidence.given.book.limit_for("installed_height", valve)
    tip, height = evidence.latest("tip_height", valve), evidence.latest("installed_height", valve)
    if row is None or row.new_high is None or tip is None or height is None:
        return None
    reach = tip[0].value + row.new_high - height[0].value
    words = said("installed height {now:.2f} at a tip of {tip:.2f}, at most {most:.2f} after a fresh cut: tip {reach:.2f}",
                 now=height[0].value, tip=tip[0].value, most=row.new_high, reach=reach)  # fmt: skip
    return Limit(tip_mm=reach, words=words)


def _by_load(evidence: Evidence, valve: str) -> Limit | None:
    """Where the spring that stands there would fall to its least load."""
    row = evidence.given.book.limit_for("spring_load", valve)
    tip, height = evidence.latest("tip_height", valve), evidence.latest("installed_height", valve)
    if row is None or row.least is None or tip is None or height is None:
        return None
    load = load_at(evidence, valve, height[0].value)
    rate = rate_of(evidence.given.book.spring("in" if ".in" in valve else "ex"))
    if load is None or rate is None:
        return None
    reach = tip[0].value + (load - row.least) / rate
    words = said("spring load {load:.1f} N at {at:.2f}, at least {least:.0f} N: tip {reach:.2f}",
                 load=load, at=height[0].value, least=row.least, reach=reach)  # fmt: skip
    return Limit(tip_mm=reach, words=words)


def rate_of(spring: Spring | None) -> float | None:
    """The rate of the book's spring, in N/mm."""
    if spring is None or not (spring.wire and spring.mean_diameter and spring.active and spring.shear_modulus):
        return None
    return rate_n_per_mm(
        spring.wire.value, spring.mean_diameter.value, spring.active.value, spring.shear_modulus.value
    )  # fmt: skip


def load_at(evidence: Evidence, valve: str, length_mm: float) -> float | None:
    """The load of a valve's spring at a length: from its own measured load where that passes, else from the book's."""
    spring = evidence.given.book.spring("in" if ".in" in valve else "ex")
    rate = rate_of(spring)
    if spring is None or rate is None or spring.at_length is None:
        return None
    part = evidence.state.slots.get(f"{valve}/spring") or ""
    verdict = evidence.given.judged.at("spring_load", valve)
    own = evidence.latest("spring_load", part)
    book = spring.load.value if spring.load is not None else None
    base = own[0].value if own is not None and verdict is not None and verdict.good else book
    return None if base is None else base + rate * (spring.at_length.value - length_mm)


def _by_tip(given: Given, valve: str) -> Limit | None:
    row = given.book.limit_for("tip_height", valve)
    if row is None or row.most is None:
        return None
    return Limit(tip_mm=row.most, words=said("tip at most {most:.2f} by the book", most=row.most))
