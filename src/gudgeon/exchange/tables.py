"""A table from anywhere (pasted text, CSV, XLSX) as plain rows of text cells, each row with its place in the source.

Nothing is understood here: what a cell means is for whoever knows the book.
"""

from __future__ import annotations

import csv
import io
import re
import zipfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from gudgeon.problem import Problem, Refused, refuse, said

MOST_ROWS = 2_000
MOST_COLUMNS = 60
MOST_CELL = 400
MOST_BYTES = 8 * 1024 * 1024
#: What a workbook may unpack to: far above any limits table, far below what would stop a bench.
MOST_UNPACKED = 64 * 1024 * 1024
#: A number format that fixes the digits behind the point: 0.000, or with thousands set apart.
_DECIMALS = re.compile(r"(?:#,##)?0\.(0{1,6})")
_WIDE_GAP = re.compile(r"(?: {2,}|\t)")


@dataclass(frozen=True, slots=True, kw_only=True)
class TableRow:
    """One row: where it stands in its source ("line 4", "Sheet1!A4"), and its cells as text."""

    where: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """The rows that hold anything, and what could not be read of others."""

    rows: tuple[TableRow, ...]
    problems: tuple[Problem, ...] = ()


def read_table(data: bytes, name: str = "table", *, most: int = MOST_ROWS, separator: str = "") -> Table:
    """A table from a file's bytes: a workbook where it is one, else text in UTF-8, split where `separator` says or it seems."""
    if len(data) > MOST_BYTES:
        raise refuse(name, "It holds {size} bytes.", "Give a file of at most {most} bytes.",
                     size=len(data), most=MOST_BYTES)  # fmt: skip
    if data.startswith(b"PK"):
        return read_workbook(data, name, most=most)
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise refuse(name, "It is a workbook of the old kind, or one with a password.", "Save it as .xlsx or CSV.")
    try:
        return read_text(data.decode("utf-8-sig"), name, most=most, separator=separator)
    except UnicodeDecodeError as wrong:
        raise refuse(name, "It is not UTF-8: byte {at} cannot be read.", "Save it as CSV in UTF-8.",
                     at=wrong.start + 1) from None  # fmt: skip


def read_text(text: str, name: str = "pasted text", *, most: int = MOST_ROWS, separator: str = "") -> Table:
    """Rows of pasted text or CSV, split at tabs, semicolons, commas that are no decimal signs, or wide gaps."""
    text = text.removeprefix("\ufeff")
    if "\0" in text:
        raise refuse(name, "It is no text.", "Copy the table again, or save it as CSV.")
    lines = [line for line in re.split(r"\r\n|\r|\n", text) if line.strip()]
    separator = separator or _separator(lines)
    if separator == " ":
        cells = ((n, _WIDE_GAP.split(line.strip())) for n, line in enumerate(re.split(r"\r\n|\r|\n", text), 1))
        return _gathered(((f"{name}, line {n}", row) for n, row in cells), name, most)
    table = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True, skipinitialspace=True)
    try:
        return _gathered(((f"{name}, line {table.line_num}", row) for row in table), name, most)
    except csv.Error as wrong:
        raise refuse(f"{name}, line {table.line_num}", "The row cannot be read: {why}.", "Look at its quotes.",
                     why=str(wrong)) from None  # fmt: skip


def _separator(lines: list[str]) -> str:
    """The sign that splits most lines; a comma between two digits is taken for a decimal sign."""
    if any("\t" in line for line in lines):
        return "\t"
    semicolons = sum(";" in line for line in lines)
    gaps = sum(bool(_WIDE_GAP.search(line.strip())) for line in lines)
    if not semicolons and gaps * 2 > len(lines):
        return " "
    commas = sum(bool(re.search(r",(?!\d)|(?<!\d),", line)) for line in lines)
    if semicolons and semicolons >= commas:
        return ";"
    if commas * 2 >= len(lines) and commas:
        return ","
    return " "


