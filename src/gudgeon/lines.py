"""Where each key of a TOML text stands, so that a problem can name its line and a screen can change a cell in place.

The scanner follows TOML 1.0 as far as finding keys needs; it does not judge. At the first thing it cannot follow it
stops, and what it has found so far stands: `tomllib` words that error, with its own line.
"""

from __future__ import annotations

import json
import re
import tomllib
from bisect import bisect_left
from collections.abc import Mapping
from contextlib import suppress

Path = tuple[str | int, ...]

_DEEPEST = 100
_BLANK = re.compile(r"[ \t]*")
_BLANK_LINES = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_LINE_END = re.compile(r"(?:#[^\n]*)?(?:\r?\n|\Z)")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_STRING = re.compile(
    r'"""(?:[^\\]|\\.)*?"""(?:"{0,2})'
    r"|'''.*?'''(?:'{0,2})"
    r'|"(?:[^"\\\n]|\\[^\n])*"'
    r"|'[^'\n]*'",
    re.DOTALL,
)
_PLAIN = re.compile(r"[^,\]}\[{#\"'=\n]+")  # number, date, true: whatever stands there
#: A key and its value on one line, as nearly all lines are: read in one step, for speed alone.
_USUAL = re.compile(
    r"""([A-Za-z0-9_-]+)[ \t]*=[ \t]*(?:"(?:[^"\\\n]|\\[^\n])*"|'[^'\n]*'|[^\s,\]}\[{#"'=][^,\]}\[{#"'=\n]*)"""
    r"[ \t]*(?:#[^\n]*)?(?:\r?\n|\Z)"
)
_ESCAPE = re.compile(r"\\(?:u([0-9A-Fa-f]{4})|U([0-9A-Fa-f]{8})|(.))", re.DOTALL)
_ESCAPED = {"b": "\b", "t": "\t", "n": "\n", "f": "\f", "r": "\r", '"': '"', "\\": "\\"}


class _Lost(Exception):
    """The scanner cannot follow the text any further."""


def key_lines(text: str) -> dict[Path, int]:
    """The line, from 1, of every key, table header and array item, by its path: ``("limit", 3, "new")``."""
    scanner = _Scanner(text)
    with suppress(_Lost):
        scanner.document()
    return scanner.lines


def line_of(lines: Mapping[Path, int], path: Path) -> int:
    """The line of the path or of the nearest thing around it that has one; the first line if nothing has."""
    for length in range(len(path), 0, -1):
        line = lines.get(path[:length])
        if line is not None:
            return line
    return 1


def rewrite(lines: list[str], header: int, there: Mapping[str, int], pairs: Mapping[str, str]) -> None:
    """Write ``key = value`` cells of one table in place, comments kept: an empty pair takes its key out, new keys go last.

    `there` has the line of each key that the table has; it is worked from the last to the first, so that numbers hold.
    """
    last = end_of_row(lines, header)
    lines[last:last] = [pair for key, pair in pairs.items() if pair and key not in there]
    for key, line in sorted(there.items(), key=lambda item: -item[1]):
        if key in pairs:
            first, end = line - 1, end_of_value(lines, line - 1)
            lines[first:end] = [pairs[key] + comment_behind(lines[end - 1])] if pairs[key] else []


def end_of_row(lines: list[str], header: int) -> int:
    """The line after the last key of a row: before the blank lines and comments that lead to the next header."""
    end = header
    while end < len(lines) and not lines[end].lstrip().startswith("["):
        end = max(end + 1, end_of_value(lines, end))
    while end > header and (not lines[end - 1].strip() or lines[end - 1].lstrip().startswith("#")):
        end -= 1
    return end


def end_of_value(lines: list[str], first: int) -> int:
    """The line after a key and its value, which may go over several lines."""
    for end in range(first + 1, len(lines) + 1):
        try:
            tomllib.loads("\n".join(lines[first:end]))
        except tomllib.TOMLDecodeError:
            continue
        return end
    return first + 1


def comment_behind(line: str) -> str:
    """The comment behind a value, with the space before it; a sign inside quotes is none."""
    found = re.fullmatch(r"""(?:[^"'#]|"(?:[^"\\]|\\.)*"|'[^']*')*?(\s*#.*)""", line)
    return found[1] if found else ""


