"""A limit in words alone ("nicks or scratches") cannot be measured: it needs eyes, and a finding in the job."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "no_number"
NAME = "limits have a number"
WHY = "Without one nothing can be proven; the workshop decides by looking and says so."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Rows of sizes with words only, and rows with a new range but no limit."""
    for row in rows.limits:
        if row.dimension == "words" or row.least is not None or row.most is not None:
            continue
        if row.words:
            yield found("warning", row.line, row.address, "The limit is words only: {words}.",
                        "Judge it by eye and write a finding; ask the maker for a number.", words=row.words)  # fmt: skip
        else:
            yield found("warning", row.line, row.address, "A new range, but no wear limit.",
                        "A used part can be as new or not; nothing says when it is past.")  # fmt: skip
