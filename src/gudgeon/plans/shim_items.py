"""Every shim that a valve could get: its own, one under another open valve, a spare of this job, the shelf, the shop."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from gudgeon.book.engine import ShimSystem
from gudgeon.metrology.known import Known
from gudgeon.plans.evidence import Evidence, by_mark
from gudgeon.plans.shape import Given
from gudgeon.shelf.stock import ShimStock

From = Literal["slot", "spare", "shelf", "buy"]
#: Where the book names no sizes: steps of 0.05 mm, the usual ones (common practice, no source).
USUAL_STEP_MM = 0.05
#: Two sizes closer than this are one size, in mm.
SAME_MM = 0.0005


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One shim that may be fitted: `shim` is a part's id, or the size where it is no part yet; `measured` or by its mark."""

    origin: From
    shim: str
    size_mm: float
    known: Known
    valve: str = ""
    measured: bool = False


def shim_slots(given: Given) -> tuple[str, ...]:
    """The valves whose lash is set by a shim."""
    return tuple(v for v in given.state.anatomy.valves if given.state.anatomy.has(f"{v}/shim"))


def system_of(given: Given, valve: str) -> ShimSystem | None:
    """The shims on sale for a valve."""
    return given.book.shims_for("in" if ".in" in valve else "ex")


def items_for(evidence: Evidence, valves: tuple[str, ...]) -> tuple[Item, ...]:
    """Everything that lies in reach of these valves, which share one system; sizes to be bought are added a valve."""
    return (
        *_in_slots(evidence, valves),
        *_spares(evidence),
        *_on_shelf(evidence, system_of(evidence.given, valves[0])),
    )


def _in_slots(evidence: Evidence, valves: tuple[str, ...]) -> Iterable[Item]:
    for valve in valves:
        part = evidence.state.slots.get(f"{valve}/shim")
        thickness = evidence.thickness(part) if part else None
        if part and thickness and thickness.known:
            yield Item(origin="slot", shim=part, size_mm=thickness.known.value, known=thickness.known, valve=valve,
                       measured=thickness.how == "measured")  # fmt: skip


def _spares(evidence: Evidence) -> Iterable[Item]:
    """Shims of this job that stand in no slot: received, or left over."""
    standing = {part for part in evidence.state.slots.values() if part}
    for part, row in evidence.state.parts.items():
        if row.kind != "shim" or part in standing or part in evidence.state.unusable:
            continue
        thickness = evidence.thickness(part)
        if thickness.known:
            yield Item(origin="spare", shim=part, size_mm=thickness.known.value, known=thickness.known,
                       measured=thickness.how == "measured")  # fmt: skip


def _on_shelf(evidence: Evidence, system: ShimSystem | None) -> Iterable[Item]:
    for row in evidence.given.shelf.shims:
        if not _fits(row, system):
            continue
        for n in range(row.count):
            label = f"shelf shim {row.size.text} {n + 1}"
            yield Item(
                origin="shelf", shim=row.size.text, size_mm=row.thickness_mm, known=by_mark(row.thickness_mm, label),
                measured=row.measured is not None,
            )  # fmt: skip


def _fits(row: ShimStock, system: ShimSystem | None) -> bool:
    """Whether a shim of the drawer belongs to this system: by its diameter where both say one."""
    wanted = system.diameter if system else None
    return row.diameter is None or wanted is None or abs(row.diameter.value - wanted.value) < SAME_MM


def sizes_on_sale(system: ShimSystem | None, wanted_mm: Iterable[float]) -> tuple[float, ...]:
    """Every size that can be bought; without a book, the usual steps around what is wanted."""
    if system is not None:
        return system.sizes()
    near = {round(w / USUAL_STEP_MM) + n for w in wanted_mm for n in (-1, 0, 1)}
    return tuple(round(n * USUAL_STEP_MM, 4) for n in sorted(near) if n > 0)


def bought(size_mm: float, valve: str) -> Item:
    """A new shim of a size, for a valve: as thick as its mark within what shims are made to."""
    return Item(origin="buy", shim=f"{size_mm:.3f}".rstrip("0"), size_mm=size_mm,
                known=by_mark(size_mm, f"new shim of {valve}"), valve=valve)  # fmt: skip
