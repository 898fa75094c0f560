"""The shelf's text changed by rows, comments and order kept: what a screen edits stays a file that a person reads."""

from __future__ import annotations

import re
from collections.abc import Mapping

from gudgeon.lines import Path, end_of_row, key_lines, quoted, rewrite
from gudgeon.problem import refuse
from gudgeon.shelf.defaults import USUAL_GAUGES
from gudgeon.shelf.parse import TABLES
from gudgeon.shelf.rules import Rules
from gudgeon.shelf.typed import Typed

Cells = Mapping[str, str]
_BARE = re.compile(r"true|false|-?(0|[1-9]\d*)(\.\d+)?")


def usual_text() -> str:
    """A new workshop's shelf as text: the six usual gauges, ready to be changed."""
    head = "# What this workshop owns and how it decides. Changed on the screens or here.\n"
    rows = ("\n".join(["[[gauge]]", *_pairs("gauge", card.pinned())]) for card in USUAL_GAUGES)
    return head + "\n" + "\n\n".join(rows) + "\n"


def with_row(text: str, table: str, cells: Cells, index: int | None = None) -> str:
    """The text with one row more, or with the cells of the row `index` changed; an empty cell is taken out."""
    lines = text.removeprefix("\ufeff").split("\n")
    at = key_lines("\n".join(lines))
    if index is None:
        end = _after_table(lines, at, table)
        before = [""] if end and lines[end - 1].strip() else []
        after = [""] if end < len(lines) and lines[end].strip() else []
        lines[end:end] = [*before, f"[[{table}]]", *_pairs(table, cells), *after]
        return "\n".join(lines).rstrip("\n") + "\n"
    return _changed(lines, at, table, (table, index), cells)


def without_row(text: str, table: str, index: int) -> str:
    """The text without one row; a comment above it stays."""
    lines = text.removeprefix("\ufeff").split("\n")
    at = key_lines("\n".join(lines))
    header = _header(lines, at, (table, index))
    end = end_of_row(lines, header)
    while end < len(lines) and not lines[end].strip():
        end += 1
    return "\n".join([*lines[: header - 1], *lines[end:]])


def with_rules(text: str, cells: Cells) -> str:
    """The text with these rules changed; an empty one goes back to its default."""
    lines = text.removeprefix("\ufeff").split("\n")
    at = key_lines("\n".join(lines))
    if ("rules",) not in at:
        pairs = _pairs("rules", cells)
        first = next((n for n, line in enumerate(lines) if line.lstrip().startswith("[")), len(lines))
        while first and lines[first - 1].lstrip().startswith("#"):
            first -= 1
        return "\n".join([*lines[:first], "[rules]", *pairs, "", *lines[first:]]) if pairs else "\n".join(lines)
    return _changed(lines, at, "rules", ("rules",), cells)


def _changed(lines: list[str], at: Mapping[Path, int], table: str, path: Path, cells: Cells) -> str:
    """Change the cells of one table in place."""
    there = {str(key[-1]): line for key, line in at.items() if key[:-1] == path and len(key) == len(path) + 1}
    pairs = dict.fromkeys((key for key in there if key in cells), "") | _by_key(table, cells)
    rewrite(lines, _header(lines, at, path), there, pairs)
    return "\n".join(lines)


def _header(lines: list[str], at: Mapping[Path, int], path: Path) -> int:
    """The line of a table's header; tables written on one line are for hands that write files."""
    line = at.get(path, 0)
    if not line or not lines[line - 1].lstrip().startswith("["):
        raise refuse("shelf", "{what} is written on one line.", "Change it in the file, or give it a header of its own.",
                     what=" ".join(str(piece) for piece in path))  # fmt: skip
    return line


def _after_table(lines: list[str], at: Mapping[Path, int], table: str) -> int:
    """Where a new row goes: behind the last of its kind, else at the end."""
    rows = [line for path, line in at.items() if len(path) == 2 and path[0] == table]
    end = end_of_row(lines, max(rows)) if rows else len(lines)
    while not rows and end and not lines[end - 1].strip():
        end -= 1
    return end


def _pairs(table: str, cells: Cells) -> list[str]:
    return list(_by_key(table, cells).values())


def _by_key(table: str, cells: Cells) -> dict[str, str]:
    """Each filled cell as the line that holds it, in the order of the model."""
    fields = _model(table).model_fields
    found = {}
    for key in fields:
        value = cells.get(key, "").strip()
        if value:
            plain = fields[key].annotation in (bool, int, float) and _BARE.fullmatch(value)
            found[key] = f"{key} = {value if plain else quoted(value)}"
    return found


def _model(table: str) -> type[Typed]:
    return Rules if table == "rules" else TABLES[table]