def quoted(value: str) -> str:
    """Text as TOML writes it."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.lines: dict[Path, int] = {}
        self._ends = [found.start() for found in re.finditer("\n", text)]
        self._counts: dict[Path, int] = {}  # how many tables each array of tables has so far
        self._table: Path = ()

    def document(self) -> None:
        self._skip(_BLANK_LINES)
        while self.at < len(self.text):
            if usual := _USUAL.match(self.text, self.at):
                self.lines.setdefault((*self._table, usual[1]), self._line())
                self.at = usual.end()
                self._skip(_BLANK_LINES)
                continue
            if self.text.startswith("[[", self.at):
                self._array_header()
            elif self.text.startswith("[", self.at):
                self._header()
            else:
                self._pair(self._table, 0)
            self._skip(_BLANK)
            self._match(_LINE_END)
            self._skip(_BLANK_LINES)

    def _header(self) -> None:
        line = self._line()
        self._expect("[")
        keys = self._keys()
        self._expect("]")
        self._table = self._resolve(keys[:-1], line) + keys[-1:]
        self.lines[self._table] = line

    def _array_header(self) -> None:
        line = self._line()
        self._expect("[[")
        keys = self._keys()
        self._expect("]]")
        array = self._resolve(keys[:-1], line) + keys[-1:]
        index = self._counts.get(array, 0)
        self._counts[array] = index + 1
        self.lines.setdefault(array, line)
        self._table = (*array, index)
        self.lines[self._table] = line

    def _resolve(self, keys: Path, line: int) -> Path:
        """The path of a header's parents: a key that names an array of tables means its last table."""
        path: Path = ()
        for key in keys:
            path = (*path, key)
            self.lines.setdefault(path, line)
            if path in self._counts:
                path = (*path, self._counts[path] - 1)
        return path

    def _pair(self, table: Path, depth: int) -> None:
        line = self._line()
        path = table
        for key in self._keys():
            path = (*path, key)
            self.lines.setdefault(path, line)
        self._expect("=")
        self._skip(_BLANK)
        self._value(path, depth)

    def _value(self, path: Path, depth: int) -> None:
        if depth > _DEEPEST:
            raise _Lost
        match self.text[self.at : self.at + 1]:
            case "[":
                self._array(path, depth + 1)
            case "{":
                self._inline_table(path, depth + 1)
            case '"' | "'":
                self._match(_STRING)
            case _:
                self._match(_PLAIN)

    def _array(self, path: Path, depth: int) -> None:
        self._expect("[")
        index = 0
        while not self._closed("]"):
            item = (*path, index)
            self.lines.setdefault(item, self._line())
            self._value(item, depth)
            self._comma_or("]")
            index += 1

    def _inline_table(self, path: Path, depth: int) -> None:
        self._expect("{")
        while not self._closed("}"):
            self._pair(path, depth)
            self._comma_or("}")

    def _closed(self, end: str) -> bool:
        self._skip(_BLANK_LINES)
        if self.text.startswith(end, self.at):
            self.at += 1
            return True
        return False

    def _comma_or(self, end: str) -> None:
        self._skip(_BLANK_LINES)
        if self.text.startswith(",", self.at):
            self.at += 1
        elif not self.text.startswith(end, self.at):
            raise _Lost

    def _keys(self) -> tuple[str, ...]:
        keys = [self._key()]
        self._skip(_BLANK)
        while self.text.startswith(".", self.at):
            self.at += 1
            keys.append(self._key())
            if len(keys) > _DEEPEST:
                raise _Lost
            self._skip(_BLANK)
        return tuple(keys)

    def _key(self) -> str:
        self._skip(_BLANK)
        match self.text[self.at : self.at + 1]:
            case "'":
                return self._match(_STRING)[1:-1]
            case '"':
                return _ESCAPE.sub(_unescaped, self._match(_STRING)[1:-1])
            case _:
                return self._match(_BARE_KEY)

    def _line(self) -> int:
        return bisect_left(self._ends, self.at) + 1

    def _skip(self, pattern: re.Pattern[str]) -> None:
        found = pattern.match(self.text, self.at)
        self.at = found.end() if found else self.at

    def _match(self, pattern: re.Pattern[str]) -> str:
        found = pattern.match(self.text, self.at)
        if found is None:
            raise _Lost
        self.at = found.end()
        return found[0]

    def _expect(self, signs: str) -> None:
        self._skip(_BLANK)
        if not self.text.startswith(signs, self.at):
            raise _Lost
        self.at += len(signs)


def _unescaped(found: re.Match[str]) -> str:
    code = found[1] or found[2]
    if code is None:
        plain = _ESCAPED.get(found[3])
        if plain is None:
            raise _Lost
        return plain
    if int(code, 16) > 0x10FFFF:
        raise _Lost
    return chr(int(code, 16))
