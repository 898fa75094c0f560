"""A remedy the material forbids ruins the part: coated valves are never lapped, plated bores never bored or honed."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found
from gudgeon.book.book import Rows
from gudgeon.book.limits import LimitRow
from gudgeon.shelf.parse import Shelf

KEY = "forbidden_work"
NAME = "remedies that the material allows"
WHY = "One pass of paste through a coating ends a valve."

COATED = ("lap", "grind", "reface")
PLATED = ("hone", "rebore", "bore oversize")
OF_VALVES = ("seal_test", "contact", "seat_width", "valve_margin", "tip_height", "recession")
OF_BORES = ("bore_diameter", "piston_clearance", "out_of_round", "taper")


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Remedies of valve rows on coated sides, of bore rows in plated bores, and a deglaze rule against the plating."""
    layout = rows.layout
    if layout is None:
        return
    for row in rows.limits:
        coated = any(s.coated for n, s in (("in", layout.intake), ("ex", layout.exhaust)) if row.side in ("", n))
        if row.of in OF_VALVES and coated:
            yield from _forbidden(row, COATED, "coated valves")
        if row.of in OF_BORES and layout.bore == "plated":
            yield from _forbidden(row, PLATED, "a plated bore")
    if layout.bore == "plated" and rows.materials.deglaze == "hone":
        yield found("error", rows.materials.line, "materials", "A plated bore is to be deglazed with a hone.",
                    "Only by what the maker names; a stone cuts the nickel and rides on the carbide.")  # fmt: skip


def _forbidden(row: LimitRow, words: tuple[str, ...], what: str) -> Iterable[Finding]:
    for remedy in row.remedies:
        if any(piece.startswith(word) for word in words for piece in (remedy.lower(), *remedy.lower().split())):
            yield found("error", row.line, row.address, "The remedy {work} is not for {material}.",
                        "Take it out, or give the row to the other side.", work=remedy, material=what)  # fmt: skip
