"""The squish follows from deck, gasket and recess: a gap the sizes cannot make is a lost digit in one of them."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found, mm
from gudgeon.book.book import Rows
from gudgeon.mechanics.volumes import squish_mm
from gudgeon.problem import Refused
from gudgeon.shelf.parse import Shelf

KEY = "squish_gap"
NAME = "squish follows from deck and gasket"
WHY = "Piston against head is the dearest misprint of all."
CLOSE_MM = 0.15  # rod, crank, deck and gasket each vary by some hundredths: common practice, no source


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Deck, crushed gasket and recess against the new range of the squish."""
    size, row = rows.geometry, rows.limit_for("squish", "c1")
    if row is None or row.new_low is None or row.new_high is None or size.deck is None or size.gasket_thickness is None:
        return
    recess = size.recess.value if size.recess is not None else 0.0
    try:
        made = squish_mm(size.deck.value, size.gasket_thickness.value, recess)
    except Refused as refused:
        yield found("error", size.line, "geometry", "{words}", "Look at deck and gasket.",
                    words=str(refused.problems[0]))  # fmt: skip
        return
    if not row.new_low - CLOSE_MM <= made <= row.new_high + CLOSE_MM:
        yield found("warning", row.line, row.address, "Deck and gasket make {made}, outside the new range.",
                    "Deck, gasket, recess or range is a misprint.",
                    f"{size.deck} + {size.gasket_thickness} + {recess:g} mm = {mm(made, 2)}", made=mm(made, 2))  # fmt: skip
