"""The number of sizes follows from smallest, largest and step: "25 sizes" of 1.20 to 2.20 by 0.05 are 21."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "shim_count"
NAME = "count of shims against their range"
WHY = "A wrong end of the range plans a shim that nobody sells."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """The count the book claims, and a step that does not end at the largest."""
    for system in rows.shim_systems:
        where = f"shims {system.side}".strip()
        steps = (system.largest.exact - system.smallest.exact) / system.step.exact
        if steps.denominator != 1:
            yield found("warning", system.line, where, "Steps of {step} do not end at {largest}.",
                        "Look at the range and the step.", f"{float(steps):.2f} steps",
                        step=str(system.step), largest=str(system.largest))  # fmt: skip
        made = len(system.sizes())
        if system.count is not None and system.count != made:
            yield found("error", system.line, where, "The book claims {count} sizes; the range has {made}.",
                        "An end of the range, the step or the count is a misprint.",
                        f"({system.largest.number} − {system.smallest.number}) / {system.step.number} + 1 = {made}",
                        count=system.count, made=made)  # fmt: skip
