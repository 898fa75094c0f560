"""Slips are caught at entry: the reading is asked again with its likely meaning, never changed.

What a worn or new part can be follows from the book's row; without one only what no such part can be is asked.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from gudgeon.book.limits import LimitRow
from gudgeon.measurands.shape import Measurand
from gudgeon.problem import Problem, Refused, said
from gudgeon.units import Quantity

INCH_MM = 25.4
#: How far beyond band and wear limit a part may still be believed, in widths of band and limit (common practice).
BELIEVED = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """A likely slip: its key, which a confirming hand repeats, and the value that was probably meant."""

    key: str
    words: str
    meant: float | None


class Asked(Refused):
    """A reading that is asked again; it lands only when the same slip is confirmed."""

    def __init__(self, problem: Problem, slip: Slip) -> None:
        super().__init__(problem)
        self.slip = slip


def believed(row: LimitRow | None, kind: Measurand) -> tuple[float, float]:
    """The values a part of this engine may show; open on the side on which the book has no end."""
    least, most = kind.plausible or (float("-inf"), float("inf"))
    lows, highs = _ends(row)
    room = BELIEVED * _width(lows, highs)
    floor = 0.0 if kind.dimension in ("length", "force", "pressure", "percent") else float("-inf")
    low = max(min((*lows, *highs)) - room, floor) if lows else min(least, floor) if highs else least
    return low, max((*lows, *highs)) + room if highs else most


def likely(row: LimitRow | None, kind: Measurand) -> tuple[float, float]:
    """Where the value lies that was probably meant: near the band and the limit."""
    lows, highs = _ends(row)
    ends = (*lows, *highs)
    if not ends:
        return kind.plausible or (float("-inf"), float("inf"))
    return min(ends) - _width(lows, highs), max(ends) + _width(lows, highs)


def _ends(row: LimitRow | None) -> tuple[tuple[float, ...], tuple[float, ...]]:
    if row is None:
        return (), ()
    lows = tuple(v for v in (row.new_low, row.least) if v is not None)
    return lows, tuple(v for v in (row.new_high, row.most) if v is not None)


def _width(lows: tuple[float, ...], highs: tuple[float, ...]) -> float:
    """How wide band and limit are together; a quarter of the one end that the book has (common practice)."""
    ends = (*lows, *highs)
    if lows and highs:
        return max(max(ends) - min(ends), 0.001 * abs(max(ends)))
    return 0.25 * max((abs(end) for end in ends), default=0.0)


def slip_of(size: Quantity, typed: str, row: LimitRow | None, kind: Measurand, origin: float = 0.0) -> Slip | None:
    """What this reading would be a slip of, or nothing; `origin` is the master that a deviation counts from."""
    value, (low, high) = size.value, believed(row, kind)
    if low <= value <= high:
        return None
    least, most = likely(row, kind)
    for slip in _likely(size, typed, origin):
        if slip.meant is not None and least <= slip.meant <= most:
            return slip
    if kind.plausible and not kind.plausible[0] <= value <= kind.plausible[1]:
        return Slip(key="implausible", words="No such part shows this", meant=None)
    return None


def _likely(size: Quantity, typed: str, origin: float) -> Iterator[Slip]:
    off = size.value - origin
    for factor, words in ((10.0, "ten times off"), (100.0, "a hundred times off"), (1000.0, "a thousand times off")):
        key = words.replace(" ", "_").removeprefix("a_")
        yield Slip(key=key, words=f"It looks {words}", meant=origin + off / factor)
        yield Slip(key=key, words=f"It looks {words}", meant=origin + off * factor)
    yield Slip(key="inch_for_mm", words="It looks like inches typed as millimetres", meant=origin + off * INCH_MM)
    yield Slip(key="mm_for_inch", words="It looks like millimetres typed as inches", meant=origin + off / INCH_MM)
    if not origin and size.number:
        scale = size.value / float(size.number)
        for other in _swapped(typed):
            yield Slip(key="digits_swapped", words="Two digits look swapped", meant=other * scale)


def _swapped(typed: str) -> Iterator[float]:
    """The numbers that come of exchanging two digits that stand side by side, a decimal sign between them or not."""
    number = re.match(r"[0-9.,]+", typed.strip())
    text = number[0].replace(",", ".") if number else ""
    places = [n for n, c in enumerate(text) if c.isdigit()]
    for one, other in pairwise(places if text.count(".") < 2 else []):
        if text[one] != text[other]:
            yield float(text[:one] + text[other] + text[one + 1 : other] + text[one] + text[other + 1 :])


def ask(where: str, slip: Slip, typed: str, kind: Measurand) -> Asked:
    """The question for a slip."""
    meant = f"{slip.meant:.6g} {kind.unit}" if slip.meant is not None else ""
    what = said("{name} {typed}: {words}.", name=kind.name, typed=typed, words=slip.words)
    remedy = (
        said("Did you mean {meant}? Type it again, or confirm {key}.", meant=meant, key=slip.key)
        if meant
        else said("Look again, or confirm {key}.", key=slip.key)
    )
    return Asked(Problem(where=where, what=what, remedy=remedy), slip)
