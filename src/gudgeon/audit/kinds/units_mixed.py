"""One page, one unit: a row in inches on a page of millimetres is a row that was read in the wrong column."""

from collections import Counter
from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.book.limits import LimitRow
from gudgeon.shelf.parse import Shelf

KEY = "units_mixed"
NAME = "one unit within a table"
WHY = "The eye runs down a column and takes the unit of its head."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Rows of a page in another unit than most of that page, each dimension for itself."""
    tables: dict[tuple[str, str], Counter[str]] = {}
    for row in rows.limits:
        for unit in _units(row):
            tables.setdefault((row.page, row.dimension), Counter())[unit] += 1
    for row in rows.limits:
        used = _units(row)
        table = tables.get((row.page, row.dimension), Counter())
        usual = table.most_common(1)[0][0] if table else ""
        others = sorted(used - {usual})
        if others:
            yield found("warning", row.line, row.address, "It is in {others}, the rest of the page in {usual}.",
                        "Look whether the column is the right one.",
                        ", ".join(f"{n} × {u}" for u, n in table.most_common()),
                        others=", ".join(others), usual=usual)  # fmt: skip


def _units(row: LimitRow) -> set[str]:
    sizes = (*(row.new or ()), row.typed_least, row.typed_most)
    return {size.unit for size in sizes if size is not None}
