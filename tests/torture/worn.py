"""A randomly worn engine as it truly is: what a gauge would show, had it no error. Nothing here is known to the bench.

Sizes belong to the part that was read (or to the place) and to how often it was worked; lash follows from the room of its
valve, tip and shim, so that a plan which calculates wrongly is found out by the next reading.
"""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from gudgeon.anatomy import Surface
from gudgeon.job.state import JobState
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.mechanics.lash import factor_for
from gudgeon.plans.evidence import marked_mm
from gudgeon.plans.lashes import window_of
from gudgeon.plans.shape import Given
from gudgeon.plans.shim_items import system_of
from gudgeon.verdicts.gather import about

#: What is good where the book names no word.
GOOD = {"holds", "in line", "seen", "centre", "in the middle", "even", "dry"}
#: What work makes new, by the operation: the surfaces that are read there from then on.
MAKES = {
    "cut_seat": ("seat_width", "seat_runout", "contact", "seal_test", "installed_height", "recession"),
    "lap_valve": ("contact", "seal_test"),
    "ream_guide": ("guide_bore", "wobble"),
    "skim_head": ("head_flatness",),
    "skim_barrel": ("barrel_flatness",),
    "hone": ("bore_diameter",),
    "rebore": ("bore_diameter",),
    "file_ring_gap": ("ring_gap",),
}
AIR = ("leak_down", "compression")


