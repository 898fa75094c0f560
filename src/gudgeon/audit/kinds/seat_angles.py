"""The angles of a seat widen downwards: the top cut is flatter than the contact, the throat steeper."""

from collections.abc import Iterable
from itertools import pairwise

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf

KEY = "seat_angles"
NAME = "seat angles in their order"
WHY = "Two cutters taken for each other move the contact the wrong way."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Top under contact under throat."""
    for seat in rows.seats:
        angles = [a for a in (seat.top, seat.contact, seat.throat) if a is not None]
        if any(a.exact >= b.exact for a, b in pairwise(angles)):
            yield found("error", seat.line, f"seat {seat.side}".strip(), "The angles do not rise from top to throat.",
                        "Top is flatter than the contact, the throat steeper.",
                        " – ".join(str(a) for a in angles))  # fmt: skip
