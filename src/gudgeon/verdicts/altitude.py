"""Printed compression figures are for sea level; a station in the mountains cranks thinner air."""

from __future__ import annotations

from gudgeon import units
from gudgeon.book.limits import LimitRow
from gudgeon.job.state import JobState
from gudgeon.mechanics.air import ambient_kpa
from gudgeon.problem import Refused

#: Standard ambient pressure at sea level, kPa (ISO 2533).
SEA_LEVEL_KPA = 101.325

Numbers = tuple[float | None, float | None, float | None, float | None]


def at_this_height(row: LimitRow, state: JobState) -> Numbers:
    """New range and limits of a row, those of compression as they read at the height of this job.

    The ratio of absolute pressures is kept: p = (p_book + p0)·p_a/p0 − p_a. Source: ideal gas, same ratio and exponent.
    """
    printed = (row.new_low, row.new_high, row.least, row.most)
    ambient = ambient_here(state) if row.of == "compression" else None
    if ambient is None:
        return printed
    moved = tuple(None if p is None else (p + SEA_LEVEL_KPA) * ambient / SEA_LEVEL_KPA - ambient for p in printed)
    return (moved[0], moved[1], moved[2], moved[3])


def ambient_here(state: JobState) -> float | None:
    """The standard pressure at the height of this job, kPa; nothing where no height is written down, or none that fits."""
    height = _height_m(state)
    try:
        return None if height is None else ambient_kpa(height)
    except Refused:
        return None


def _height_m(state: JobState) -> float | None:
    typed = state.opened.altitude if state.opened else ""
    if not typed:
        return None
    try:
        return units.read(typed, "length", unit="m").value / 1000.0
    except Refused:
        return None
