"""A torque that no wrench of the shelf is proved at cannot be evidence: a 10–60 wrench is unproven below 12."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "wrench_reach"
NAME = "torques within the wrenches of the shelf"
WHY = "It is known before the head is on that a wrench must be borrowed."
NEEDS_SHELF = True


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Every stage of every fastener against the proved part of each wrench."""
    if shelf is None or not shelf.wrenches:
        return
    for row in rows.fasteners:
        for stage in row.torque:
            if shelf.wrench_for(stage.value) is None:
                reach = "; ".join(f"{w.id} {w.proved_from:g}–{w.high.value:g} N·m" for w in shelf.wrenches)
                yield found("warning", row.line, row.name, "No wrench here is proved at {torque}.",
                            "Borrow one, or note who tightened it and with what.", reach, torque=str(stage))  # fmt: skip
                break
