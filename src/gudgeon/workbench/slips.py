"""Slips are caught at entry: the reading is asked again with its likely meaning, never changed.

What a worn or new part can be follows from the book's row, what the gauge shows and what the bore is made of; without a
row only what no such part can be is asked. What is set by hand is not taken for another part: as found, it may be anywhere.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from gudgeon.book.limits import LimitRow
from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.measurands.shape import Measurand
from gudgeon.problem import Problem, Refused, Said, said
from gudgeon.units import Quantity

INCH_MM = 25.4
#: How far beyond band and wear limit a part may still be believed, in widths of band and limit (common practice).
BELIEVED = 2.0
#: A part that is never nothing has at least this share of the least the book prints (common practice, no source).
LEFT = 1.0 / 3.0
#: How far beyond its new range a part may be on the side that no wear reaches, in widths of that range, before another part
#: of the book that fits is meant (common practice, no source).
UNWORN = 0.25
#: What a bore that can be bored may be over standard, and its piston (common practice, no source).
OVERSIZE_MM = 1.0
OVERSIZED = ("bore_diameter", "piston_diameter")

WORDS: dict[str, Said] = {
    "ten_times_off": said("{name} {typed}: It looks ten times off."),
    "hundred_times_off": said("{name} {typed}: It looks a hundred times off."),
    "thousand_times_off": said("{name} {typed}: It looks a thousand times off."),
    "inch_for_mm": said("{name} {typed}: It looks like inches typed as millimetres."),
    "mm_for_inch": said("{name} {typed}: It looks like millimetres typed as inches."),
    "digits_swapped": said("{name} {typed}: Two digits look swapped."),
    "other_part": said("{name} {typed}: It looks like another part: {other}."),
    "implausible": said("{name} {typed}: No such part shows this."),
    "beyond_the_book": said("{name} {typed}: No such part of this engine shows this, new or worn."),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """A likely slip: its key, which a confirming hand repeats, the value that was probably meant, or the other part."""

    key: str
    meant: float | None = None
    other: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """What is known of one reading: its size, the row it is judged by, the master a deviation counts from (`origin`), the
    gauge's step, the book's other rows by the name of their part, and whether the bore can be bored."""

    size: Quantity
    kind: Measurand
    row: LimitRow | None = None
    origin: float = 0.0
    step: float = 0.0
    others: tuple[tuple[str, LimitRow], ...] = ()
    bored: bool = False


class Asked(Refused):
    """A reading that is asked again; it lands only when the same slip is confirmed."""

    def __init__(self, problem: Problem, slip: Slip) -> None:
        super().__init__(problem)
        self.slip = slip


def believed(seen: Seen) -> tuple[float, float]:
    """The values a part of this engine may show; open on the side on which the book has no end."""
    kind, (lows, highs) = seen.kind, _ends(seen.row)
    least, most = kind.plausible or (float("-inf"), float("inf"))
    room = BELIEVED * _width(lows, highs)
    nothing = 0.0 if kind.dimension in ("length", "force", "pressure", "percent") else float("-inf")
    floor = LEFT * min((*lows, *highs), default=0.0) if least > 0 else nothing
    low = max(min((*lows, *highs)) - room, floor) if lows else min(least, nothing) if highs else least
    return low, max((*lows, *highs)) + room + _over(seen) if highs else most


def likely(seen: Seen) -> tuple[float, float]:
    """Where the value lies that was probably meant: near the band and the limit."""
    lows, highs = _ends(seen.row)
    ends = (*lows, *highs)
    if not ends:
        return seen.kind.plausible or (float("-inf"), float("inf"))
    return min(ends) - _width(lows, highs), max(ends) + _width(lows, highs) + _over(seen)


def _over(seen: Seen) -> float:
    return OVERSIZE_MM if seen.bored and seen.kind.key in OVERSIZED else 0.0


def _ends(row: LimitRow | None) -> tuple[tuple[float, ...], tuple[float, ...]]:
    if row is None:
        return (), ()
    lows = tuple(v for v in (row.new_low, row.least) if v is not None)
    return lows, tuple(v for v in (row.new_high, row.most) if v is not None)


def _within(value: float, row: LimitRow | None) -> bool:
    """Whether a value lies between the ends that the book prints, limits included."""
    ends = [end for side in _ends(row) for end in side]
    return bool(ends) and min(ends) <= value <= max(ends)


def _width(lows: tuple[float, ...], highs: tuple[float, ...]) -> float:
    """How wide band and limit are together; a quarter of the one end that the book has (common practice)."""
    ends = (*lows, *highs)
    if lows and highs:
        return max(max(ends) - min(ends), 0.001 * abs(max(ends)))
    return 0.25 * max((abs(end) for end in ends), default=0.0)


def slip_of(seen: Seen) -> Slip | None:
    """What this reading would be a slip of, or nothing."""
    value, (low, high) = seen.size.value, believed(seen)
    too_fine = not seen.origin and 0.0 < value < seen.step / 2.0
    if low <= value <= high and not too_fine:
        return _mistaken(seen) if _unlike(seen) else None
    least, most = likely(seen)
    meant = [s for s in _meanings(seen) if s.meant is not None and least <= s.meant <= most]
    if meant:
        return next((s for s in meant if s.meant is not None and _within(s.meant, seen.row)), meant[0])
    if other := _mistaken(seen):
        return other
    if seen.kind.plausible and not seen.kind.plausible[0] <= value <= seen.kind.plausible[1]:
        return Slip(key="implausible")
    return Slip(key="beyond_the_book") if _wears(seen.row) and not low <= value <= high else None


def _wears(row: LimitRow | None) -> bool:
    """Whether the row says both what is new and what is worn, so that it bounds what the part can be."""
    if row is None or row.new is None or row.own or row.least is row.most is None:
        return False
    return CHARACTERISTICS[row.of].rule == "wear"


def _unlike(seen: Seen) -> bool:
    """Whether it lies where no wear brings it, or is worn out by this row: then it may be another part's."""
    row, value = seen.row, seen.size.value
    if row is None or not _wears(row) or row.new_low is None or row.new_high is None or _over(seen):
        return False
    room = UNWORN * (row.new_high - row.new_low)
    low = row.least if row.least is not None else row.new_low - room
    high = row.most if row.most is not None else row.new_high + room
    return not low <= value <= high


