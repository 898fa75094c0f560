"""A mark of two digits drops the whole number: 50 is 2.50 and also 3.50."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "shim_marks"
NAME = "a shim's mark means one size"
WHY = "A shim a millimetre too thick holds its valve open."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Marks that two sizes share."""
    for system in rows.shim_systems:
        if system.mark == "none":
            continue
        first: dict[str, float] = {}
        for size in system.sizes():
            other = first.setdefault(system.marked(size), size)
            if size - other > 0.5:
                yield found("warning", system.line, f"shims {system.side}".strip(), "The mark {mark} means two sizes.",
                            "Measure every shim; the mark does not tell them apart.", f"{other:.2f} mm and {size:.2f} mm",
                            mark=system.marked(size))  # fmt: skip
                break
