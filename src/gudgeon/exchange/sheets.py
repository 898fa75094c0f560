"""Tables as CSV and XLSX that a spreadsheet opens as what they are: numbers as numbers, and no text that it would run.

What somebody typed may begin with ``=`` or ``@``; opened as CSV it would be a formula. Such a piece of text gets an
apostrophe before it, here and behind every sign at which a spreadsheet may split a line. Numbers stay numbers, negative
ones too. Source: OWASP, "CSV Injection": cells that begin with ``= + - @``, tab or carriage return.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from math import isfinite

Cell = str | int | float | None

#: What a cell of a workbook holds at most (Excel's own limit); a longer text ends in "…".
LONGEST_CELL = 32_767
#: What a workbook's title for a sheet may not hold, and how long it may be (Excel's own limits).
_SHEET_NAME = re.compile(r"[\[\]:*?/\\]")
_CONTROLS = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufffe\uffff]+")
#: Pieces of a line as spreadsheets split it, and how a formula begins; the wide forms count as the plain ones do.
_PIECE = re.compile(r'(^|[;,|"])(\s*)(?=[=@＝＠+\-＋－])')
_NUMBER = re.compile(r"\s*[+\-]?\d+(?:[.,]\d+)?\s*$")
_MADE = datetime(1980, 1, 1, tzinfo=UTC).replace(tzinfo=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One table: its name, its headings with their units, its rows."""

    name: str
    head: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def harmless(text: str) -> str:
    """The text on one line, with an apostrophe wherever it could begin a formula; a plain number stays as it is."""
    line = _CONTROLS.sub(" ", text).strip()

    def guarded(found: re.Match[str]) -> str:
        plain = _NUMBER.match(line, found.end(1))
        return found[0] if plain else f"{found[1]}'{found[2]}"

    return _PIECE.sub(guarded, line)


def csv_bytes(sheet: Sheet) -> bytes:
    """The table as CSV: UTF-8 with its mark, commas, a point as decimal sign, every text in quotes."""
    out = io.StringIO(newline="")
    out.write("\ufeff")
    table = csv.writer(out, quoting=csv.QUOTE_NONNUMERIC, lineterminator="\r\n")
    table.writerow([harmless(cell) for cell in sheet.head])
    table.writerows([[_written(cell) for cell in row] for row in sheet.rows])
    return out.getvalue().encode()


class _Figure(float):
    """A number as it is written: without the noise of its last binary digits."""

    def __repr__(self) -> str:
        return f"{float(self):.12g}"

    __str__ = __repr__


def _written(cell: Cell) -> str | int | float:
    match cell:
        case None:
            return ""
        case float():
            return _Figure(cell) if isfinite(cell) else ""
        case int():
            return cell
        case str():
            return harmless(cell)


def xlsx_bytes(sheets: Sequence[Sheet], title: str) -> bytes:
    """The tables as one workbook; the same tables give the same bytes. No text in it becomes a formula or a link."""
    from xlsxwriter import Workbook

    out = io.BytesIO()
    options = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
    with Workbook(out, options) as book:
        book.set_properties({"title": _text(title), "created": _MADE})
        bold = book.add_format({"bold": True, "text_wrap": True, "valign": "top"})
        for sheet in sheets:
            page = book.add_worksheet(_SHEET_NAME.sub(" ", sheet.name)[:31])
            page.freeze_panes(1, 0)
            page.set_landscape()
            page.repeat_rows(0)
            for column, heading in enumerate(sheet.head):
                page.write_string(0, column, _text(heading), bold)
                page.set_column(column, column, _width(sheet, column))
            for number, row in enumerate(sheet.rows, 1):
                for column, cell in enumerate(row):
                    _write(page, number, column, cell)
    return out.getvalue()


def _write(page: object, row: int, column: int, cell: Cell) -> None:
    if isinstance(cell, str):
        page.write_string(row, column, _text(cell))  # type: ignore[attr-defined]
    elif cell is not None and isfinite(cell):
        page.write_number(row, column, float(f"{cell:.12g}"))  # type: ignore[attr-defined]


def _text(text: str) -> str:
    line = _CONTROLS.sub(" ", text).strip()
    return line if len(line) <= LONGEST_CELL else line[: LONGEST_CELL - 1] + "…"


def _width(sheet: Sheet, column: int) -> int:
    longest = max((len(str(row[column])) for row in sheet.rows[:200] if row[column] is not None), default=0)
    return min(max(longest, len(sheet.head[column]) // 2, 6) + 1, 48)
