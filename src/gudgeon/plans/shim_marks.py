"""What is etched on a shim, read by the rule of its system; a short mark may mean two sizes, and guessing costs a cam off again."""

from __future__ import annotations

from collections.abc import Iterable

from gudgeon.book.engine import ShimSystem

#: A measured shim and the size its mark means agree within this, in mm: wear and making together (common practice, no source).
AGREE_MM = 0.03
#: Two sizes closer than this are one, in mm.
_SAME_MM = 0.0005


def decoded(mark: str, systems: Iterable[ShimSystem]) -> float | None:
    """The size that a mark says by the rule of its system; a mark shorter than the rule says nothing."""
    rules = tuple(systems)
    found = meanings(mark, rules)
    by_rule = len(mark.strip()) == 3 or all(system.mark == "two digits" for system in rules)
    return found[0] if by_rule and len(found) == 1 else None


def meanings(mark: str, systems: Iterable[ShimSystem]) -> tuple[float, ...]:
    """Every size that a mark may mean, the thinnest first; none where it says nothing.

    Three digits are hundredths of a millimetre: 185 is 1.85. Two digits are the last two of the hundredths where the
    system marks so; where it marks three, one was worn off or it is another maker's shim: 18 is 1.80 with its last digit
    gone, or x.18 with its first. Only sizes on sale count for a short mark; without a system nothing can be said.
    """
    digits = mark.strip()
    if not digits.isdigit():
        return ()
    if len(digits) == 3:
        return (int(digits) / 100.0,)
    if len(digits) != 2:
        return ()
    found = [size for system in systems for size in system.sizes() if _may_be(digits, size, system)]
    found = sorted(found)
    return tuple(s for n, s in enumerate(found) if n == 0 or s - found[n - 1] > _SAME_MM)


def _may_be(digits: str, size_mm: float, system: ShimSystem) -> bool:
    """Whether two digits may stand for a size on sale."""
    if system.mark == "none":
        return False
    hundredths = f"{round(size_mm * 100):03d}"
    return hundredths[-2:] == digits or (system.mark == "three digits" and hundredths[:2] == digits)


def agreeing(sizes: Iterable[float], measured_mm: float) -> float | None:
    """The meaning that a measured thickness agrees with; none where it agrees with no or with several of them."""
    near = [size for size in sizes if abs(size - measured_mm) <= AGREE_MM]
    return near[0] if len(near) == 1 else None
