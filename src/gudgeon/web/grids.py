"""The small tables of shelf and prices as grids: every row can be typed over, three empty ones wait below."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from gudgeon.problem import Problem
from gudgeon.web.cells import Cell, problem_at

#: Empty rows below what is there.
SPARE = 2
Column = tuple[str, str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A table to type in: its rows of cells, and how many stand in it."""

    table: str
    title: str
    word: str
    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    problem: str = ""

    @property
    def size(self) -> int:
        """How many rows a form sends."""
        return len(self.rows)


def columns(table: str) -> tuple[str, str, tuple[Column, ...]]:
    """Title, a word on it, and the columns of a grid: key, head, an example."""
    grids = {
        "wrench": (
            _("Wrenches"),
            _("A setting counts only where the wrench is proved: from a fifth of its scale's end upwards."),
            (("id", _("short name"), "W-1"), ("name", _("name"), ""), ("low", _("from"), "5 N·m"),
             ("high", _("to"), "25 N·m"), ("error", _("error"), "4 %"), ("length", _("grip to square"), "270 mm")),
        ),
        "shim": (
            _("Shims"),
            _("What a job takes comes off the count; a shim that comes out and is not used again returns as measured."),
            (("size", _("size"), "1.70 mm"), ("count", _("count"), "2"), ("measured", _("measured"), "1.704 mm"),
             ("diameter", _("diameter"), "9.48 mm"), ("where", _("where it lies"), "")),
        ),
        "leftover": (
            _("Parts left over"),
            _("They are used before anything is ordered."),
            (("number", _("number"), ""), ("name", _("part"), ""), ("count", _("count"), "1"), ("state", _("state"), "new"),
             ("job", _("left by job"), "")),
        ),
        "work": (
            _("What work costs"),
            _("An operation done outside by its price (cut_seat), a whole scope done here by its usual hours (valves)."),
            (("of", _("operation or scope"), "cut_seat"), ("price", _("price"), "31.00"), ("hours", _("hours"), "1.5 h")),
        ),
        "price": (
            _("Own prices of parts"),
            _("They beat the book's."),
            (("number", _("number"), ""), ("price", _("price"), "12.50")),
        ),
    }  # fmt: skip
    return grids[table]


def grid_of(table: str, rows: Sequence[Mapping[str, str]], wrong: Mapping[str, Problem]) -> Grid:
    """A grid with what stands in it, or with what was typed and refused."""
    title, word, heads = columns(table)
    spare = max(0, SPARE - sum(1 for row in rows if not any(row.values())))
    filled = (*rows, *({} for _n in range(spare)))
    return Grid(
        table=table,
        title=title,
        word=word,
        heads=tuple(head for _key, head, _example in heads),
        rows=tuple(
            tuple(
                Cell(name=f"{key}-{n}", label=f"{head}, {n + 1}", value=row.get(key, ""), hint=example if n == len(rows) else "",
                     problem=problem_at(wrong, f"{key}-{n}"))
                for key, head, example in heads
            )
            for n, row in enumerate(filled)
        ),
        problem=problem_at(wrong, ""),
    )  # fmt: skip


def typed_rows(table: str, cells: Mapping[str, str]) -> tuple[dict[str, str], ...]:
    """The rows that a form sent, empty ones too: they are how a row is taken out."""
    keys = [key for key, _head, _example in columns(table)[2]]
    size = min(int(cells.get("rows", "0")) if cells.get("rows", "").isdigit() else 0, 500)
    rows = [{key: cells.get(f"{key}-{n}", "").strip() for key in keys} for n in range(size)]
    return tuple(rows)
