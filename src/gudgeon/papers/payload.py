"""Blocks as plain data for the template: typed text cut into lines, what cannot be printed spelled out."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import date as Date
from functools import cache
from typing import assert_never

from gudgeon.figures.svg import printable
from gudgeon.papers.blocks import (
    Block,
    Caution,
    Cell,
    Checklist,
    Columns,
    Fields,
    Figure,
    Heading,
    KeyValues,
    Notice,
    PageBreak,
    Para,
    Photo,
    Signature,
    Table,
    TitleBlock,
    Together,
    title_of,
)
from gudgeon.papers.typesetting import Data, Paper, Unshown
from gudgeon.papers.widths import lines_taken

WORDS = {
    "engine": "engine",
    "job": "job",
    "book": "book",
    "by": "by",
    "ledger": "ledger",
    "date": "date",
    "page": "sheet",
    "page-of": "{page} of {pages}",
    "signature": "signature",
    "caution": "Caution.",
    "code": "code of this paper",
}
LONGEST_RUN = 28
LONG_RUN = re.compile(rf"\S{{{LONGEST_RUN},}}")
ISO_DATE = re.compile(r"\d{4}-\d\d-\d\d")
#: A sign stays with its number, or a line ends in "(≤".
SIGN_AND_SPACE = re.compile("([≤≥±]) ")
PIECE = re.compile(r".{1,4}")
BREAK_HERE = "\u200b"
LONG_CELL, LONG_BLOCK = 400, 1200
#: What the sheet leaves for blocks, between columns and beside a cell's words; the template sets the same.
ROOM_MM: Mapping[Paper, float] = {"a4": 168.0, "us-letter": 173.9}
GUTTER_MM, INSET_MM = 7.0, 1.4
CELL_POINTS, DENSE_POINTS = 10.0, 8.5
ROOM = {"paper": 40, "engine": 56, "job": 56, "book": 44, "by": 24, "ledger": 56, "date": 24, "for_whom": 36}


class Writer:
    """Cleans typed text, knowing which characters no font can draw, and how wide a table may be."""

    def __init__(self, unshown: Unshown, paper: Paper = "a4") -> None:
        self.spelled = {ord(c): f"‹U+{ord(c):04X}›" for c in unshown if ord(c) > 127}
        self.deepest = 1
        self.room_mm = ROOM_MM[paper]
        self.cells: dict[str, list[str] | str] = {}

    def line(self, text: str) -> str:
        """One line: visible, and breakable where it has no space."""
        seen = text if text.isprintable() else printable(text.replace("\t", "    "))
        seen = seen.translate(self.spelled) if self.spelled else seen
        if not seen.isascii():
            seen = SIGN_AND_SPACE.sub("\\1\u00a0", seen)
        if len(seen) < LONGEST_RUN:
            return seen
        return LONG_RUN.sub(lambda run: BREAK_HERE.join(PIECE.findall(run[0])), seen)

    def lines(self, text: str) -> list[str]:
        """Typed text by its line ends."""
        return [self.line(one) for one in text.replace("\r\n", "\n").replace("\r", "\n").split("\n")] if text else []

    def plain(self, text: str) -> str:
        """One line of metadata or words for a drawing, without places to break."""
        return self.line(text).replace(BREAK_HERE, "")

    def short(self, text: str, room: int) -> str:
        """A title block's cell: one line, its end marked where it was cut (the sheet's head has the whole)."""
        one = " ".join(text.split())
        return self.line(one if len(one) <= room else one[: room - 1] + "…")

    def figure(self, block: Figure) -> Data:
        """A drawing; its markup is plain ASCII, so only its words can change."""
        svg = block.svg.translate(self.spelled)
        alt, caption = self.plain(block.alt), self.lines(block.caption)
        return {"kind": "figure", "svg": svg, "alt": alt, "width": block.width_mm, "caption": caption}

    def photo(self, block: Photo) -> Data:
        """A photo; its file goes as numbers, since the template reads no other bytes than those it is given."""
        alt, caption = self.plain(block.caption), self.lines(block.caption)
        return {"kind": "photo", "data": list(block.data), "alt": alt, "caption": caption}

    def cell(self, cell: Cell) -> Data | list[str] | str:
        """A table's cell; a single line that needs no place to break goes as it is, since a record has thousands of them."""
        if isinstance(cell, Figure):
            return self.figure(cell)
        if cell not in self.cells:
            lines = self.lines(cell)
            self.cells[cell] = lines[0] if len(lines) == 1 and BREAK_HERE not in lines[0] else lines
        return self.cells[cell]

    def heights(self, rows: list[list[Data | list[str] | str]], widths: tuple[float, ...], points: float) -> list[int]:
        """The lines that each row takes; 0 where it holds a drawing or a run without a space: the template measures it."""
        rooms = [w * self.room_mm / sum(widths) - 2 * INSET_MM for w in widths]

        @cache
        def taken(line: str, room: float) -> int:
            return lines_taken(line, room, points)

        def lines(cell: Data | list[str] | str, room: float) -> int:
            if isinstance(cell, dict):
                return 0
            each = [taken(line, room) for line in ((cell,) if isinstance(cell, str) else cell or ("",))]
            return sum(each) if all(each) else 0

        counted = ([lines(cell, room) for cell, room in zip(row, rooms, strict=True)] for row in rows)
        return [max(row) if all(row) else 0 for row in counted]

    def table(self, block: Table) -> Data:
        """A table; its rows stay whole unless one is long."""
        if not block.rows:
            block = replace(block, rows=((block.empty, *("",) * (len(block.head) - 1)),))
        widths = block.widths or (1.0,) * len(block.head)
        strings = [c for row in block.rows for c in row if isinstance(c, str)]
        breakable = any(len(c) > LONG_CELL for c in strings)
        points = DENSE_POINTS if block.dense else CELL_POINTS
        parts, lines = [], []
        for words, rows in block.parts():
            cells = [[self.cell(c) for c in row] for row in rows]
            lines += [0] if words else []
            lines += [0] * len(cells) if breakable else self.heights(cells, widths, points)
            parts.append({"head": self.lines(words), "cells": [c for row in cells for c in row]})
        return {
            "kind": "table",
            "head": [self.lines(h) for h in block.head],
            "parts": parts,
            "lines": lines,
            "widths": widths,
            "align": block.align or ("left",) * len(block.head),
            "breakable": breakable,
            "drawn": len(strings) < len(block.rows) * len(block.head),
            "dense": block.dense,
        }

    def block(self, block: Block) -> Data | None:
        """One block; the title block goes to the foot of the sheet and is none here."""
        match block:
            case TitleBlock():
                return None
            case Heading(text=text, level=level):
                words = self.lines(text.strip())
                return (
                    {"kind": "heading", "text": words, "level": self.depth(level), "small": level > 1}
                    if words
                    else None
                )
            case Para(text=text, tone=tone):
                return {"kind": "para", "text": self.lines(text), "tone": tone}
            case Notice(text=text):
                return {"kind": "notice", "text": self.lines(text)}
            case Caution():
                said = self.lines(block.words())
                return {"kind": "caution", "text": said, "breakable": len(block.text) > LONG_BLOCK}
            case Figure():
                return self.figure(block)
            case Photo():
                return self.photo(block)
            case Table():
                return self.table(block)
            case KeyValues(pairs=pairs):
                wide = max((min(52, 2 * len(k) + 4) for k, _ in pairs), default=20)
                return {"kind": "keyvalues", "pairs": [(self.lines(k), self.lines(v)) for k, v in pairs], "wide": wide}
            case Fields(labels=labels, columns=columns):
                return {"kind": "fields", "labels": [self.lines(x) for x in labels], "columns": max(columns, 1)}
            case Signature(roles=roles, statement=statement):
                long = len(statement) + sum(map(len, roles)) > LONG_BLOCK
                data = {"kind": "signature", "roles": [self.lines(r) for r in roles], "breakable": long}
                return data | {"statement": self.lines(statement)}
            case Checklist(items=items):
                return {"kind": "checklist", "items": [{"text": self.lines(i.text), "done": i.done} for i in items]}
            case PageBreak():
                return {"kind": "pagebreak"}
            case Columns(columns=columns):
                return {"kind": "columns", "columns": self.side_by_side(columns)}
            case Together(blocks=blocks):
                return {"kind": "together", "blocks": self.blocks(blocks)}
            case _:
                assert_never(block)

    def side_by_side(self, columns: tuple[tuple[Block, ...], ...]) -> list[list[Data]]:
        """Blocks in columns, each with its share of the width."""
        whole = self.room_mm
        self.room_mm = (whole - GUTTER_MM * (len(columns) - 1)) / max(len(columns), 1)
        found = [self.blocks(c) for c in columns]
        self.room_mm = whole
        return found

    def depth(self, level: int) -> int:
        """A heading's depth: none is skipped, or a reader that does not see loses its way."""
        depth = min(max(level, 1), self.deepest, 2)
        self.deepest = depth + 1
        return depth

    def blocks(self, blocks: tuple[Block, ...]) -> list[Data]:
        """Blocks in order."""
        return [data for b in blocks if (data := self.block(b)) is not None]

    def title(self, block: TitleBlock) -> Data:
        """The title block's cells."""
        cells = {name: self.short(getattr(block, name), room) for name, room in ROOM.items()}
        keywords = tuple(self.plain(w) for w in (block.engine, block.job, block.ledger, block.mark) if w)
        meta = {"name": self.plain(block.paper.strip() or "–"), "author": self.plain(block.by), "keywords": keywords}
        return cells | meta | {"code": block.code, "issued": _issued(block.date)}


def _issued(date: str) -> tuple[int, ...]:
    """Year, month and day where the title block's date begins with them; the file's own date is this or none."""
    found = ISO_DATE.match(date)
    try:
        return Date.fromisoformat(found[0]).timetuple()[:3] if found else ()
    except ValueError:
        return ()


def payload(
    blocks: tuple[Block, ...], unshown: Unshown, translate: Mapping[str, str] | None = None, paper: Paper = "a4"
) -> Data:
    """All that the template needs except the language and its fonts."""
    writer, title = Writer(unshown, paper), title_of(blocks)
    under = " · ".join(w for w in (title.engine, title.job, title.workshop) if w)
    return {
        "paper": paper,
        "title": writer.title(title),
        "heading": writer.lines(title.paper.strip() or "–"),
        "under": writer.lines(under),
        "words": {name: (translate or {}).get(text, text) for name, text in WORDS.items()},
        "blocks": writer.blocks(blocks),
    }
