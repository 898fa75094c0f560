"""Every key of any valid document is found on its line; nothing that is typed makes the scanner raise or hang."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.lines import Path, key_lines, line_of

DOCUMENT = '''# a book
layout = "single"  # line 2
a.b . "c d" = 1
sizes = [1,
  2, # comment with ] and "
  {k = "v", m = [3]},
  1979-05-27 07:32:00Z, """x
]""",
]
words = """
key = 1
[not_a_table]
""""
raw = \'\'\'
other = "\'\'
\'\'\'
"q\\u0041.b".\'lit [key]\' = 0
[ fits . stem ]
new = { from = 1, "to" = [[1], [2]] }
[[limit]]
new = 1
[limit.sub]
z = 3
[[limit]]
[[limit.deep]]
x = true
[[limit.deep]]
x = false
[late.inner]
[late]
e = 1'''


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("layout",), 2),
        (("a",), 3),
        (("a", "b", "c d"), 3),
        (("sizes",), 4),
        (("sizes", 0), 4),
        (("sizes", 1), 5),
        (("sizes", 2, "k"), 6),
        (("sizes", 2, "m", 0), 6),
        (("sizes", 3), 7),
        (("sizes", 4), 7),
        (("words",), 10),
        (("raw",), 14),
        (("qA.b", "lit [key]"), 17),
        (("fits", "stem"), 18),
        (("fits", "stem", "new", "from"), 19),
        (("fits", "stem", "new", "to", 1, 0), 19),
        (("limit",), 20),
        (("limit", 0), 20),
        (("limit", 0, "new"), 21),
        (("limit", 0, "sub", "z"), 23),
        (("limit", 1), 24),
        (("limit", 1, "deep", 0, "x"), 26),
        (("limit", 1, "deep", 1), 27),
        (("limit", 1, "deep", 1, "x"), 28),
        (("late", "inner"), 29),
        (("late",), 30),
        (("late", "e"), 31),
    ],
)
@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_every_form_of_key(path: Path, line: int, ending: str) -> None:
    text = DOCUMENT.replace("\n", ending)
    tomllib.loads(text)
    assert key_lines(text)[path] == line


def test_text_inside_strings_and_comments_is_no_key() -> None:
    found = key_lines(DOCUMENT)
    assert ("key",) not in found
    assert ("not_a_table",) not in found
    assert ("other",) not in found
    assert set(_paths(tomllib.loads(DOCUMENT))) == set(found)


def test_nearest_thing_around_a_missing_path() -> None:
    lines = key_lines(DOCUMENT)
    assert line_of(lines, ("limit", 1, "new")) == 24
    assert line_of(lines, ("limit", 7, "new")) == 20
    assert line_of(lines, ("layout", "x", "y")) == 2
    assert line_of(lines, ("nothing",)) == 1
    assert line_of(lines, ()) == 1
    assert line_of({}, ("a", 1)) == 1


@pytest.mark.parametrize(
    "text",
    [
        "", "=", "[", "[[", "[a", "[[a]", "a", "a=", "a = [", "a = {", "a = [1, 2", "a = {b = 1", 'a = "x', "a = '''x",
        'a = """x', "a = 1 2", '"\\uZZZZ" = 1', '"\\UFFFFFFFF" = 1', '"\\q" = 1', "a..b = 1", ". = 1", "a = ]", "a b = 1",
        "\x00", "\ufeffa = 1", "a = 1\r", "[]", "[[]]", "a = [,]", "a = {,}", "a = [[[[" * 30_000, "a = " + "[" * 100_000,
        "a = " + "{a = " * 50_000, "a" + ".a" * 100_000 + " = 1", "a=[1,\n" * 50_000, "a='''\n" * 50_000, "\n" * 200_000,
        'a="' * 50_000, "[" + "a." * 50_000 + "b]", "#" * 200_000, " " * 200_000, 'a = """' + "\\" * 100_001,
    ],
)  # fmt: skip
def test_malformed_text_neither_raises_nor_hangs(text: str) -> None:
    found = key_lines(text)
    assert all(1 <= line <= text.count("\n") + 1 for line in found.values())


def test_what_stands_before_the_error_is_kept() -> None:
    assert key_lines("a = 1\nb = \nc = 3") == {("a",): 1, ("b",): 2}


def test_deep_nesting_is_answered_by_its_nearest_ancestor() -> None:
    text = "a = " + "[" * 300 + "]" * 300
    lines = key_lines(text)
    assert line_of(lines, ("a", *([0] * 299))) == 1


@given(st.text())
def test_any_text(text: str) -> None:
    key_lines(text)


@given(st.text(alphabet="ab.=[]{}\"'#,\\ \n\r1u"))
@settings(max_examples=400)
def test_any_text_of_toml_signs_agrees_when_it_is_valid(text: str) -> None:
    found = key_lines(text)
    try:
        document = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError):
        return
    assert set(_paths(document)) <= set(found)


# -- random documents: emitted with the line of every key known --------------------------------------------------------

