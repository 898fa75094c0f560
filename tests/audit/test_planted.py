"""Planted errors, one at a time, in a book without a fault: each is found at its line, in its words, as severe as it is.

Each entry: what is planted (old text, new text), the line it must be found at (by a text that stands there), how severe,
and words of what is said. "unread" is what cannot be read at all.
"""

import pytest
from audit_book import BOOK, line_of

from gudgeon.audit import Finding, audit, not_checked
from gudgeon.shelf import Shelf, Wrench

SHELF = Shelf(wrenches=(Wrench.model_validate({"id": "W", "low": "2 N·m", "high": "25 N·m", "error": "6 %"}),))

STEM, GUIDE, FIT, WIDTH = (
    'of = "stem_diameter"',
    'of = "guide_bore"',
    'of = "stem_guide_clearance"',
    'of = "seat_width"',
)
PLANTED: tuple[tuple[str, str, str, str, str], ...] = (
    # Two columns (the pairs under "misprint" are those of real books)
    ('also_least = "0.1758 in"', 'also_least = "0.0176 in"', STEM, "error", "are not the same"),
    ('also_new = ["0.1762 in"', 'also_new = ["0.1672 in"', STEM, "error", "are not the same"),
    ('most = "0.080 mm"', 'most = "0.015 mm"\nalso_most = "0.006 in"', FIT, "error", "0.015 mm and 0.006 in"),
    ('most = "1.50 mm"', 'most = "3.2 mm"\nalso_most = "3/32 in"', WIDTH, "error", "3.2 mm and 3/32 in"),
    ('most = "1.50 mm"', 'most = "1.5 mm"\nalso_most = "0.591 in"', WIDTH, "error", "1.5 mm may be 15.0 mm"),
    ('most = "1.50 mm"', 'most = "0.9 mm"\nalso_most = "0.354 in"', WIDTH, "error", "0.9 mm and 0.354 in"),
    ('solid = "17.5 mm"', 'solid = "1.75 mm"', "[[spring]]", "warning", "the book says 1.75 mm"),
    ('"2.2 kgf·m"', '"2.7 kgf·m"', 'name = "head nuts"', "error", "22 N·m and 2.7 kgf·m"),
    # Ranges and limits
    ('new = ["4.475 mm", "4.490 mm"]', 'new = ["4.490 mm", "4.475 mm"]', 'new = ["4.490 mm"', "unread", "swapped"),
    ('["0.010 mm", "0.037 mm"]', '["0.25 mm", "0.037 mm"]', '["0.25 mm"', "unread", "a digit is lost"),
    ('["0.90 mm", "1.10 mm"]', '["1.45 mm", "1.15 mm"]', '["1.45 mm"', "unread", "swapped"),
    ('least = "0.10 mm"\nmost = "0.16 mm"', 'least = "0.16 mm"\nmost = "0.10 mm"', 'most = "0.10 mm"', "unread", "swapped"),
    ('least = "4.465 mm"', 'least = "4.485 mm"', STEM, "error", "New from 4.475 mm, yet least 4.485 mm"),
    ('most = "4.540 mm"', 'most = "4.504 mm"', GUIDE, "error", "New up to 4.512 mm, yet most 4.504 mm"),
    ('least = "59.930 mm"', 'least = "59.960 mm"', 'of = "piston_diameter"', "warning", "edge of the new range"),
    ('most = "4.540 mm"', 'words = "scratches"', GUIDE, "warning", "words only"),
    ('most = "0.080 mm"\n', "", FIT, "warning", "no wear limit"),
    ('most = "0.16 mm"', 'most = "1.6 mm"', 'of = "lash"', "warning", "no size of it"),
    ('most = "0.080 mm"', 'most = "0.80 mm"', FIT, "warning", "no size of it"),
    ('new = ["0.025 mm", "0.050 mm"]\nmost = "0.100 mm"', 'new = ["0.025 mm", "0.050 mm"]\nmost = "1.00 mm"',
     'of = "piston_clearance"', "warning", "no size of it"),
    ('new = ["128 N", "140 N"]', 'new = ["128 N", "129 N"]', 'wire = "2.5 mm"', "error", "outside its new range"),
    ('new = ["4.500 mm", "4.512 mm"]', 'new = ["4.510 mm", "4.522 mm"]', FIT, "error", "least clearance of 0.020 mm"),
    ('new = ["59.960 mm"', 'new = ["59.690 mm"', 'of = "piston_clearance"', "error", "largest clearance of 0.320 mm"),
    ('most = "0.080 mm"\nmethod = "direct"', 'most = "0.35 mm"', FIT, "warning", "is it a wobble?"),
    ('method = "direct"', 'method = "wobble"', FIT, "error", "wobble limit stands under the clearance"),
    ('[[limit]]\nof = "seal_test"', '[[limit]]\nof = "wobble"\nmost = "0.30 mm"\n\n[[limit]]\nof = "seal_test"',
     'of = "wobble"', "warning", "without its method"),
    ('most = "4.540 mm"', 'most = "0.1787 in"', GUIDE, "warning", "rest of the page in mm"),
    ('of = "lash"\nside = "ex"', 'of = "lash"\nside = "in"', 'least = "0.20 mm"', "unread", "already in line"),
    ('[[limit]]\nof = "lash"\nside = "ex"\nleast = "0.20 mm"\nmost = "0.26 mm"\npage = "3"\n', "",
     'of = "lash"', "warning", "no row for the exhaust"),
    # Shims and aims
    ('most = "0.16 mm"', 'most = "0.14 mm"', 'of = "lash"', "warning", "About 20%"),
    ("count = 21", "count = 25", "[[shims]]", "error", "claims 25 sizes; the range has 21"),
    ('largest = "2.20 mm"', 'largest = "2.22 mm"', "[[shims]]", "warning", "do not end at 2.22 mm"),
    ('largest = "2.20 mm"\nstep = "0.05 mm"\ncount = 21', 'largest = "2.40 mm"\nstep = "0.05 mm"\nmark = "two digits"',
     "[[shims]]", "warning", "The mark 20 means two sizes"),
    ('in = "0.14 mm"', 'in = "0.24 mm"', "[aim]", "error", "outside the window"),
    # Fasteners
    ('"22 N·m"]\nalso_torque = ["1.0 kgf·m", "2.2 kgf·m"]', '"38 N·m"]', 'name = "head nuts"', "warning", "too much for M8"),
    ('torque = ["10 N·m"]', 'torque = ["13.6 N·m"]', 'name = "sprocket bolts"', "warning", "10.0 lbf·ft"),
    ('torque = ["10 N·m"]', 'torque = ["10 lbf·in"]', 'name = "sprocket bolts"', "warning", "hardly tightens"),
    ('thread = "M6"', 'thread = "M6x1.5"', 'name = "sprocket bolts"', "warning", "no pitch of 1.5"),
    ('grade = "8.8"\ncount = 2', 'grade = "8.9"\ncount = 2', 'name = "sprocket bolts"', "warning", "no property class"),
    ('"22 N·m"]', '"26 N·m"]', 'name = "head nuts"', "warning", "No wrench here is proved at 26 N·m"),
    ('thread_state = "degreased"', 'thread_state = "oil"', 'name = "sprocket bolts"', "error", "oil and locker"),
    ('thread_state = "degreased"', 'thread_state = "dry"', 'name = "sprocket bolts"', "warning", "not said to be degreased"),
    ('thread_state = "dry"\nunder_head = "dry"\norder', "order", 'name = "head nuts"', "warning", "dry or oiled"),
    ("order = [1, 3, 2, 4]", 'order = [1, 3, 2, 4]\nangle = "90 °"\nrenew = "always"\nretighten = "after heat cycle"',
     'name = "head nuts"', "error", "never retightened"),
    ("order = [1, 3, 2, 4]", 'order = [1, 3, 2, 4]\nangle = "90 °"', 'name = "head nuts"', "warning", "used without end"),
    ("order = [1, 3, 2, 4]", "order = [1, 3, 2, 2]", 'name = "head nuts"', "error", "leaves out 4 and names 2 twice"),
    ("order = [1, 3, 2, 4]", "order = [1, 3, 2, 4]\nloosen = [4, 2, 3]", 'name = "head nuts"', "error", "loosening order"),
    ("order = [1, 3, 2, 4]", "positions_mm = [[0, 0], [1, 0]]", 'name = "head nuts"', "error", "4 bolts, but 2 positions"),
    ('name = "sprocket bolts"', 'name = "head nuts"', 'joint = "sprocket"', "unread", "already in line"),
    # The engine's numbers
    ('displacement = "141.4 cm³"', 'displacement = "144.1 cm³"', "[geometry]", "error", "141.37 cm³"),
    ('compression_ratio = "9.93"', 'compression_ratio = "11.93"', "[geometry]", "error", "ratio of 9.93"),
    ('new = ["0.60 mm", "0.85 mm"]', 'new = ["0.90 mm", "1.15 mm"]', 'of = "squish"', "warning", "Deck and gasket make 0.70 mm"),
    ('duration = "240 °"', 'duration = "260 °"', "[[cam]]", "error", "events make 240°"),
    ('intake_closes = "50 °"', 'intake_closes = "60 °"', "[[cam]]", "error", "Intake closes at 50°"),
    ('top = "32 °"\nthroat = "60 °"', 'top = "60 °"\nthroat = "32 °"', "[[seat]]", "error", "do not rise"),
    ('wire = "2.5 mm"', 'wire = "2.8 mm"', "[[spring]]", "error", "the book says 133.5 N"),
    ('solid = "17.5 mm"', 'solid = "21.5 mm"', "[[spring]]", "warning", "coils are solid at 17.5 mm"),
    ('solid = "17.5 mm"', 'solid = "31.5 mm"', "[[spring]]", "error", "longer than fitted"),
    # Materials and parts
    ('remedies = ["cut seat"]', 'remedies = ["lap valve"]', WIDTH, "error", "not for coated valves"),
    ('remedies = ["renew barrel"]', 'remedies = ["hone"]', 'of = "bore_diameter"', "error", "not for a plated bore"),
    ('[[part]]\nnumber = "S-1"', '[materials]\ndeglaze = "hone"\n\n[[part]]\nnumber = "S-1"', "[materials]", "error",
     "deglazed with a hone"),
    ('kit = "S-1"', 'kit = "S-9"', 'name = "everything"', "error", "kit S-9 is no part"),
    ('name = "gasket kit"', 'name = "gasket kit"\nkit = "S-1"', 'name = "gasket kit"', "error", "holds itself"),
    ('kit = "S-1"', 'look_alike = "S-1"', 'name = "everything"', "warning", "nothing tells them apart"),
    ('slots = ["*/*"]', 'slots = ["c1*/*"]', 'name = "gasket kit"', "warning", "places have no part number"),
    ("consumable = true\n", "", 'name = "gasket kit"', "warning", "no place in the engine"),
    ('slots = ["*/*"]', 'slots = ["c1/pistn"]', 'name = "everything"', "unread", "Did you mean c1/piston"),
    ('number = "S-2"', 'number = "S-1"', 'name = "everything"', "unread", "already in line"),
    # What cannot be read
    ('of = "seat_width"', 'of = "seat_widht"', 'of = "seat_widht"', "unread", "Did you mean seat_width"),
    ('most = "1.50 mm"', 'most = "1.50"', 'most = "1.50"', "unread", "has no unit"),
    ('most = "1.50 mm"', 'most = "1.50 N"', 'most = "1.50 N"', "unread", "length is wanted"),
    ('most = "1.50 mm"', 'moist = "1.50 mm"', 'moist = "1.50 mm"', "unread", "Did you mean most"),
    ('follower = "bucket_under"\ncoated', 'follower = "bucket"\ncoated', 'follower = "bucket"\n', "unread", "not one of"),
    ('page = "6"\n\n[[fast', 'page = "6\n\n[[fast', 'page = "6\n', "unread", "cannot be read"),
)  # fmt: skip


