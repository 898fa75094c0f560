"""A new part that is already worn out is a misprint: the new range lies inside the wear limit."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "new_inside_limit"
NAME = "new range inside wear limit"
WHY = "Both numbers stand in one row, and the one with the lost digit decides over a part."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Each end of the new range against the limit on its side."""
    for row in rows.limits:
        if row.new is None:
            continue
        low, high = row.new
        if row.typed_least is not None and low.exact < row.typed_least.exact:
            yield found("error", row.line, row.address, "New from {end}, yet least {limit}.",
                        "One of the two is a misprint: look at the page.", f"{low} < {row.typed_least}",
                        end=str(low), limit=str(row.typed_least))  # fmt: skip
        if row.typed_most is not None and high.exact > row.typed_most.exact:
            yield found("error", row.line, row.address, "New up to {end}, yet most {limit}.",
                        "One of the two is a misprint: look at the page.", f"{high} > {row.typed_most}",
                        end=str(high), limit=str(row.typed_most))  # fmt: skip