KEY_TEXT = st.one_of(st.text("abcz-_019", min_size=1, max_size=4), st.text("ab.\"'\\ []#=\té🔧", max_size=5))
SCALARS = ["1", "-0.5", "true", "1979-05-27 07:32:00Z", "07:32:00", '"x # ] y"', "'l = [1]'", "inf", '""', "''"]
LONG = [
    '"""\nk = 1\n[t]\n"""',
    "'''\n[[x]]\n'''",
    '"""a""b\\"""c \\\\"""',
    '""""""',
    "''''''",
    '"""two\n\\\n  lines"""""',
    "'''it''s'''''",
]


def spelled(key: str, how: int) -> str:
    """The key as TOML may write it: bare or quoted."""
    if key and all(c.isascii() and (c.isalnum() or c in "-_") for c in key) and how % 3 == 0:
        return key
    if "'" not in key and how % 3 == 1:
        return f"'{key}'"
    escaped = key.replace("\\", "\\\\").replace('"', '\\"').replace("\t", "\\t")
    return '"' + escaped.replace("é", "\\u00e9") + '"'


class Emitter:
    """Writes a document piece by piece and notes the line of each key as it is written."""

    def __init__(self, draw: st.DrawFn) -> None:
        self.draw, self.text, self.truth = draw, "", {}

    def number(self, most: int) -> int:
        return int(self.draw(st.integers(0, most)))

    @property
    def line(self) -> int:
        return self.text.count("\n") + 1

    def key(self) -> str:
        return str(self.draw(KEY_TEXT))

    def blank(self) -> None:
        self.text += ["", " ", "\t", "  "][self.number(3)]

    def value(self, path: Path, depth: int, one_line: bool) -> None:
        kind = self.number(3) if depth < 3 else 0
        if kind == 1:
            self.array(path, depth, one_line)
        elif kind == 2:
            self.inline(path, depth)
        elif kind == 3 and not one_line:
            self.text += LONG[self.number(len(LONG) - 1)]
        else:
            self.text += SCALARS[self.number(len(SCALARS) - 1)]

    def array(self, path: Path, depth: int, one_line: bool) -> None:
        self.text += "["
        many = self.number(3)
        for index in range(many):
            self.text += " " if one_line or self.number(1) else "\n # x ]\n  "
            self.truth[(*path, index)] = self.line
            self.value((*path, index), depth + 1, one_line)
            self.text += "," if index < many - 1 or self.number(1) else ""
        self.text += "]"

    def inline(self, path: Path, depth: int) -> None:
        self.text += "{"
        names = {self.key() for _ in range(self.number(2))}
        for index, name in enumerate(sorted(names)):
            self.text += ", " if index else " "
            self.pair(path, name, depth + 1, True)
        self.text += " }"

    def pair(self, path: Path, name: str, depth: int, one_line: bool) -> None:
        keys = [name] + [self.key() for _ in range(self.number(1))]
        for index, key in enumerate(keys):
            self.text += " . " if index and self.number(1) else "." if index else ""
            self.text += spelled(key, self.number(2))
            path = (*path, key)
            self.truth.setdefault(path, self.line)
        self.blank()
        self.text += "="
        self.blank()
        self.value(path, depth, one_line)

    def pairs(self, path: Path) -> None:
        for name in sorted({self.key() for _ in range(self.number(3))}):
            self.pair(path, "k" + name, 0, False)
            self.blank()
            self.text += ["\n", " # [no] = 1\n", "\n\n"][self.number(2)]


@st.composite
def documents(draw: st.DrawFn) -> tuple[str, dict[Path, int]]:
    out = Emitter(draw)
    out.pairs(())
    for name in sorted({out.key() for _ in range(out.number(2))}):
        for index in range(out.number(2) + 1):
            out.truth.setdefault(("t" + name,), out.line)
            out.truth[("t" + name, index)] = out.line
            out.text += f"[[ {spelled('t' + name, out.number(2))} ]] # x\n"
            out.pairs(("t" + name, index))
            out.truth[("t" + name, index, "sub")] = out.line
            out.text += f"  [{spelled('t' + name, out.number(2))} . sub]\n"
            out.pairs(("t" + name, index, "sub"))
    for name in sorted({out.key() for _ in range(out.number(2))}):
        out.truth[("h" + name,)] = out.line
        out.text += f"[{spelled('h' + name, out.number(2))}]\n"
        out.pairs(("h" + name,))
    return out.text, out.truth


@given(documents(), st.sampled_from(["\n", "\r\n"]))
@settings(max_examples=250, deadline=None)
def test_random_documents(made: tuple[str, dict[Path, int]], ending: str) -> None:
    text, truth = made
    text = text.replace("\n", ending)
    found = key_lines(text)
    assert found == truth
    assert set(_paths(tomllib.loads(text))) == set(found)


def _paths(node: Any, path: Path = ()) -> list[Path]:
    """Every path of a loaded document."""
    if isinstance(node, dict):
        children = list(node.items())
    elif isinstance(node, list):
        children = list(enumerate(node))
    else:
        children = []
    return [p for key, child in children for p in ((*path, key), *_paths(child, (*path, key)))]
