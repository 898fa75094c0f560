"""A limit at the edge of the new range leaves no wear: it may be meant, and may be the wrong column."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "limit_at_edge"
NAME = "limit apart from the band's edge"
WHY = "A part at the low end of new would be past its limit after the first hour."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """A wear limit equal to the end of the new range on its side."""
    for row in rows.limits:
        if row.new is None:
            continue
        for end, limit in ((row.new[0], row.typed_least), (row.new[1], row.typed_most)):
            if limit is not None and end.exact == limit.exact:
                yield found("warning", row.line, row.address, "The limit {limit} is the edge of the new range.",
                            "Meant so, or copied from the wrong column? A reading just on it needs the workshop's rule.",
                            f"{end} = {limit}, no room for wear", limit=str(limit))  # fmt: skip
