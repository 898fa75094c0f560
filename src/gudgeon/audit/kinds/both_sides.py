"""A row for the intake alone is often half of a pair: two rows of one table both named intake."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "both_sides"
NAME = "intake beside exhaust"
WHY = "The exhaust would stay unjudged, and nobody would miss it."

#: What one side alone may have, where the other is opened by another kind of follower.
OF_FOLLOWERS = ("follower_bore", "follower_clearance", "shaft_diameter")


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Limits given for one side, with none for the other and none for both."""
    sides: dict[str, dict[str, int]] = {}
    unlike = rows.layout is not None and rows.layout.intake.follower != rows.layout.exhaust.follower
    for row in rows.limits:
        if unlike and row.of in OF_FOLLOWERS:
            continue
        sides.setdefault(row.of, {}).setdefault(row.side, row.line)
    for of, found_sides in sides.items():
        for side, other, name in (("in", "ex", "exhaust"), ("ex", "in", "intake")):
            if side in found_sides and not {other, ""} & set(found_sides):
                yield found("warning", found_sides[side], f"{of} {side}", "There is no row for the {name}.",
                            "Look whether a row of the table is named wrongly.", name=name)  # fmt: skip
