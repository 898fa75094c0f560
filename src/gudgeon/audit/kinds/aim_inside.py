"""The aim lies in its window, or every valve is set wrong."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "aim_inside"
NAME = "aim inside its window"
WHY = "A plan follows the aim."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Aims outside the lash window of their side."""
    for side in ("in", "ex"):
        aim, row = rows.aim(side), rows.limit_for("lash", f"c1.{side}")
        if aim is None or row is None or row.least is None or row.most is None:
            continue
        if not row.least <= aim <= row.most:
            yield found("error", rows.aims.line, f"aim {side}", "An aim of {aim} mm is outside the window.",
                        "Look at aim and window.", f"{row.least:g} to {row.most:g} mm in line {row.line}",
                        aim=f"{aim:g}")  # fmt: skip