def _mistaken(seen: Seen) -> Slip | None:
    """The part of the book that it fits: near this row only the same on another side, as new; far from it any, worn too."""
    value, (low, high) = seen.size.value, believed(seen)
    far = not low <= value <= high
    for name, row in seen.others:
        same = seen.row is not None and row.of == seen.row.of
        new = row.new_low is not None and row.new_high is not None and row.new_low <= value <= row.new_high
        if (same and new) or (far and _within(value, row)):
            return Slip(key="other_part", other=name)
    return None


def _meanings(seen: Seen) -> Iterator[Slip]:
    """Slips of the decimal sign, the unit and the digits, the likeliest first: what the unit and the gauge's step tell."""
    size, origin = seen.size, seen.origin
    off = size.value - origin
    inch, mm = (
        Slip(key="inch_for_mm", meant=origin + off * INCH_MM),
        Slip(key="mm_for_inch", meant=origin + off / INCH_MM),
    )
    in_inches, finer = size.unit in ("in", "thou"), not origin and 0.0 < size.step < 0.9 * seen.step
    yield from (mm,) if in_inches else (inch,) if finer else ()
    for factor, key in ((10.0, "ten_times_off"), (100.0, "hundred_times_off"), (1000.0, "thousand_times_off")):
        yield Slip(key=key, meant=origin + off / factor)
        yield Slip(key=key, meant=origin + off * factor)
    yield inch
    if not origin and size.number and "/" not in size.text:
        scale = size.value / float(size.number)
        lead = "0" if abs(size.number) >= 1 and size.text.strip().startswith("0") else ""
        for other in _swapped(f"{lead}{abs(size.number):f}"):
            yield Slip(key="digits_swapped", meant=other * scale)
    yield mm


def _swapped(text: str) -> Iterator[float]:
    """The numbers that come of exchanging two digits that stand side by side, a decimal sign between them or not."""
    places = [n for n, c in enumerate(text) if c.isdigit()]
    for one, other in pairwise(places):
        if text[one] != text[other]:
            yield float(text[:one] + text[other] + text[one + 1 : other] + text[one] + text[other + 1 :])


def ask(where: str, slip: Slip, typed: str, kind: Measurand) -> Asked:
    """The question for a slip."""
    what = said(WORDS[slip.key].template, name=kind.name, typed=typed, other=slip.other)
    if slip.meant is not None:
        meant = f"{slip.meant:.6g} {kind.unit}"
        remedy = said("Did you mean {meant}? Type it again, or confirm {key}.", meant=meant, key=slip.key)
    elif slip.other:
        remedy = said("Look which one you hold, measure it again, or confirm {key}.", key=slip.key)
    else:
        remedy = said("Look again, or confirm {key}.", key=slip.key)
    return Asked(Problem(where=where, what=what, remedy=remedy), slip)
