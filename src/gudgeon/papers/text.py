"""A paper as plain lines: what two papers are compared by, and what a terminal can show."""

from __future__ import annotations

from typing import assert_never

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
)


def lines(blocks: tuple[Block, ...]) -> tuple[str, ...]:
    """Every line of a paper in order; a figure by its words, the title block by the paper's name."""
    return tuple(line for block in blocks for line in _block(block) if line.strip())


def _block(block: Block) -> tuple[str, ...]:
    match block:
        case TitleBlock():
            return (f"{block.paper}: {block.engine}, {block.job}, {block.book}",)
        case Heading(text=text) | Para(text=text) | Notice(text=text):
            return tuple(text.split("\n"))
        case Caution():
            return (block.words(),)
        case Figure():
            return (block.alt, block.caption)
        case Photo(sha256=sha, caption=caption):
            return (f"{caption} (photo {sha[:8]})",)
        case Table():
            found = ((words, *(" | ".join(map(_cell, row)) for row in rows)) for words, rows in block.parts())
            return tuple(line for part in found for line in part) if block.rows else (block.empty,)
        case KeyValues(pairs=pairs):
            return tuple(f"{key}: {words}" for key, words in pairs)
        case Fields(labels=labels):
            return tuple(f"{label}: ____" for label in labels)
        case Signature(roles=roles, statement=statement):
            return (statement, *(f"{role}: ____" for role in roles))
        case Checklist(items=items):
            return tuple(f"[{'x' if item.done else ' '}] {item.text}" for item in items)
        case PageBreak():
            return ()
        case Columns(columns=columns):
            return tuple(line for column in columns for line in lines(column))
        case Together(blocks=blocks):
            return lines(blocks)
        case _:
            assert_never(block)


def _cell(cell: Cell) -> str:
    return cell.alt if isinstance(cell, Figure) else cell.replace("\n", ", ")
