"""A wobble is not a clearance: a limit read with a dial at the open valve must say so, and how far it was open."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "wobble_method"
NAME = "wobble limits with their method"
WHY = "0.09 in the guide shows as 0.15 on the dial: against the other's limit a worn guide passes."
DIRECT_MOST = 0.20  # direct clearance limits are 0.07 to 0.13, wobble limits 0.3 to 0.4: common practice, no source


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Wobble rows without a method, and clearance rows that look like a wobble."""
    for row in rows.limits:
        if row.of == "wobble" and not row.method:
            yield found("warning", row.line, row.address, "A wobble limit without its method.",
                        "Write how far the valve is open and where the dial stands.")  # fmt: skip
        elif row.of == "stem_guide_clearance" and "wobble" in row.method:
            yield found("error", row.line, row.address, "A wobble limit stands under the clearance.",
                        'Give it as of = "wobble": the two are not comparable.')  # fmt: skip
        elif row.of == "stem_guide_clearance" and row.most is not None and row.most > DIRECT_MOST:
            yield found("warning", row.line, row.address, "{most} is large for a clearance: is it a wobble?",
                        'If the book reads it with a dial, give it as of = "wobble" with its method.',
                        f"{row.typed_most} > {DIRECT_MOST:.2f} mm", most=str(row.typed_most))  # fmt: skip
