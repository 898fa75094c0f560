"""The drawer follows the work: what is taken from it for a job comes off the count, what is left over goes back.

A shim goes back as measured, another part by its number.

A job's effect on the drawer is a pure function of its state; what an entry changes of it is booked when the entry lands, so
that retracting the entry books it back.
"""

from __future__ import annotations

from collections import Counter

from gudgeon.job.entries import Body, JobClosed, PartReceived, Retraction
from gudgeon.plans.evidence import Evidence, marked_mm, written_mm
from gudgeon.plans.shape import Given
from gudgeon.plans.shim_items import SAME_MM, system_of
from gudgeon.shelf.parse import Shelf, parse_shelf
from gudgeon.shelf.stock import ShimStock
from gudgeon.shelf.write import with_row

#: A shim's size by its mark, and as it was measured (0 where it was not), in µm: what a drawer tells apart.
Lot = tuple[int, int]
#: What a job moved: shims by lot, other parts by number.
Moved = tuple[Counter[Lot], Counter[str]]
#: Orders that mean: out of the drawer.
FROM_DRAWER = ("", "shelf")


def moves(body: Body) -> bool:
    """Whether an entry of this kind may change the drawer."""
    if isinstance(body, PartReceived):
        return body.kind == "shim" or body.order == "shelf"
    return isinstance(body, JobClosed | Retraction)


def effect(given: Given) -> Moved:
    """What a job did to the drawer so far: taken out, and, once it is closed, put back what stands nowhere."""
    return _shims(given), _parts(given)


def _parts(given: Given) -> Counter[str]:
    """Parts by number, but for shims."""
    state, found = given.state, Counter[str]()
    orders = {e.typed.id: getattr(e.typed.body, "order", "") for e in state.entries}
    standing = {part for part in state.slots.values() if part}
    for part, row in state.parts.items():
        if row.kind == "shim" or not row.received or not row.number or orders.get(part) != "shelf":
            continue
        back = state.closed and part not in standing and part not in state.unusable and not _given_up(given, part)
        found[row.number] -= 0 if back else 1
    return found


def _shims(given: Given) -> Counter[Lot]:
    state, found = given.state, Counter[Lot]()
    orders = {e.typed.id: getattr(e.typed.body, "order", "") for e in state.entries}
    drawn = {p.id for p in state.parts.values() if p.kind == "shim" and p.received and orders.get(p.id) in FROM_DRAWER}
    for part in drawn:
        if lot := _lot(given, part, measured=False):
            found[lot] -= 1
    if state.closed:
        standing = {part for part in state.slots.values() if part}
        for part, row in state.parts.items():
            if (
                row.kind == "shim"
                and part not in standing
                and part not in state.unusable
                and not _given_up(given, part)
            ):
                lot = _lot(given, part, measured=True)
                if lot and (lot[1] or part in drawn):
                    found[lot] += 1
    return found


def booked(text: str, before: Moved, after: Moved, given: Given) -> str:
    """The shelf's text with what changed between two states of a job."""
    for lot in sorted(set(before[0]) | set(after[0])):
        for _ in range(abs(after[0][lot] - before[0][lot])):
            text = _one(text, lot, 1 if after[0][lot] > before[0][lot] else -1, given)
    for number in sorted(set(before[1]) | set(after[1])):
        text = _count(text, number, after[1][number] - before[1][number])
    return text


def _count(text: str, number: str, change: int) -> str:
    """Parts of a number more or fewer: taken from rows that still have some, put back into the first."""
    for _ in range(abs(change)):
        rows = parse_shelf(text).leftovers
        index = next((n for n, r in enumerate(rows) if r.number == number and (change > 0 or r.count)), None)
        if index is not None:  # else it was in no drawer that was ever counted
            text = with_row(text, "leftover", {"count": str(rows[index].count + (1 if change > 0 else -1))}, index)
    return text


def _given_up(given: Given, part: str) -> bool:
    decided = given.state.dispositions.get(part)
    return decided is not None and decided[1].what == "renew"


def _lot(given: Given, part: str, *, measured: bool) -> Lot | None:
    """What a shim is in the drawer: by its mark, or by what is written of it, or as it was measured in this job."""
    row = given.state.parts[part]
    marked = marked_mm(row.mark) or written_mm(row.thickness)
    known = Evidence(given=given).thickness(part) if measured else None
    size = known.known.value if known and known.known and known.how == "measured" else None
    if marked is None and size is None:
        return None
    return round(1000 * (marked or size or 0.0)), round(1000 * size) if size is not None else 0


def _one(text: str, lot: Lot, step: int, given: Given) -> str:
    shelf = parse_shelf(text)
    index = _row(shelf, lot, step)
    if index is not None:
        return with_row(text, "shim", {"count": str(max(0, shelf.shims[index].count + step))}, index)
    if step < 0:
        return text  # it was in no drawer that was ever counted
    size, measured = lot
    cells = {"size": f"{size / 1000:.3f} mm", "count": "1", "where": _where(given)}
    if measured:
        cells["measured"] = f"{measured / 1000:.3f} mm"
    system = next((s for v in given.state.anatomy.valves if (s := system_of(given, v))), None)
    if system is not None and system.diameter is not None:
        cells["diameter"] = str(system.diameter)
    return with_row(text, "shim", cells)


def _row(shelf: Shelf, lot: Lot, step: int) -> int | None:
    """The row of a lot: as measured where it was; else the mark's, one that still has some when one is taken."""
    size, measured = lot
    if measured:
        return next((n for n, row in enumerate(shelf.shims) if row.measured and _same(row.measured.value, measured)
                     and _same(row.size.value, size)), None)  # fmt: skip
    marked = [n for n, row in enumerate(shelf.shims) if _same(row.size.value, size)]
    marked.sort(key=lambda n: _rank(shelf.shims[n], step))
    return next(iter(marked), None)


def _rank(row: ShimStock, step: int) -> tuple[bool, bool]:
    return (step < 0 and row.count == 0, row.measured is not None)


def _same(size_mm: float, size_um: int) -> bool:
    return abs(size_mm - size_um / 1000.0) < SAME_MM


def _where(given: Given) -> str:
    return f"came out in job {given.state.opened.number}" if given.state.opened else ""
