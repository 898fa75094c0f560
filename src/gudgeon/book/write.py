"""A book grows by use: one more limit in its text, comments and order kept, under an edition of its own."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Mapping, Sequence
from typing import Any

from gudgeon.anatomy import Layout, Side
from gudgeon.book.parse import parse_book
from gudgeon.lines import Path, key_lines
from gudgeon.problem import refuse

Typed = str | Sequence[str]
#: The keys of a limit row, in the order in which they are written.
LIMIT_KEYS = ("of", "side", "new", "least", "most", "expect", "also_new", "also_least", "also_most", "page", "method",
              "place", "statistic", "remedies", "words", "note")  # fmt: skip


def with_limit(text: str, row: Mapping[str, Typed], name: str = "book") -> str:
    """The text with one more limit row, or with the cells of the row that was there changed.

    `row` has the keys of a ``[[limit]]``; an empty cell of a row that was there is taken out. The edition counts on:
    "2" becomes "2+1". The result is read before it is handed out, so that nothing wrong is ever stored.
    """
    new = _counted_on(with_row(text, row, name), parse_book(text, name).edition)
    parse_book(new, name)
    return new


def counted_on(text: str, name: str = "book") -> str:
    """The text under the edition that follows its own: several rows changed at once are one edition."""
    return _counted_on(text, parse_book(text, name).edition)


def with_row(text: str, row: Mapping[str, Typed], name: str = "book") -> str:
    """The text with one limit row added or changed, under the edition it had; read before it is handed out."""
    for key in row:
        if key not in LIMIT_KEYS:
            raise refuse(name, "A limit has no {key}.", "Use one of: {known}.", key=key, known=", ".join(LIMIT_KEYS))
    text = text.removeprefix("\ufeff")
    old = parse_book(text, name)
    lines = text.split("\n")
    of, side = str(row.get("of", "")), str(row.get("side", ""))
    index = next((n for n, limit in enumerate(old.limits) if limit.of == of and limit.side == side), None)
    if index is None:
        while lines and not lines[-1].strip():
            lines.pop()
        lines += ["", "[[limit]]", *(pair(key, row[key]) for key in LIMIT_KEYS if row.get(key)), ""]
    else:
        change(lines, text, ("limit", index), LIMIT_KEYS, row)
    new = "\n".join(lines)
    parse_book(new, name)
    return new


def empty_book(layout: Layout, name: str) -> str:
    """The text of a book that has nothing but a layout."""
    head = ["[book]", pair("name", name), pair("edition", "own"), "", "[layout]"]
    plain = ("cylinders", "arrangement", "cams", "cam_drive", "holders", "liquid", "bore", "decompressor", "rings")
    head += [pair(key, getattr(layout, key)) for key in plain]
    for key, side in (("in", layout.intake), ("ex", layout.exhaust)):
        head += ["", f"[layout.{key}]", *_side(side)]
    return "\n".join([*head, ""])


def _side(side: Side) -> list[str]:
    screw = ("screw_end",) if side.screw_end == "cam" else ()
    plain = ("valves", "follower", "lash_read", "lift_cam", "coated", *screw)
    return [*(pair(key, getattr(side, key)) for key in plain), pair("ratio", f"{side.ratio:.10g}")]


def pair(key: str, value: Any) -> str:
    return f"{key} = {_worded(value)}"


def _worded(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    if isinstance(value, Sequence):
        return "[" + ", ".join(_worded(item) for item in value) + "]"
    return str(value)


def change(lines: list[str], text: str, table: Path, keys: Sequence[str], row: Mapping[str, Any]) -> None:
    """Change the cells of one table in place, from the last line to the first so that line numbers hold."""
    at = key_lines(text)
    last = end_of_row(lines, at[table])
    there = {key: at[(*table, key)] for key in keys if (*table, key) in at}
    added = [pair(key, row[key]) for key in keys if row.get(key) and key not in there]
    lines[last:last] = added
    for key, line in sorted(there.items(), key=lambda item: -item[1]):
        if key in row and key not in ("of", "side"):
            first, end = line - 1, _end_of_value(lines, line - 1)
            lines[first:end] = [pair(key, row[key]) + _comment(lines[end - 1])] if row[key] else []


def end_of_row(lines: list[str], header: int) -> int:
    """The line after the last key of a row: before the blank lines and comments that lead to the next header."""
    end = header
    while end < len(lines) and not lines[end].lstrip().startswith("["):
        end = max(end + 1, _end_of_value(lines, end))
    while end > header and (not lines[end - 1].strip() or lines[end - 1].lstrip().startswith("#")):
        end -= 1
    return end


def _end_of_value(lines: list[str], first: int) -> int:
    """The line after a key and its value, which may be a list over several lines."""
    for end in range(first + 1, len(lines) + 1):
        try:
            tomllib.loads("\n".join(lines[first:end]))
        except tomllib.TOMLDecodeError:
            continue
        return end
    return first + 1


def _comment(line: str) -> str:
    """The comment behind a value, with the space before it; a sign inside quotes is none."""
    found = re.fullmatch(r"""(?:[^"'#]|"(?:[^"\\]|\\.)*"|'[^']*')*?(\s*#.*)""", line)
    return found[1] if found else ""


def _counted_on(text: str, edition: str) -> str:
    base, plus, count = edition.rpartition("+")
    new = f"{base}+{int(count) + 1}" if plus and count.isdigit() else f"{edition}+1"
    lines = text.split("\n")
    at = key_lines(text)
    line = at.get(("book", "edition"))
    if line is None:
        lines.insert(at[("book",)], pair("edition", new))
    else:
        lines[line - 1] = pair("edition", new) + _comment(lines[line - 1])
    return "\n".join(lines)
