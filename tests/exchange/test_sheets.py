"""Tables that a spreadsheet opens as what they are: read back by another reader, and nothing in them runs."""

from __future__ import annotations

import csv
import io
import re
import zipfile

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import load_workbook

from gudgeon.exchange.sheets import LONGEST_CELL, Sheet, csv_bytes, harmless, xlsx_bytes

HOSTILE = ("=1+1", "+1+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", " =1", "＝1", "=cmd|' /C calc'!A0", 'a"=1', "-", "+",
           "5;=1", "5, =1", "x|=1", "-2+3;@x", "=HYPERLINK(\"http://a\")")  # fmt: skip
NUMBERS = ("-0.02", "+26", "0,15", "-12", "41.80")
RUNS = re.compile(r"\s*[=@＝＠+\-＋－]")


def may_run(piece: str) -> bool:
    """Whether a spreadsheet could take this for a formula."""
    return bool(RUNS.match(piece)) and not re.fullmatch(r"\s*[+\-]?\d+(?:[.,]\d+)?\s*", piece)


def sheet(*cells: str | int | float | None) -> Sheet:
    return Sheet(name="One", head=tuple(f"c{n}, mm" for n in range(len(cells))), rows=(tuple(cells),))


def back(data: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")))


@pytest.mark.parametrize("text", HOSTILE)
def test_no_text_begins_a_formula(text: str) -> None:
    (cell,) = back(csv_bytes(sheet(text)))[1]
    assert "'" in cell and not may_run(cell)
    assert not any(may_run(piece) for piece in re.split(r'[;,\t|"]', cell))


@given(st.text(max_size=60))
def test_no_text_at_all_begins_a_formula_wherever_a_line_is_split(text: str) -> None:
    cell = harmless(text)
    assert not may_run(cell) and not re.search(r"[\r\n\t\0]", cell)
    for sign in ";,|":
        assert not any(may_run(piece) for piece in cell.split(sign))
    assert harmless(cell) == cell


@pytest.mark.parametrize("text", NUMBERS)
def test_a_plain_number_stays_what_it_is_with_its_sign_and_digits(text: str) -> None:
    assert back(csv_bytes(sheet(text)))[1] == [text]


def test_numbers_are_no_texts_and_nothing_is_nan() -> None:
    data = csv_bytes(sheet(-0.02, 3, 0.1 + 0.2, float("nan"), float("inf"), None, "-0.02", 1e-7))
    assert data.decode("utf-8-sig").splitlines()[1] == '-0.02,3,0.3,"","","","-0.02",1e-07'
    assert data.startswith(b"\xef\xbb\xbf") and data.endswith(b"\r\n")


def test_a_workbook_keeps_texts_as_texts_and_numbers_as_numbers() -> None:
    cells = (*HOSTILE, *NUMBERS, -0.02, 3, None, "right \u202eto left", "a\0b", "🔧", "http://a", "x" * 40_000)
    data = xlsx_bytes((sheet(*cells), Sheet(name="[Empty]: a/b?", head=("value, mm",), rows=())), "Job 1")
    book = load_workbook(io.BytesIO(data), data_only=False)
    row = next(book["One"].iter_rows(min_row=2))
    for typed, cell in zip(cells, row, strict=True):
        assert cell.data_type != "f" and cell.hyperlink is None
        if isinstance(typed, str):
            assert cell.data_type == "s" and len(str(cell.value)) <= LONGEST_CELL
    assert [c.value for c in row[len(HOSTILE) : len(HOSTILE) + len(NUMBERS) + 3]] == [*NUMBERS, -0.02, 3, None]
    assert book.sheetnames[1] == " Empty   a b " and [c.value for c in next(book[book.sheetnames[1]].rows)] == [
        "value, mm"
    ]
    parts = zipfile.ZipFile(io.BytesIO(data))
    assert not any(b"<f>" in parts.read(name) or b"externalLink" in parts.read(name) for name in parts.namelist())
    assert xlsx_bytes((sheet(*cells),), "Job 1") == xlsx_bytes((sheet(*cells),), "Job 1")
