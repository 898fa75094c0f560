"""Locker does not hold on oil: one of the two on a thread is a misprint, and a sprocket bolt comes loose by it."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "oil_and_locker"
NAME = "oil and locker never on one thread"
WHY = "Cam, chain and casting were lost to bolts that came loose after locker on oil."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """A thread that is oiled, or not degreased, and locked."""
    for row in rows.fasteners:
        if not row.locker or row.locker == "none":
            continue
        if row.thread_state in ("oil", "paste"):
            yield found("error", row.line, row.name, "{state} and locker stand on one thread.",
                        "Ask which of the two the maker means; locker wants both threads degreased.",
                        state=row.thread_state)  # fmt: skip
        elif row.thread_state != "degreased":
            yield found("warning", row.line, row.name, "Locker on a thread that is not said to be degreased.",
                        'Write thread_state = "degreased" if the book means it.')  # fmt: skip
