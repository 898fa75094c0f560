"""A torque without the state of its thread is half a number: oil makes of it a third more preload."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "thread_state"
NAME = "torque with the state of thread and head"
WHY = "Dry values used on oiled threads have broken studs."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Fasteners with a thread and a torque whose thread or head state is not given."""
    for row in rows.fasteners:
        if row.torque and row.thread and not (row.thread_state and row.under_head):
            missing = [w for w, s in (("thread", row.thread_state), ("under the head", row.under_head)) if not s]
            yield found("warning", row.line, row.name, "It does not say whether it is dry or oiled: {missing}.",
                        "General tables mean dry and clean; write it down.", missing=", ".join(missing))  # fmt: skip
