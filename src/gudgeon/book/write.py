"""A book grows by use: one more limit in its text, comments and order kept, under an edition of its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from gudgeon.anatomy import Layout, Side
from gudgeon.book.parse import parse_book
from gudgeon.lines import Path, comment_behind, key_lines, quoted, rewrite
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
        return quoted(value)
    if isinstance(value, Sequence):
        return "[" + ", ".join(_worded(item) for item in value) + "]"
    return str(value)


def change(lines: list[str], text: str, table: Path, keys: Sequence[str], row: Mapping[str, Any]) -> None:
    """Change the cells of one table in place; what tells a limit from another stays."""
    at = key_lines(text)
    there = {key: at[(*table, key)] for key in keys if (*table, key) in at}
    fixed = [key for key in ("of", "side") if key in there]
    pairs = {key: pair(key, row[key]) if row[key] else "" for key in keys if key in row and key not in fixed}
    rewrite(lines, at[table], there, pairs)


def _counted_on(text: str, edition: str) -> str:
    base, plus, count = edition.rpartition("+")
    new = f"{base}+{int(count) + 1}" if plus and count.isdigit() else f"{edition}+1"
    lines = text.split("\n")
    at = key_lines(text)
    line = at.get(("book", "edition"))
    if line is None:
        lines.insert(at[("book",)], pair("edition", new))
    else:
        lines[line - 1] = pair("edition", new) + comment_behind(lines[line - 1])
    return "\n".join(lines)
