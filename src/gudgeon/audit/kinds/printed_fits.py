"""Parts make the clearance: what the book prints for a fit must follow from what it prints for its two parts."""

from collections.abc import Iterable

from gudgeon.audit.shape import Finding, found, half_steps, mm
from gudgeon.book.book import Rows
from gudgeon.book.limits import LimitRow
from gudgeon.shelf.parse import Shelf

KEY = "printed_fits"
NAME = "parts reproduce the printed clearance"
WHY = "A misprint in a part's size shows as a fit that its parts cannot make."

#: Fit: what encloses, less what is enclosed.
FITS = {
    "stem_guide_clearance": ("guide_bore", "stem_diameter"),
    "piston_clearance": ("bore_diameter", "piston_diameter"),
    "pin_piston_clearance": ("pin_bore", "pin_diameter"),
    "pin_rod_clearance": ("small_end_bore", "pin_diameter"),
    "follower_clearance": ("follower_bore", "shaft_diameter"),
}


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Least bore less largest shaft, and largest bore less least shaft, against the printed ends."""
    for row in rows.limits:
        if row.of not in FITS or row.new is None or "wobble" in row.method:
            continue
        outer, inner = (_of(rows, key, row.side) for key in FITS[row.of])
        if outer is None or inner is None or outer.new is None or inner.new is None:
            continue
        for end, printed, bore, shaft in (
            ("least", row.new[0], outer.new[0], inner.new[1]),
            ("largest", row.new[1], outer.new[1], inner.new[0]),
        ):
            made = float(bore.exact - shaft.exact)
            if abs(made - printed.value) > half_steps(bore, shaft, printed):
                yield found("error", row.line, row.address, "The parts make a {end} clearance of {made}, not {printed}.",
                            "One of the three numbers is a misprint: look at all three.",
                            f"{bore} − {shaft} = {mm(made)}", end=end, made=mm(made), printed=str(printed))  # fmt: skip


def _of(rows: Rows, key: str, side: str) -> LimitRow | None:
    return next((r for wanted in (side, "") for r in rows.limits if r.of == key and r.side == wanted), None)
