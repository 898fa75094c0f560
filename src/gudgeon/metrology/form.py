"""Shape of a bore from a handful of diameters: what a workshop can read without turning the part on a spindle."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from gudgeon.metrology.extremes import extreme, spread_between
from gudgeon.metrology.known import Known
from gudgeon.problem import refuse


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreReading:
    """One diameter: at which level, in which direction."""

    level: str
    direction: str
    size: Known


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A form deviation as read, the same with its law, and the level or direction where it was read.

    `as_read` is largest less smallest reading. `law` is what the true sizes make of it: its mean lies above `as_read`, because doubt
    only ever adds to a spread.
    """

    as_read: float
    law: Known
    where: str


def out_of_round(readings: Sequence[BoreReading]) -> Shape:
    """Largest difference of two directions at one level; three lobes escape it (see `roundness`).

    Notes
    -----
    max over levels of (D_max - D_min at that level). The gauge's own error cancels. Two directions at one level or more.
    Source: common practice, no source; laws from `extremes`.

    Examples
    --------
    >>> at = [("top", "x", 88.021), ("top", "y", 88.008), ("bottom", "x", 88.010), ("bottom", "y", 88.007)]
    >>> bore = [BoreReading(level=l, direction=d, size=Known(value=v)) for l, d, v in at]
    >>> round(out_of_round(bore).as_read, 3), out_of_round(bore).where
    (0.013, 'top')
    """
    return _widest(readings, lambda each: each.level, "out-of-round", "Read two directions at one level.")


def taper(readings: Sequence[BoreReading]) -> Shape:
    """Largest difference of two levels in one direction.

    Notes
    -----
    max over directions of (D_max - D_min along that direction). Two levels in one direction or more.
    Source: common practice, no source; laws from `extremes`.

    Examples
    --------
    >>> at = [("top", "x", 88.021), ("top", "y", 88.008), ("bottom", "x", 88.010), ("bottom", "y", 88.007)]
    >>> bore = [BoreReading(level=l, direction=d, size=Known(value=v)) for l, d, v in at]
    >>> round(taper(bore).as_read, 3), taper(bore).where
    (0.011, 'x')
    """
    return _widest(readings, lambda each: each.direction, "taper", "Read two levels in one direction.")


def _widest(readings: Sequence[BoreReading], key: Callable[[BoreReading], str], name: str, remedy: str) -> Shape:
    groups: dict[str, list[Known]] = {}
    for each in readings:
        groups.setdefault(key(each), []).append(each.size)
    pairs = {where: sizes for where, sizes in groups.items() if len(sizes) > 1}
    if not pairs:
        raise refuse("readings", "There are no two that can be compared for {name}.", remedy, name=name)
    spans = {where: max(s.value for s in sizes) - min(s.value for s in sizes) for where, sizes in pairs.items()}
    where = max(spans, key=lambda each: spans[each])
    laws = [spread_between(sizes, f"{name} {at}") for at, sizes in pairs.items()]
    return Shape(as_read=spans[where], law=extreme(laws, "largest", name), where=where)
