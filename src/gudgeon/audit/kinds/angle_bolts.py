"""A bolt turned by an angle has yielded: it is never retightened, and hardly ever used without end."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "angle_bolts"
NAME = "torque-angle bolts"
WHY = "Stretch bolts used again clamp less each time, and leak or break."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Angle with a retightening rule is an error; angle without a renew rule is asked."""
    for row in rows.fasteners:
        if row.angle is None:
            continue
        if row.retighten != "never":
            yield found("error", row.line, row.name, "Turned by an angle of {angle} and retightened {rule}.",
                        "Torque-angle bolts are never retightened: look at the page.",
                        angle=str(row.angle), rule=row.retighten)  # fmt: skip
        if row.renew == "no":
            yield found("warning", row.line, row.name, "Turned by an angle of {angle}, and used without end?",
                        "Usually always new, once again, or by length: ask the maker.", angle=str(row.angle))  # fmt: skip
