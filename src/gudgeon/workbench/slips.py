"""Slips are caught at entry: the reading is asked again with its likely meaning, never changed.

What a worn or new part can be follows from the book's row; without one only what no such part can be is asked.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from gudgeon.book.limits import LimitRow
from gudgeon.measurands.shape import Measurand
from gudgeon.problem import Problem, Refused, said

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
    """The values a part of this engine may show."""
    ends = [] if row is None else [v for v in (row.new_low, row.new_high, row.least, row.most) if v is not None]
    if not ends:
        return kind.plausible or (float("-inf"), float("inf"))
    low, high = min(ends), max(ends)
    room = BELIEVED * max(high - low, 0.001 * abs(high))
    floor = 0.0 if kind.dimension in ("length", "force", "pressure", "percent") else float("-inf")
    return max(low - room, floor), high + room


def slip_of(value: float, typed: str, row: LimitRow | None, kind: Measurand, origin: float = 0.0) -> Slip | None:
    """What this reading would be a slip of, or nothing; `origin` is the master that a deviation counts from."""
    low, high = believed(row, kind)
    if low <= value <= high:
        return None
    for slip in _likely(value, typed, origin):
        if slip.meant is not None and low <= slip.meant <= high:
            return slip
    if kind.plausible and not kind.plausible[0] <= value <= kind.plausible[1]:
        return Slip(key="implausible", words="No such part shows this", meant=None)
    return None


def _likely(value: float, typed: str, origin: float) -> Iterator[Slip]:
    off = value - origin
    for factor, words in ((10.0, "ten times off"), (100.0, "a hundred times off"), (1000.0, "a thousand times off")):
        key = words.replace(" ", "_").removeprefix("a_")
        yield Slip(key=key, words=f"It looks {words}", meant=origin + off / factor)
        yield Slip(key=key, words=f"It looks {words}", meant=origin + off * factor)
    yield Slip(key="inch_for_mm", words="It looks like inches typed as millimetres", meant=origin + off * INCH_MM)
    yield Slip(key="mm_for_inch", words="It looks like millimetres typed as inches", meant=origin + off / INCH_MM)
    for other in _swapped(typed) if not origin else ():
        yield Slip(key="digits_swapped", words="Two digits look swapped", meant=other)


def _swapped(typed: str) -> Iterator[float]:
    digits = [n for n, c in enumerate(typed) if c.isdigit()]
    for one, other in pairwise(digits):
        if typed[one] != typed[other]:
            text = list(typed)
            text[one], text[other] = text[other], text[one]
            try:
                yield float("".join(text).split()[0].replace(",", "."))
            except ValueError:
                continue


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
