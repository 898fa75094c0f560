"""Readings from a CSV: the columns a technician would write, all or nothing, every problem with its line."""

from __future__ import annotations

import csv
import io
import re
from dataclasses import dataclass
from typing import Any

from gudgeon.job.entries import Reading
from gudgeon.problem import Problem, Refused, refuse, said

COLUMNS = ("measurand", "where", "point", "text", "unit", "gauge", "temperature", "confirm")
NEEDED = ("measurand", "where", "text", "gauge")
MOST_ROWS = 20_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A reading and the line it stands on."""

    line: int
    reading: Reading


def readings(text: str, name: str = "csv") -> tuple[Row, ...]:
    """The rows of a CSV with a header; separators comma, semicolon or tab; empty lines are passed over."""
    text = text.removeprefix("\ufeff")
    if "\0" in text:
        raise refuse(name, "It is no text.", "Export it as CSV.")
    first = next((line for line in re.split(r"[\r\n]+", text) if line.strip()), "")
    separator = max(",;\t", key=first.count)
    table = csv.reader(io.StringIO(text, newline=""), delimiter=separator)
    try:
        header = [cell.strip().lower() for cell in next((row for row in table if any(map(str.strip, row))), [])]
        _header(header, name)
        found, problems = _rows(table, header, name)
    except csv.Error as wrong:
        raise refuse(
            f"{name}, line {table.line_num}", "It is no CSV: {why}.", "Export it again.", why=str(wrong)
        ) from None
    if problems:
        raise Refused(problems)
    if not found:
        raise refuse(name, "It holds no reading.", "Give one line a reading.")
    return tuple(found)


def _header(header: list[str], name: str) -> None:
    missing = [c for c in NEEDED if c not in header]
    unknown = [c for c in header if c not in COLUMNS]
    twice = [c for c in header if header.count(c) > 1]
    if missing or unknown or twice:
        raise refuse(f"{name}, line 1", "Columns missing: {missing}; unknown: {unknown}; twice: {twice}.",
                     "Columns are: {known}.", missing=", ".join(missing) or "none", unknown=", ".join(unknown) or "none",
                     twice=", ".join(dict.fromkeys(twice)) or "none", known=", ".join(COLUMNS))  # fmt: skip


def _rows(table: Any, header: list[str], name: str) -> tuple[list[Row], list[Problem]]:
    found: list[Row] = []
    problems: list[Problem] = []
    for cells in table:
        line = table.line_num
        if not any(cell.strip() for cell in cells):
            continue
        if len(found) >= MOST_ROWS:
            raise refuse(f"{name}, line {line}", "It has over {most} readings.", "Split it.", most=MOST_ROWS)
        if len(cells) != len(header):
            what = said("It has {n} cells, the header {of}.", n=len(cells), of=len(header))
            problems.append(
                Problem(where=f"{name}, line {line}", what=what, remedy=said("Quote cells with separators."))
            )
            continue
        row = dict(zip(header, (cell.strip() for cell in cells), strict=True))
        confirm = tuple(row.get("confirm", "").split())
        reading = Reading(
            measurand=row["measurand"],
            where=row["where"],
            point=row.get("point", ""),
            text=row["text"],
            unit=row.get("unit", ""),
            gauge=row["gauge"],
            temperature=row.get("temperature", ""),
            confirmed=confirm,
        )
        found.append(Row(line=line, reading=reading))
    return found, problems
