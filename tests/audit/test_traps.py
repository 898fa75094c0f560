"""The traps of real books, each by its name and with its own figures: the audit says which number cannot be right.

The figures were read in printed manuals and government handbooks (a trade survey); the ones on the bench side of a trap are
in `tests/verdicts/test_traps_at_the_bench.py`.
"""

from __future__ import annotations

import pytest
from audit_book import BOOK

from gudgeon.audit import audit
from gudgeon.audit.catalogue import CHECKS

EDGE_LOBE = '[[limit]]\nof = "lobe_height"\nnew = ["36.944 mm", "37.234 mm"]\nleast = "36.944 mm"\n'
EDGE_SHAFT = '[[limit]]\nof = "shaft_diameter"\nnew = ["9.978 mm", "9.987 mm"]\nleast = "9.978 mm"\n'
SCRATCHES = '[[limit]]\nof = "out_of_round"\nwords = "nicks or scratches"\n'
TWO_INTAKES = '[[limit]]\nof = "valve_margin"\nside = "in"\nleast = "0.4 mm"\n' * 2
ONE_INTAKE = '[[limit]]\nof = "valve_margin"\nside = "in"\nleast = "0.4 mm"\n'


def limit(of: str, cells: str) -> str:
    return f'[[limit]]\nof = "{of}"\n{cells}\n'


#: trap, what is added to a book without a fault (or old and new text), and words of what is said.
TRAPS: tuple[tuple[str, str | tuple[str, str], str], ...] = (
    ("limit at the edge of the band: lobe 36.944–37.234, limit 36.944", EDGE_LOBE, "edge of the new range"),
    ("limit at the edge of the band: shaft 9.978–9.987, renew below 9.978", EDGE_SHAFT, "edge of the new range"),
    ("no numeric limit: nicks or scratches", SCRATCHES, "words only: nicks or scratches"),
    ("misprint: 0.006 in beside 0.015 mm", limit("stem_runout", 'most = "0.015 mm"\nalso_most = "0.006 in"'), "0.015 mm and 0.006 in"),
    ("misprint: 3/32 in beside 3.2 mm", limit("seat_width", 'side = "ex"\nmost = "3.2 mm"\nalso_most = "3/32 in"'), "3.2 mm and 3/32 in"),
    ("misprint: 0.9 mm beside 0.354 in", limit("valve_margin", 'least = "0.9 mm"\nalso_least = "0.354 in"'), "0.9 mm and 0.354 in"),
    ("misprint: 11.0 mm beside 0.31 in", limit("tip_projection", 'most = "11.0 mm"\nalso_most = "0.31 in"'), "11.0 mm and 0.31 in"),
    ("misprint: 20 N·m beside 2.7 kgf·m", ('"22 N·m"]\nalso_torque = ["1.0 kgf·m", "2.2 kgf·m"]',
     '"20 N·m"]\nalso_torque = ["1.0 kgf·m", "2.7 kgf·m"]'), "20 N·m and 2.7 kgf·m"),
    ("lost decimal: clearance 0.25–0.052", ('["0.010 mm", "0.037 mm"]', '["0.25 mm", "0.052 mm"]'), "swapped, or a digit is lost"),
    ("swapped ends: width 1.45–1.15", ('["0.90 mm", "1.10 mm"]', '["1.45 mm", "1.15 mm"]'), "1.45 mm and 1.15 mm are swapped"),
    ("two rows both named intake", TWO_INTAKES, "already in line"),
    ("one row named intake, none exhaust", ONE_INTAKE, "no row for the exhaust"),
    ("count is not the range: 25 sizes from 1.20 to 2.20 by 0.05", ("count = 21", "count = 25"), "claims 25 sizes; the range has 21"),
    ("a wobble limit among clearances: 0.33", ('most = "0.080 mm"\nmethod = "direct"', 'most = "0.33 mm"'), "is it a wobble"),
    ("torque read as pound-feet: 10 N·m as 10 lbf·ft", ('torque = ["10 N·m"]', 'torque = ["10 lbf·ft"]'), "too much for M6 8.8"),
    ("torque read as pound-feet: 86 lbf·in as 86 lbf·ft", ('torque = ["10 N·m"]', 'torque = ["86 lbf·ft"]'), "as lbf·in it would be 9.7"),
    ("two-digit marks: 50 is 2.50 and 3.50", ('smallest = "1.20 mm"\nlargest = "2.20 mm"\nstep = "0.05 mm"\ncount = 21',
     'smallest = "2.50 mm"\nlargest = "3.50 mm"\nstep = "0.05 mm"\nmark = "two digits"'), "The mark 50 means two sizes"),
    ("steps of 0.05 in a window of 0.04", ('least = "0.10 mm"\nmost = "0.16 mm"', 'least = "0.14 mm"\nmost = "0.18 mm"'), "About 20%"),
)  # fmt: skip


@pytest.mark.parametrize(("planted", "words"), [t[1:] for t in TRAPS], ids=[t[0] for t in TRAPS])
def test_the_trap_is_caught_at_its_row_with_its_arithmetic(planted: str | tuple[str, str], words: str) -> None:
    assert isinstance(planted, str) or BOOK.count(planted[0]) == 1
    text = BOOK + planted if isinstance(planted, str) else BOOK.replace(*planted)
    found = audit(text, None, "book.toml")
    hits = [str(f) for f in found if words in str(f)]
    assert len(hits) == 1, [str(f) for f in found]
    assert "book.toml:" in hits[0]


#: Checks that compare no figures: what they say is words.
OF_WORDS = {"no_number", "wobble_method", "both_sides", "thread_state", "oil_and_locker", "angle_bolts", "forbidden_work",
            "look_alikes"}  # fmt: skip


def test_every_check_is_provoked_by_a_planted_error_and_shows_its_arithmetic() -> None:
    """The list of checks and the table of planted errors cannot part: a check that nothing provokes is not tested."""
    from test_planted import PLANTED, SHELF

    said: dict[str, list[str]] = {}
    for old, new, *_rest in PLANTED:
        for one in audit(BOOK.replace(old, new, 1), SHELF, "book.toml"):
            if hasattr(one, "check"):
                said.setdefault(one.check, []).append(one.arithmetic)
    assert set(said) == set(CHECKS)
    assert {key for key, sums in said.items() if not any(sums)} <= OF_WORDS