def test_the_book_without_a_fault_is_clean() -> None:
    assert audit(BOOK, SHELF, "small.toml") == ()


def test_the_table_is_long_enough() -> None:
    assert len(PLANTED) >= 40


@pytest.mark.parametrize(
    ("old", "new", "at", "severity", "words"), PLANTED, ids=[f"{p[3]}-{p[4][:30]}" for p in PLANTED]
)
def test_each_planted_error_is_found_at_its_line(old: str, new: str, at: str, severity: str, words: str) -> None:
    assert BOOK.count(old) >= 1
    text = BOOK.replace(old, new, 1)
    found = audit(text, SHELF, "small.toml")
    header = text[: text.index(at)].rfind("\n[") + 2 if not at.startswith("[") else text.index(at) + 1
    row = text[:header].count("\n") + 1
    hits = [f for f in found if words in str(f)]
    assert hits, [str(f) for f in found]
    for hit in hits[:1]:
        if isinstance(hit, Finding):
            assert hit.severity == severity
            assert hit.line == row
            assert hit.where.startswith(f"small.toml:{hit.line}: ")
        else:
            assert severity == "unread"
            assert int(hit.where.removeprefix("small.toml:")) in (row, line_of(text, at))
    assert len(found) <= 3, [str(f) for f in found]


def test_the_checks_look_at_what_parsed_while_other_rows_are_wrong() -> None:
    text = BOOK.replace("count = 21", "count = 25").replace('most = "1.50 mm"', 'most = "1.50"')
    found = audit(text, SHELF)
    assert ["has no unit" in str(found[0]), "claims 25 sizes" in str(found[1])] == [True, True]


def test_without_a_shelf_the_wrenches_are_said_to_be_not_checked() -> None:
    text = BOOK.replace('"22 N·m"]\nalso_torque = ["1.0 kgf·m", "2.2 kgf·m"]', '"26 N·m"]')
    assert any("No wrench" in str(f) for f in audit(text, SHELF))
    assert not any("No wrench" in str(f) for f in audit(text))
    assert not_checked(None) == not_checked(Shelf()) != not_checked(SHELF) == ()
