"""What differs between two books, row by row, as a technician compares two pages; and one book made like another."""

from __future__ import annotations

import json
import tomllib
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from gudgeon.book.parse import ROWS, parse_book
from gudgeon.book.write import Typed, with_row
from gudgeon.lines import key_lines
from gudgeon.problem import refuse

_NAMES = {"limit": ("of", "side", "method"), "part": ("number",), "fastener": ("name", "place"), "caution": ("at",),
          **dict.fromkeys(("own_part", "own_measure", "own_step", "own_check"), ("name",))}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One cell that is not the same; `old` is empty where it was added, `new` where it was removed."""

    where: str
    cell: str
    old: str
    new: str

    def __str__(self) -> str:
        return f"{self.where}, {self.cell}: {self.old or '–'} → {self.new or '–'}"


def differences(old: str, new: str) -> tuple[Difference, ...]:
    """Every cell that differs between two books' texts: changed and removed in the old order, then what was added."""
    was, now = _cells(old), _cells(new)
    return tuple(
        Difference(where=where, cell=cell, old=was.get((where, cell), ""), new=now.get((where, cell), ""))
        for where, cell in dict.fromkeys((*was, *now))
        if was.get((where, cell)) != now.get((where, cell))
    )


def like(text: str, name: str, changes: tuple[Mapping[str, Typed], ...] = ()) -> str:
    """A book of another name that is like this one, except for these limit rows; its comments and order kept."""
    text = text.removeprefix("\ufeff")
    parse_book(text)
    if not name.strip():
        raise refuse("book", "The new book has no name.", "Give it one, as the book's cover would.")
    lines, at = text.split("\n"), key_lines(text)
    line = at[("book", "name")] - 1
    lines[line] = f"name = {json.dumps(name.strip(), ensure_ascii=False)}"
    edition = at.get(("book", "edition"))
    if edition is not None:
        lines[edition - 1] = 'edition = "own"'
    new = "\n".join(lines)
    for row in changes:
        new = with_row(new, row)
    parse_book(new)
    return new


def _cells(text: str) -> dict[tuple[str, str], str]:
    """Every cell of a book under the name of its row, so that a row that moved is still the same."""
    parse_book(text)
    found: dict[tuple[str, str], str] = {}
    for key, value in tomllib.loads(text.removeprefix("\ufeff")).items():
        if key not in ROWS:
            found |= {(key, cell): said for cell, said in _flat(value)}
            continue
        seen: Counter[str] = Counter()
        for row in value:
            names = _NAMES.get(key, ("side",))
            where = " ".join(str(w) for w in (key, *(row.get(n, "") for n in names)) if w)
            seen[where] += 1
            where += f" ({seen[where]})" if seen[where] > 1 else ""
            found |= {(where, cell): said for cell, said in _flat(row)}
    return found


def _flat(value: Mapping[str, Any], before: str = "") -> Iterator[tuple[str, str]]:
    for key, cell in value.items():
        if isinstance(cell, dict):
            yield from _flat(cell, f"{before}{key}.")
        else:
            yield f"{before}{key}", "–".join(map(str, cell)) if isinstance(cell, list) else str(cell)
