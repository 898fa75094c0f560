"""A whole page of a book changed at once, as a technician fills a grid: comments and order kept, read before it is handed out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError

from gudgeon.book.parse import ROWS, TABLES, parse_book
from gudgeon.book.write import change, pair
from gudgeon.lines import end_of_row, key_lines
from gudgeon.problem import Problem, said
from gudgeon.shelf.typed import keys_of

Cell = Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """The cells of one row that are no longer as they were; `row` is its index, none for a new one.

    An empty cell is taken out of its row; a row that is `gone` is taken out of the book.
    """

    table: str
    row: int | None = None
    cells: Mapping[str, Cell] | None = None
    gone: bool = False


def with_cells(text: str, changes: Iterable[Changed], name: str = "book") -> str:
    """The text with all of these changes, under the edition it had."""
    text = text.removeprefix("\ufeff")
    parse_book(text, name)
    last_first = sorted(changes, key=lambda one: (one.gone, -(one.row or 0) if one.gone else 0))
    for one in last_first:
        text = _with(text, one)
    parse_book(text, name)
    return text


def refused_cells(table: str, raw: Mapping[str, Cell]) -> dict[str, Problem]:
    """What is wrong with the cells of one row, by cell; under no name what is wrong with the row."""
    model = ROWS[table][1] if table in ROWS else TABLES[table][1]
    try:
        model.model_validate(dict(raw))
    except ValidationError as error:
        return {str(d["loc"][0]) if d["loc"] else "": _problem(dict(d)) for d in error.errors(include_url=False)}
    return {}


def _problem(details: Mapping[str, Any]) -> Problem:
    problem = details.get("ctx", {}).get("problem")
    if isinstance(problem, Problem):
        return problem
    given = str(details["input"])[:40]
    return Problem(where="", what=said("{given} does not fit: {why}.", given=given, why=str(details["msg"])),
                   remedy=said("Look at the page again."))  # fmt: skip


def _with(text: str, one: Changed) -> str:
    at, lines = key_lines(text), text.split("\n")
    if one.gone and one.row is not None:
        header = at[(one.table, one.row)]
        del lines[header - 1 : end_of_row(lines, header)]
        return "\n".join(lines)
    cells, keys = one.cells or {}, _keys(one.table)
    if one.table in TABLES and (one.table,) in at:
        change(lines, text, (one.table,), keys, cells)
    elif one.row is not None:
        change(lines, text, (one.table, one.row), keys, cells)
    else:
        above = f"[{one.table}]" if one.table in TABLES else f"[[{one.table}]]"
        while lines and not lines[-1].strip():
            lines.pop()
        lines += ["", above, *(pair(key, cells[key]) for key in keys if cells.get(key)), ""]
    return "\n".join(lines)


def _keys(table: str) -> tuple[str, ...]:
    return keys_of((ROWS[table] if table in ROWS else TABLES[table])[1])