def read_workbook(data: bytes, name: str = "workbook", *, most: int = MOST_ROWS) -> Table:
    """Rows of every sheet of an XLSX; its sizes are looked at before anything is unpacked."""
    _small_enough(data, name)
    from openpyxl import load_workbook

    try:
        book = load_workbook(io.BytesIO(data), read_only=True, data_only=True)
        plain = load_workbook(io.BytesIO(data), read_only=True, data_only=False)
    except Exception as wrong:  # whatever the reader of a broken workbook raises is one thing for its owner
        raise refuse(name, "The workbook cannot be opened.", "Save it again as .xlsx, or as CSV.") from wrong
    problems: list[Problem] = []
    try:
        table = _gathered(_sheets(book, plain, problems), name, most)
    except Refused:
        raise
    except Exception as wrong:
        raise refuse(name, "A sheet of the workbook cannot be read.", "Save it again as .xlsx, or as CSV.") from wrong
    return Table(rows=table.rows, problems=tuple(problems))


def _small_enough(data: bytes, name: str) -> None:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            size = sum(entry.file_size for entry in archive.infolist())
            names = {entry.filename for entry in archive.infolist()}
            lying = declared = False
            for entry in archive.infolist() if size <= MOST_UNPACKED else ():
                unpacked = archive.open(entry).read(MOST_UNPACKED + 1)
                lying = lying or len(unpacked) != entry.file_size
                declared = declared or b"<!DOCTYPE" in unpacked
    except (zipfile.BadZipFile, OSError, RuntimeError, NotImplementedError, EOFError, ValueError) as wrong:
        raise refuse(name, "It is no workbook that can be opened.", "Save it again as .xlsx, or as CSV.") from wrong
    if size > MOST_UNPACKED or lying:
        raise refuse(name, "It would unpack to {size} bytes.", "Copy the table alone into a new workbook.", size=size)
    if declared:  # no workbook declares entities of its own: their only use is to grow without end when they are read
        raise refuse(name, "It declares what would grow when it is read.", "Save it again as .xlsx, or as CSV.")
    if "xl/workbook.xml" not in names:
        raise refuse(name, "It is an archive, but no workbook.", "Save the table as .xlsx, or as CSV.")


def _sheets(book: object, plain: object, problems: list[Problem]) -> Iterator[tuple[str, list[str]]]:
    for sheet, formulas in zip(book.worksheets, plain.worksheets, strict=True):  # type: ignore[attr-defined]
        rows = zip(sheet.iter_rows(), formulas.iter_rows(values_only=True), strict=False)
        for number, (values, typed) in enumerate(rows, 1):
            cells = [_cell(cell.value, cell.number_format) for cell in values]
            for column, (cell, formula) in enumerate(zip(values, typed, strict=False)):
                if cell.value is None and isinstance(formula, str) and formula.startswith("="):
                    where = f"{sheet.title}!{_letters(column)}{number}"
                    problems.append(Problem(where=where, what=said("A formula has no value kept beside it."),
                                            remedy=said("Open and save the workbook, or type the value.")))  # fmt: skip
            yield f"{sheet.title}!A{number}", cells


def _cell(value: object, number_format: str | None = None) -> str:
    """What the sheet shows: a workbook keeps 41.8 for 41.80, and only the format of the cell knows the zero."""
    if value is None:
        return ""
    if not isinstance(value, int | float) or isinstance(value, bool):
        return str(value)
    shown = _DECIMALS.fullmatch(number_format or "")
    text = f"{value:.{len(shown[1])}f}" if shown else ""
    exact = f"{value:.10g}" if isinstance(value, float) else str(value)
    return text if text and float(text) == float(exact) else exact


def _letters(column: int) -> str:
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def _gathered(rows: Iterable[tuple[str, list[str]]], name: str, most: int) -> Table:
    found: list[TableRow] = []
    for where, cells in rows:
        kept = [" ".join(cell.split()) for cell in cells]
        while kept and not kept[-1]:
            kept.pop()
        if not kept:
            continue
        if len(found) >= most:
            raise refuse(where, "{name} has more than {most} rows.", "Copy what is needed alone.",
                         name=name, most=most)  # fmt: skip
        if len(kept) > MOST_COLUMNS or any(len(cell) > MOST_CELL for cell in kept):
            raise refuse(where, "The row is too wide: {n} cells.", "Use at most {most} cells of {signs} signs.",
                         n=len(kept), most=MOST_COLUMNS, signs=MOST_CELL)  # fmt: skip
        found.append(TableRow(where=where, cells=tuple(kept)))
    if not found:
        raise refuse(name, "It holds no row.", "Copy the table with its headings.")
    return Table(rows=tuple(found))
