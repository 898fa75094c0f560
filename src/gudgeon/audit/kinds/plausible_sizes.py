"""A size that no such part has is a lost decimal or another column."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.shelf.parse import Shelf

KEY = "plausible_sizes"
NAME = "sizes that such a part can have"
WHY = "Ten times off in the book is ten times off at every reading."

#: Clearances in mm, new or worn, of small engines: common practice, no source.
DERIVED = {
    "stem_guide_clearance": (0.003, 0.6),
    "out_of_round": (0.0, 0.2),
    "taper": (0.0, 0.2),
    "piston_clearance": (0.003, 0.3),
    "pin_piston_clearance": (0.0, 0.1),
    "pin_rod_clearance": (0.0, 0.15),
    "follower_clearance": (0.003, 0.2),
}
#: Wear allowed beyond the new range, as a multiple of its high end: a clearance grows, it does not grow tenfold.
MOST_GROWTH = 8.0
GROWING = (*DERIVED, "side_clearance", "journal_clearance")


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Every number against what such parts can be, and every clearance limit against its own new range."""
    for row in rows.limits:
        kind = MEASURANDS.get(row.of)
        span = DERIVED.get(row.of) or (kind.plausible if kind else None)
        sizes = (*(row.new or ()), row.typed_least, row.typed_most)
        outside = [s for s in sizes if s is not None and span and not span[0] <= s.value <= span[1]]
        if outside and span:
            yield found("warning", row.line, row.address, "{sizes} is no size of it.",
                        "A decimal lost, or another unit? Look at the page.",
                        f"usual are {span[0]:g} to {span[1]:g} {row.unit}",
                        sizes=", ".join(str(s) for s in outside))  # fmt: skip
        elif row.of in GROWING and row.most and row.new_high and row.most > MOST_GROWTH * row.new_high > 0:
            yield found("warning", row.line, row.address, "The limit {limit} is far beyond the new range.",
                        "A decimal lost in one of them?", f"{row.most:g} / {row.new_high:g} = {row.most / row.new_high:.0f} ×",
                        limit=str(row.typed_most))  # fmt: skip
