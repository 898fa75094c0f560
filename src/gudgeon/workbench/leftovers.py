"""What a job leaves over goes to the shelf by its number, so that the next job does not order it again.

It is offered when the job ends and booked when somebody says that it lies there: a parcel that nobody finds is no stock.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.job.entries import PartFitted
from gudgeon.plans.kinds.order import came
from gudgeon.plans.shape import Given, Plan
from gudgeon.problem import refuse
from gudgeon.shelf.write import with_row
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.shelving import shelf_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """Pieces of one number that came for a job and stand nowhere."""

    number: str
    name: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class OnShelf:
    """Pieces of one number that lie on the shelf and fit this engine, with the kind that they are received as."""

    number: str
    name: str
    kind: str
    count: int


def left(bench: Workbench, number: str) -> tuple[Left, ...]:
    """What came and was not fitted, less what of it is on the shelf already; shims go back by themselves, as measured."""
    worked = bench.worked(number)
    given, kept = worked.given, Counter[str]()
    for row in given.shelf.leftovers:
        kept[row.number] += 1 if row.job == number else 0
    used = _used(given, next((p for p in worked.plans if p.key == "order"), None))
    found = [(n, count - used[n]) for n, count in came(given).items() if not kept[n] and not _is_shim(given, n)]
    return tuple(Left(number=n, name=_name(given, n), count=count) for n, count in found if count > 0)


def keep(bench: Workbench, number: str, counts: Mapping[str, str]) -> int:
    """Book what lies there to the shelf, all or nothing; how many kinds of parts."""
    if not bench.worked(number).given.state.closed:
        raise refuse(f"job {number}", "It is still open: what came may yet be fitted.", "Close it first.")
    offered = {one.number: one for one in left(bench, number)}
    rows = []
    for one in (o for o in offered.values() if counts.get(o.number, "").strip() not in ("", "0")):
        typed = counts[one.number].strip()
        if not (typed.isascii() and typed.isdigit()) or int(typed) > one.count:
            raise refuse(one.number, "{typed} of {count} left over cannot be.", "Count what lies there: 0 to {count}.",
                         typed=typed, count=one.count)  # fmt: skip
        rows.append({"number": one.number, "name": one.name, "count": str(int(typed)), "state": "new", "job": number})
    text = shelf_text(bench)
    for row in rows:
        text = with_row(text, "leftover", row)
    bench.put_shelf(text)
    return len(rows)


def on_shelf(given: Given) -> tuple[OnShelf, ...]:
    """Parts left over from other jobs that the book has a place for."""
    counts = Counter[str]()
    for row in given.shelf.leftovers:
        counts[row.number] += row.count
    found = []
    for number, count in counts.items():
        part = given.book.part(number)
        slots = [given.state.anatomy.slots[s] for s in (part.slots if part else ()) if s in given.state.anatomy.slots]
        if part is not None and count and slots:
            found.append(OnShelf(number=number, name=part.name, kind=slots[0].kind, count=count))
    return tuple(found)


def _used(given: Given, order: Plan | None) -> Counter[str]:
    """Pieces that are or were in the engine, or are spoilt, by number: as the order list counts them, or one by one."""
    fitted, standing = Counter[str](), Counter[str]()
    for line in order.lines if order else ():
        cells = dict(line.numbers)
        if cells["status"] == "fitted":
            fitted[str(cells["number"])] += int(float(cells["count"] or 0))
    once = {e.typed.body.part for e in given.state.entries
            if isinstance(e.typed.body, PartFitted) and e.typed.id not in given.state.retracted}  # fmt: skip
    for part in given.state.parts.values():
        if part.received and part.number and (part.id in once or part.id in given.state.unusable):
            standing[part.number] += 1
            row = given.book.part(part.number)
            if row is not None and row.kit:
                standing[row.kit] = max(standing[row.kit], 1)
    return fitted | standing


def _is_shim(given: Given, number: str) -> bool:
    part = given.book.part(number)
    return part is not None and bool(part.slots) and all(slot.endswith("/shim") for slot in part.slots)


def _name(given: Given, number: str) -> str:
    part = given.book.part(number)
    return part.name if part else number