class Worn:
    """One engine; `wear` is how far a part has gone on average between new (0) and its limit (1)."""

    def __init__(self, random: Random, *, wear: float, bad: float) -> None:
        self.random, self.wear, self.bad = random, wear, bad
        self.sizes: dict[tuple[object, ...], float] = {}
        self.said: dict[tuple[object, ...], str] = {}

    def size(self, given: Given, measurand: str, place: str, point: str) -> float:
        """The true size at a point, in the measurand's unit."""
        valve = place in given.state.anatomy.valves
        if measurand == "lash":
            return self._lash(given, place)
        if measurand == "tip_height" and valve:
            return self.tip(given, place)
        if measurand == "shim_thickness":
            part = place[5:] if place.startswith("part:") else given.state.slots.get(f"{place}/shim") or ""
            return self._shim(given, part, place)
        if measurand in AIR:
            return self._air(given, measurand, place)
        middle = self._middle(given, measurand, place)
        key = ("point", measurand, *self._key(given, measurand, place), point)
        return middle + self._once(key, lambda: self.random.uniform(-1, 1)) * 0.03 * self._span(given, measurand, place)

    def word(self, given: Given, measurand: str, place: str) -> str:
        """What an eye sees."""
        kind, row = MEASURANDS[measurand], given.book.limit_for(measurand, place)
        good = {row.expect} if row and row.expect else GOOD
        well = next((w for w in kind.words if w in good), kind.words[0])
        worse = next((w for w in kind.words if w not in good), well)
        again = len(given.state.did("open_sprocket")) if measurand == "timing_marks" else 0
        key = (measurand, again, *self._key(given, measurand, place))
        wrong = 0.25 if measurand in ("seal_test", "contact") and not self._worked(given, measurand, place) else 0.02
        return self.said.setdefault(key, worse if self.random.random() < wrong else well)

    def tip(self, given: Given, valve: str) -> float:
        """Tip height: nominal, wear of seat and face, and what was cut."""
        parts = [given.state.slots.get(f"{valve}/{p}") or "" for p in ("valve", "seat")]
        row = given.book.limit_for("tip_height", valve)
        nominal = (row.new_low + row.new_high) / 2 if row and row.new_low and row.new_high else 37.5
        sunk = sum(
            self._once(("sunk", p), lambda: self.random.uniform(0.0, 0.15)) for p in parts if p.startswith("orig:")
        )
        cuts = sum(self._once(("cut", d.entry.seq), lambda: self.random.uniform(0.03, 0.12))
                   for d in given.state.did("cut_seat", valve))  # fmt: skip
        ground = 0.02 * len(given.state.did("lap_valve", valve))
        return nominal + sunk + cuts + ground

    def _lash(self, given: Given, valve: str) -> float:
        window = window_of(given, valve)
        low, high = (window.low_mm, window.high_mm) if window else (0.1, 0.2)
        side = given.state.anatomy.layout.side(valve)
        factor = factor_for(side.ratio, side.lash_read)
        turned = given.state.did("adjust_screw", valve)
        if not given.state.anatomy.has(f"{valve}/shim"):
            key = ("screw", valve, turned[-1].entry.seq if turned else 0)
            off = self._once(key, lambda: self.random.gauss(0.5, 0.1) if turned else self.random.uniform(-0.8, 1.8))
            return max(0.0, low + off * (high - low))
        shim = self._shim(given, given.state.slots.get(f"{valve}/shim") or "", valve)

        def room() -> float:
            off = self.random.uniform(0.1, 0.9) if self.random.random() < 0.6 else self.random.uniform(-1.8, 2.2)
            return factor * (low + off * (high - low)) + self.tip(given, valve) + shim

        stack = self._once(("room", valve, *self._train(given, valve)), room)
        return (stack - self.tip(given, valve) - shim) / factor

    def _train(self, given: Given, valve: str) -> Iterator[str]:
        """The parts between cam and shim: a new one changes the room."""
        anatomy, slots = given.state.anatomy, given.state.slots
        cam = anatomy.cam(valve)
        yield from (slots.get(s) or "" for s in (f"{valve}/follower", f"{cam}/cam", f"{cam}/follower shaft"))

    def _shim(self, given: Given, part: str, place: str) -> float:
        known, valve = given.state.parts.get(part), place if place in given.state.anatomy.valves else ""
        system = system_of(given, valve or given.state.anatomy.valves[0])
        sizes = system.sizes() if system else (2.0,)
        marked = marked_mm(known.mark) if known and known.mark else None
        if known is not None and known.thickness:
            marked = float(known.thickness.split(" ")[0])
        middle = sizes[len(sizes) // 4 : 3 * len(sizes) // 4 + 1]
        size = marked if marked is not None else self._once(("shim", part), lambda: self.random.choice(middle))
        return size + self._once(("made", part), lambda: self.random.uniform(-0.003, 0.003))

    def _air(self, given: Given, measurand: str, cylinder: str) -> float:
        """Leak-down and compression: what the seats let through, and the rings as they came."""
        state, row = given.state, given.book.limit_for(measurand, cylinder)
        seats = [
            self.word(given, "seal_test", v) for v in state.anatomy.valves if state.anatomy.cylinder(v) == cylinder
        ]
        rings = [state.slots.get(s) or "" for s in state.slots if s.startswith(f"{cylinder}.ring")]
        worn = any(r.startswith("orig:") for r in rings)
        blow = self._once(("rings", cylinder, worn), lambda: self.random.uniform(1, 6 if worn else 3))
        leaks = 3.0 + blow + 15.0 * sum(s not in GOOD and s != "weeps" for s in seats)
        if measurand == "leak_down":
            return leaks
        low, high = (row.new_low or row.least or 900.0, row.new_high or row.least or 1100.0) if row else (900.0, 1100.0)
        return low + 0.5 * (high - low) - 6.0 * max(0.0, leaks - 6.0)

    def _middle(self, given: Given, measurand: str, place: str) -> float:
        key = (measurand, *self._key(given, measurand, place))
        return self._once(key, lambda: self._drawn(given, measurand, place))

    def _drawn(self, given: Given, measurand: str, place: str) -> float:
        """New within its range; worn, somewhere towards its limit, now and then past it."""
        row, kind, random = given.book.limit_for(measurand, place), MEASURANDS[measurand], self.random
        if row is None or (row.new_low is None and row.least is None and row.most is None):
            low, high = kind.plausible or (0.5, 1.5)
            return low + 0.4 * (min(high, 3.0 * low + 1.0) - low)
        least, most = row.least, row.most
        new = row.new_low is not None and row.new_high is not None
        low, high = (row.new_low, row.new_high) if new else (None, None)
        if low is None or high is None:
            end = most if most is not None else least
            assert end is not None
            low, high = (0.4 * end, 0.6 * end) if most is not None else (1.1 * end, 1.3 * end)
        fresh = low + random.uniform(0.2, 0.8) * (high - low)
        if self._worked(given, measurand, place) or (least is None and most is None):
            return fresh
        share = random.betavariate(2, 2) * 2 * self.wear
        share = random.uniform(1.1, 1.5) if random.random() < self.bad else min(share, 0.95)
        if most is not None and most > high:
            return high + share * (most - high)
        if least is not None and least < low:
            return low - share * (low - least)
        return fresh

    def _span(self, given: Given, measurand: str, place: str) -> float:
        row = given.book.limit_for(measurand, place)
        ends = [e for e in (row.new_low, row.new_high, row.least, row.most) if e is not None] if row else []
        return max(ends) - min(ends) if len(ends) > 1 else 0.0

    def _key(self, given: Given, measurand: str, place: str) -> tuple[object, ...]:
        """What was read: the part or place, and the last work that made it anew."""
        gaskets = tuple(p for s, p in given.state.slots.items() if s.endswith("base gasket")) if measurand in (
            "squish", "valve_to_piston") else ()  # fmt: skip
        made, parts = _made(given.state, measurand, place), _parts(given.state, measurand, place)
        return (*parts, made, *(given.state.parts[p].number for p in gaskets if p))

    def _worked(self, given: Given, measurand: str, place: str) -> bool:
        new = any(p in given.state.parts and not p.startswith("orig:") for p in _parts(given.state, measurand, place))
        return new or bool(_made(given.state, measurand, place))

    def _once(self, key: tuple[object, ...], draw) -> float:  # type: ignore[no-untyped-def]
        if key not in self.sizes:
            self.sizes[key] = draw()
        return self.sizes[key]


def _parts(state: JobState, measurand: str, place: str) -> tuple[str, ...]:
    """What was read: the part itself, or the place and every part that it looks at there."""
    if place.startswith("part:"):
        return (place[5:],)
    whose = about(state, measurand, place)
    if whose != place:
        return (whose,)
    seen = MEASURANDS[measurand].observes(state.anatomy, place)
    slots = dict.fromkeys(f.slot for f in seen if isinstance(f, Surface) and "gasket" not in f.slot)
    return (place, *(state.slots.get(s) or "" for s in slots))


def _made(state: JobState, measurand: str, place: str) -> int:
    """The entry of the last work that made this anew; 0 if none did."""
    near = {place, place.split("/")[0], *place.split(".")[:1], "head"}
    works = [op for op, made in MAKES.items() if measurand in made]
    return max(
        (d.entry.seq for op in works for d in state.did(op) if d.where in near or d.where.split("/")[0] in near),
        default=0,
    )
