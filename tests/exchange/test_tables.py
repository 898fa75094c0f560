"""Tables from anywhere: text in every dress, workbooks with what people do to them, and what is refused unread."""

import io
import zipfile

import pytest
from openpyxl import Workbook

from gudgeon.exchange.tables import MOST_ROWS, read_table, read_text
from gudgeon.problem import Refused


def saved(book: Workbook) -> bytes:
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


@pytest.mark.parametrize(
    "text",
    [
        "Stem, intake\t4,975–4,990\t4,960\n\nSeat width\t0,9–1,1\t1,5\n",
        "\ufeffStem, intake;4,975–4,990;4,960\r\n\r\nSeat width;0,9–1,1;1,5\r\n",
        '"Stem, intake","4,975–4,990","4,960"\n\n"Seat width", "0,9–1,1", "1,5"\n',
        "Stem, intake   4,975–4,990   4,960\n\nSeat width     0,9–1,1       1,5",
    ],
)
def test_text_in_every_dress_is_the_same_table(text: str) -> None:
    table = read_table(text.encode())
    assert [row.cells for row in table.rows] == [
        ("Stem, intake", "4,975–4,990", "4,960"),
        ("Seat width", "0,9–1,1", "1,5"),
    ]
    assert [row.where for row in table.rows] == ["table, line 1", "table, line 3"]


def test_a_workbook_with_merged_cells_empty_rows_and_a_formula() -> None:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Limits"
    sheet.append(["Valves"])
    sheet.merge_cells("A1:C1")
    sheet.append([])
    sheet.append(["Stem", 4.975, "=B3-0.015"])
    table = read_table(saved(book))
    assert [(row.where, row.cells) for row in table.rows] == [
        ("Limits!A1", ("Valves",)),
        ("Limits!A3", ("Stem", "4.975")),
    ]
    assert [p.where for p in table.problems] == ["Limits!C3"]


def test_a_hundred_thousand_rows_are_refused_at_the_row_after_the_last() -> None:
    with pytest.raises(Refused, match=f"line {MOST_ROWS + 1}: .*more than {MOST_ROWS} rows"):
        read_text("Stem\t4.975\n" * 100_000)


def test_a_bomb_is_refused_before_it_is_unpacked() -> None:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/workbook.xml", b"0" * 200_000_000)
    with pytest.raises(Refused, match="would unpack to 200000000 bytes"):
        read_table(out.getvalue())


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"Stem\xe9\t4.975", "not UTF-8: byte 5"),
        (b"a\0b", "no text"),
        (b"", "holds no row"),
        (b"PK\x03\x04broken", "no workbook"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "old kind"),
        (b'a;"b\n', "cannot be read"),
    ],
)
def test_what_is_no_table_is_refused_in_words(data: bytes, words: str) -> None:
    with pytest.raises(Refused, match=words):
        read_table(data)


def test_digits_that_only_the_format_of_a_cell_knows() -> None:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for row, (value, shown) in enumerate(((41.8, "0.00"), (41.8, "General"), (41.8, "#,##0.000"), (41.807, "0.00"), (5, "0.00"),
                                          (-0.02, "0.00"), (0.5, "0%"), (True, "0.00"), ("41.80", "0.0")), 1):  # fmt: skip
        sheet.cell(row, 1, "x")
        sheet.cell(row, 2, value).number_format = shown
    out = io.BytesIO()
    book.save(out)
    found = [row.cells[1] for row in read_table(out.getvalue()).rows]
    assert found == ["41.80", "41.8", "41.800", "41.807", "5.00", "-0.02", "0.5", "True", "41.80"]


def test_more_rows_and_a_separator_where_the_caller_knows_them() -> None:
    lines = "\n".join(f"{n},{n}" for n in range(MOST_ROWS + 1)).encode()
    assert len(read_table(lines, most=MOST_ROWS + 1, separator=",").rows) == MOST_ROWS + 1
    with pytest.raises(Refused):
        read_table(lines, separator=",")
    assert read_table(b"12,34\n12,35", separator=";").rows[0].cells == ("12,34",)
    assert read_table(b"12,34\n12,35", separator=",").rows[0].cells == ("12", "34")
