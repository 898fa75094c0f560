"""A paper's numbers with the decimal mark of its workshop; names, part numbers and the title block stay as they are."""

from __future__ import annotations

import re
from dataclasses import replace

from gudgeon.papers.blocks import (
    Block,
    Caution,
    Cell,
    Checklist,
    Columns,
    Figure,
    KeyValues,
    Notice,
    Para,
    Table,
    Together,
)

#: Columns and facts that hold names, though they may look like numbers.
NAMES = frozenset({"number", "book", "page", "engine", "machine", "job", "ledger", "digest", "order", "thread"})
#: A number with a point that belongs to no name, date, version or range of names.
_NUMBER = re.compile(r"(?<![\w.,])(?<!\w-)(\d+)\.(\d+)(?![\d.]*\.\d)(?!-\w)")
_SHOWN = re.compile(r">([^<>]+)<")


def with_comma(blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    """The paper with decimal commas."""
    return tuple(_block(block) for block in blocks)


def comma(text: str) -> str:
    """Words with decimal commas: ``0.15 mm`` is ``0,15 mm``; ``c1.in`` and ``2.1.3`` stay."""
    return _NUMBER.sub(r"\1,\2", text)


def _block(block: Block) -> Block:
    match block:
        case Para():
            return Para(comma(block.text), block.tone)
        case Notice():
            return Notice(comma(block.text))
        case Caution():
            return Caution(comma(block.text))
        case Figure():
            return _figure(block)
        case Table():
            columns = tuple(_kept if head.casefold() in NAMES else _cell for head in block.head)
            rows = tuple(tuple(do(cell) for do, cell in zip(columns, row, strict=True)) for row in block.rows)
            return replace(block, rows=rows)
        case KeyValues():
            return KeyValues(
                tuple((key, text if key.casefold() in NAMES else comma(text)) for key, text in block.pairs)
            )
        case Checklist():
            return Checklist(tuple(replace(item, text=comma(item.text)) for item in block.items))
        case Columns():
            return Columns(tuple(with_comma(column) for column in block.columns))
        case Together():
            return Together(with_comma(block.blocks))
        case _:
            return block


def _figure(figure: Figure) -> Figure:
    return replace(figure, svg=_SHOWN.sub(_within, figure.svg), alt=comma(figure.alt), caption=comma(figure.caption))


def _within(found: re.Match[str]) -> str:
    return f">{comma(found[1])}<"


def _cell(cell: Cell) -> Cell:
    return _figure(cell) if isinstance(cell, Figure) else comma(cell)


def _kept(cell: Cell) -> Cell:
    return cell
