"""Every kind of bad file that a book may come from: named with its place and what to do, and never half taken in.

One row of a table for each kind; the fates of spreadsheet rows stand beside what became of the book.
"""

from __future__ import annotations

import io
import zipfile
from datetime import date
from pathlib import Path

import pytest
from openpyxl import Workbook
from tests.workbench.memory import workbench

from gudgeon.book.parse import parse_book
from gudgeon.cli.files import read_text as read_file
from gudgeon.problem import Refused
from gudgeon.workbench.importing import take_in

BOOK = """\
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
DATE = date(2016, 1, 16)
HEAD = ("Item", "Standard", "Limit")


def sheet(*rows: tuple[object, ...], merged: str = "") -> bytes:
    book, out = Workbook(), io.BytesIO()
    page = book.active
    assert page is not None
    for row in rows:
        page.append(row)
    if merged:
        page.merge_cells(merged)
    book.save(out)
    return out.getvalue()


def fates(data: bytes, name: str = "limits.xlsx") -> tuple[str, list[tuple[str, str, str]]]:
    text, found = take_in(BOOK, data, name)
    return text, [(f.row, f.fate, f.why) for f in found]


SHEETS: tuple[tuple[str, bytes, tuple[tuple[str, str, str], ...]], ...] = (
    ("merged cells", sheet(HEAD, ("Seat width", "0.9–1.1 mm", "1.5 mm"), (None, "1.0–1.2 mm", "1.6 mm"), merged="A2:A3"),
     (("Sheet!A2", "kept", ""), ("Sheet!A3", "needs an answer", "already says this"))),
    ("a formula without its value", sheet(HEAD, ("Seat width", "=0.8+0.1", "1.5 mm"), ("Squish", "0.9–1.1 mm", "0.7 mm")),
     (("Sheet!A2", "skipped", "Sheet!B2: A formula has no value"), ("Sheet!A3", "kept", ""))),
    ("decimal commas", sheet(HEAD, ("Stem diameter IN", "4,975–4,990 mm", "4,960 mm")), (("Sheet!A2", "kept", ""),)),
    ("inch fractions", sheet(HEAD, ("Seat width", "0.035–0.043 in", "1/16 in")), (("Sheet!A2", "kept", ""),)),
    ("an inch fraction that the spreadsheet made a date", sheet(HEAD, ("Seat width", "0.9–1.1 mm", DATE)),
     (("Sheet!A2", "skipped", "2016-01-16"),)),
    ("units in the heading", sheet(("Item", "Standard (in)", "Limit (in)"), ("Seat width", "0.035–0.043", "0.059")),
     (("Sheet!A2", "kept", ""),)),
    ("units in the cell", sheet(HEAD, ("Seat width", "0.9–1.1 mm", "0.059 in")), (("Sheet!A2", "kept", ""),)),
    ("a unit of another kind", sheet(HEAD, ("Seat width", "0.9–1.1 N", "1.5 mm")), (("Sheet!A2", "skipped", "length is wanted"),)),
    ("empty rows", sheet((None,), HEAD, (None, None), ("Seat width", "0.9–1.1 mm", "1.5 mm"), ("", " ")),
     (("Sheet!A4", "kept", ""),)),
    ("two columns swapped", sheet(HEAD, ("Stem diameter IN", "4.960 mm", "4.975–4.990 mm")),
     (("Sheet!A2", "needs an answer", "columns swapped"),)),
    ("an error value", sheet(HEAD, ("Seat width", "#REF!", "1.5 mm")), (("Sheet!A2", "skipped", "#REF!"),)),
    ("no figure at all", sheet(HEAD, ("Valves",), ("Seat width", "see text", "n/a")), (("Sheet!A3", "skipped", "see text"),)),
)  # fmt: skip


@pytest.mark.parametrize(("data", "wanted"), [s[1:] for s in SHEETS], ids=[s[0] for s in SHEETS])
def test_each_row_of_a_spreadsheet_has_its_fate_and_no_row_is_half_taken(
    data: bytes, wanted: tuple[tuple[str, str, str], ...]
) -> None:
    text, found = fates(data)
    assert [f[:2] for f in found] == [w[:2] for w in wanted], found
    assert all(w[2] in f[2] for f, w in zip(found, wanted, strict=True)), found
    kept = sum(f[1] == "kept" for f in found)
    assert len(parse_book(text).limits) == kept and (text == BOOK) == (kept == 0)
    assert all(row.new and (row.typed_least or row.typed_most) for row in parse_book(text).limits)


PASTED = (
    ("tabs and spaces", "Item\t Standard \tLimit\nSeat width \t 0.9 – 1.1 mm\t 1.5 mm \n", "kept"),
    ("en dash", "Item\tStandard\tLimit\nSeat width\t0.9–1.1 mm\t1.5 mm\n", "kept"),
    ("hyphen", "Item\tStandard\tLimit\nSeat width\t0.9-1.1 mm\t1.5 mm\n", "kept"),
    ("em dash", "Item\tStandard\tLimit\nSeat width\t0.9—1.1 mm\t1.5 mm\n", "kept"),
    ("columns swapped", "Item\tStandard\tLimit\nSeat width\t1.5 mm\t0.9-1.1 mm\n", "needs an answer"),
    ("headings swapped", "Item\tLimit\tStandard\nSeat width\t1.5 mm\t0.9-1.1 mm\n", "kept"),
    ("carriage returns", "Item\tStandard\tLimit\r\nSeat width\t0,9–1,1 mm\t1,5 mm\r\n", "kept"),
)


@pytest.mark.parametrize(("pasted", "fate"), [p[1:] for p in PASTED], ids=[p[0] for p in PASTED])
def test_pasted_text(pasted: str, fate: str) -> None:
    text, found = fates(pasted.encode(), "pasted")
    assert [f[1] for f in found] == [fate], found
    limits = parse_book(text).limits
    assert [(r.new_low, r.new_high, r.most) for r in limits] == ([(0.9, 1.1, 1.5)] if fate == "kept" else [])


def _swollen() -> bytes:
    """A workbook whose one sheet says a little ten thousand million times."""
    entities = "".join(f'<!ENTITY {b} "{f"&{a};" * 10}">' for a, b in zip("abcdefghi", "bcdefghij", strict=True))
    source, out = zipfile.ZipFile(io.BytesIO(sheet(HEAD))), io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
        for name in source.namelist():
            data = source.read(name).decode()
            if name.endswith("sheet1.xml"):
                data = f'<!DOCTYPE l [<!ENTITY a "aaaaaaaaaa">{entities}]>' + data.replace("Item", "&j;")
            made.writestr(name, data)
    return out.getvalue()


def _zeros() -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
        made.writestr("xl/workbook.xml", b"0" * 200_000_000)
    return out.getvalue()


@pytest.mark.parametrize(
    ("data", "why"),
    [(lambda: ("\t".join(HEAD) + "\n" + "Seat width\t0.9–1.1 mm\t1.5 mm\n" * 100_000).encode(), "more than 2000 rows"),
     (lambda: sheet(HEAD, *[("Seat width", "0.9–1.1 mm")] * 2_500), "Sheet!A2001: .*more than 2000 rows"),
     (_zeros, "would unpack to 200000000 bytes"), (_swollen, "would grow"), (lambda: b"PK\x03\x04half", "no workbook"),
     (lambda: "Item;Größe\n".encode("cp1252"), "not UTF-8: byte 8"), (lambda: "Item\tStandard".encode("utf-16"), "not UTF-8"),
     (lambda: b"\0\0", "no text"), (lambda: b"", "holds no row")],
    ids=["100000 rows", "rows of a workbook", "a bomb of zeros", "a bomb of entities", "half a file", "not UTF-8", "UTF-16",
         "no text", "empty"],
)  # fmt: skip
def test_what_cannot_be_a_table_is_refused_whole(data, why) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(Refused, match=why):
        take_in(BOOK, data(), "limits")


@pytest.mark.parametrize(
    ("text", "why"),
    [(BOOK.replace('edition = "2"', 'name = "Other"'), "f.toml:3: .*Cannot overwrite a value"),
     (BOOK + '[book]\nname = "Other"\n', "f.toml:12: .*twice"), (BOOK.replace('"2"', '"2'), "f.toml:3: "),
     (BOOK + "\0", "f.toml:12: "), ("\ufeff\ufeff" + BOOK, "f.toml:1: "), ("", "There is no .book."),
     (BOOK.replace("\n", "\r"), "f.toml:1: "), (BOOK + "\ud800", "no text|cannot be read|UTF-8")],
    ids=["a key twice", "a table twice", "a quote left open", "no text", "two marks", "empty", "old line ends", "half a sign"],
)  # fmt: skip
def test_a_book_file_that_cannot_be_read_is_named_at_its_line_and_not_kept(text: str, why: str) -> None:
    bench = workbench()
    with pytest.raises(Refused, match=why):
        bench.add_book(text, name="f.toml")
    assert bench.library.books() == ()


@pytest.mark.parametrize(
    "text", ["\ufeff" + BOOK, BOOK.replace("\n", "\r\n")], ids=["a mark", "line ends of another system"]
)
def test_a_mark_and_line_ends_of_another_system_do_not_matter(text: str) -> None:
    bench = workbench()
    assert bench.book(bench.add_book(text)).name == "Fellrigg 212"


@pytest.mark.parametrize("data", ["café".encode("latin-1"), BOOK.encode("utf-16")], ids=["Latin-1", "UTF-16"])
def test_a_file_that_is_not_utf_8_is_refused_with_its_byte(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "f.toml").write_bytes(data)
    with pytest.raises(Refused, match=r"Byte [03] is no UTF-8"):
        read_file(tmp_path / "f.toml")
