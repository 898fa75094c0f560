"""Tables as technicians copy them: every row is offered with its likely limit, asked where it is not sure, never half kept."""

import io

import pytest
from openpyxl import Workbook

from gudgeon.book.parse import parse_book
from gudgeon.exchange.tables import read_table, read_text
from gudgeon.problem import Refused
from gudgeon.workbench.importing import accept, offers, take_in
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
    assert one.cells["also_new"] == ("0.1959 in", "0.1965 in") and one.cells["also_least"] == "0.1953 in"
    text, fates = accept(BOOK, (one,))
    row = parse_book(text).limits[0]
    assert [f.fate for f in fates] == ["kept"]
    assert row.also_new is not None and [str(q) for q in row.also_new] == ["0.1959 in", "0.1965 in"]
    assert str(row.also_least) == "0.1953 in"


def test_what_stands_in_brackets_is_kept_as_the_other_unit() -> None:
    found = offers(read_text(HEAD + "Stem OD IN\t4.975–4.990 (0.1959–0.1965 in)\t4.960 (0.1953 in)\n"
                                    "Valve clearance IN\t0.10–0.15 mm (0.004–0.006 in)\n"
                                    "Seat width\t0.9–1.1 (3 cuts, blue)\t1.5 (replace)"))  # fmt: skip
    assert [one.problems for one in found] == [(), (), ()]
    assert found[0].cells["also_new"] == ("0.1959 in", "0.1965 in") and found[0].cells["also_least"] == "0.1953 in"
    assert (found[1].cells["also_least"], found[1].cells["also_most"]) == ("0.004 in", "0.006 in")
    assert not any(key.startswith("also") for key in found[2].cells)
    assert parse_book(accept(BOOK, found)[0]).limits[1].also_most is not None


@pytest.mark.parametrize("dash", "-‐‑‒–—―−~")
@pytest.mark.parametrize("space", ["", " "])
def test_every_dash_between_two_ends_is_one(dash: str, space: str) -> None:
    (one,) = offers(read_text(f"{HEAD}Stem diameter IN\t4.975{space}{dash}{space}4.990\t4.960"))
    assert (one.new, one.sure) == (("4.975 mm", "4.990 mm"), True)


def test_units_in_the_heading_or_the_cell_and_never_both_lost() -> None:
    inches = "Item\tStandard (in)\tLimit (in)\nSeat width\t0.035–0.043\t1/16 in\nStem OD IN\t4.975–4.990 mm\t4.96 mm\n"
    found = offers(read_text(inches))
    assert found[0].new == ("0.035 in", "0.043 in") and found[0].limit == ("1/16 in",)
    assert found[1].new == ("4.975 mm", "4.990 mm") and found[1].limit == ("4.96 mm",)


def test_a_hundred_thousand_rows_or_a_broken_row_leave_the_book_as_it_was() -> None:
    with pytest.raises(Refused, match="more than"):
        take_in(BOOK, (HEAD + "Seat width\t0.9–1.1\t1.5\n" * 100_000).encode(), "long.csv")
    text, fates = take_in(BOOK, (HEAD + "Seat width\t0.9–1.1 furlongs\t1.5\n").encode(), "odd.csv")
    assert text == BOOK and fates[0].fate == "skipped" and "furlongs" in fates[0].why


def test_merged_cells_carry_their_item_to_the_rows_they_span() -> None:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for row in (("Item", "", "Standard (mm)", "Service limit"), ("Stem diameter", "IN", "4.975–4.990", "4.960"),
                ("", "EX", "4.955–4.970", "4.940")):  # fmt: skip
        sheet.append(row)
    sheet.merge_cells("A2:A3")
    out = io.BytesIO()
    book.save(out)
    found = offers(read_table(out.getvalue()))
    assert [(one.characteristic, one.side, one.sure) for one in found] == [
        ("stem_diameter", "in", True), ("stem_diameter", "ex", True)]  # fmt: skip
