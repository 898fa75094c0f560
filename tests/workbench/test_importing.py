"""Tables as technicians copy them: every row is offered with its likely limit, asked where it is not sure, never half kept."""

import pytest

from gudgeon.book.parse import parse_book
from gudgeon.exchange.tables import read_text
from gudgeon.workbench.importing import accept, offers
from gudgeon.workbench.naming import named, side_in

BOOK = """\
# mine
[book]
name = "Fellrigg 212"
edition = "2"
[layout]
cylinders = 1
[layout.in]
valves = 1
follower = "bucket_over"
[layout.ex]
valves = 1
follower = "bucket_over"
"""
HEAD = "Item\tStandard (mm)\tService limit\n"


@pytest.mark.parametrize(
    ("words", "key", "side"),
    [
        ("valve stem OD", "stem_diameter", ""),
        ("Intake valve stem diameter", "stem_diameter", "in"),
        ("piston-to-wall", "piston_clearance", ""),
        ("Valve clearance EX", "lash", "ex"),
        ("Inlet valve guide ID", "guide_bore", "in"),
        ("Piston ring end gap, second", "ring_gap", "second"),
        ("Camshaft runout", "cam_runout", ""),
        ("Cylinder head warpage", "head_flatness", ""),
    ],
)
def test_names_that_technicians_use(words: str, key: str, side: str) -> None:
    assert named(words) == (key, True)
    assert side_in(words) == side


def test_what_nothing_is_called_is_not_guessed() -> None:
    assert named("Fuel tank capacity") == ("", False)


@pytest.mark.parametrize(
    ("cells", "new", "limit"),
    [
        ("4.975–4.990\t4.960", ("4.975 mm", "4.990 mm"), ("4.960 mm",)),
        ("4.975—4.990\t4.960", ("4.975 mm", "4.990 mm"), ("4.960 mm",)),
        ("4.975-4.990\t4.960", ("4.975 mm", "4.990 mm"), ("4.960 mm",)),
        ("4.975 to 4.990 mm (0.1959–0.1965 in)\t4.960 mm (0.1953 in)", ("4.975 mm", "4.990 mm"), ("4.960 mm",)),
        ("4,975 – 4,990\t4,96", ("4.975 mm", "4.990 mm"), ("4.96 mm",)),
        ("—\tmin. 4.96", (), ("4.96 mm",)),
        ("0.1959–0.1965 in\t3/16 in", ("0.1959 in", "0.1965 in"), ("3/16 in",)),
    ],
)
def test_cells_as_books_print_them(cells: str, new: tuple[str, ...], limit: tuple[str, ...]) -> None:
    (one,) = offers(read_text(f"{HEAD}Stem diameter IN\t{cells}"))
    assert (one.new, one.limit, one.way, one.question, one.problems) == (new, limit, "least", "", ())


@pytest.mark.parametrize(
    ("row", "question"),
    [
        ("Stem diameter\t4.960\t4.975–4.990", "columns swapped"),
        ("Stem diameter\t4.975–4.990\t4.985", "columns swapped"),
        ("Seat width\t1.45–1.15\t1.6", "ends are swapped"),
        ("Seat width\t0.9–1.1\t1.5 min", "which is it"),
        ("Flywheel nut\t10–12\t13", "which limit"),
    ],
)
def test_what_is_not_sure_is_asked_and_not_kept(row: str, question: str) -> None:
    found = offers(read_text(HEAD + row))
    assert question in found[0].question
    text, fates = accept(BOOK, found)
    assert text == BOOK and fates[0].fate != "kept"


def test_accepted_rows_are_one_edition_and_every_row_has_a_fate() -> None:
    pasted = HEAD + "Valve clearance IN\t0.10–0.15\t—\nStem OD EX\t4.955–4.970\t4.940\nSeat width\t0.9–1.1\tabc 1\n"
    found = offers(read_text(pasted))
    text, fates = accept(BOOK, found)
    book = parse_book(text)
    assert text.startswith("# mine\n") and book.edition == "2+1"
    assert [(r.of, r.side, r.least, r.most) for r in book.limits] == [
        ("lash", "in", 0.10, 0.15),
        ("stem_diameter", "ex", 4.940, None),
    ]
    assert [f.fate for f in fates] == ["kept", "kept", "skipped"]
    assert accept(BOOK, found, "none")[0] == BOOK


def test_millimetres_beside_inches_take_the_unit_of_their_own_heading() -> None:
    head = "Item\tStandard mm\tStandard in\tLimit mm\tLimit in\tPage\n"
    (one,) = offers(read_text(f"{head}Stem OD IN\t4.975–4.990\t0.1959–0.1965\t4.960\t0.1953\t6-9"))
    assert (one.new, one.limit, one.page, one.sure) == (("4.975 mm", "4.990 mm"), ("4.960 mm",), "6-9", True)
