"""The same blocks as a piece of a page: every word escaped, no style, no script, so that a strict content policy holds."""

from __future__ import annotations

from base64 import b64encode
from html import escape
from typing import assert_never, cast

from gudgeon.figures.svg import printable
from gudgeon.papers.blocks import (
    Align,
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

TITLE_FIELDS = ("engine", "job", "book", "by", "ledger", "date", "workshop")


def text(typed: str) -> str:
    """Typed text, safe in a page; its line ends become line ends."""
    lines = typed.replace("\r\n", "\n").replace("\r", "\n").replace("\t", "    ").split("\n")
    return "<br>".join(escape(printable(line)) for line in lines)


def html(blocks: tuple[Block, ...]) -> str:
    """The whole paper as one article."""
    title = title_of(blocks)
    mark = f' data-mark="{escape(title.mark)}"' if title.mark else ""
    return f'<article class="sheet" aria-label="{escape(printable(title.paper))}"{mark}>{_all(blocks)}</article>'


def _all(blocks: tuple[Block, ...]) -> str:
    return "\n".join(_block(b) for b in blocks)


def _block(block: Block) -> str:
    match block:
        case TitleBlock():
            return _title(block)
        case Heading(text=words, level=level):
            tag = "h2" if level <= 1 else "h3"
            return f"<{tag}>{text(words)}</{tag}>"
        case Para(text=words, tone=tone):
            return f'<p class="{tone}">{text(words)}</p>'
        case Notice(text=words):
            return f'<p class="notice">{text(words)}</p>'
        case Caution():
            return f'<p class="caution" role="note">{text(block.words())}</p>'
        case Figure():
            caption = f"<figcaption>{text(block.caption)}</figcaption>" if block.caption else ""
            return f"<figure>{block.svg}{caption}</figure>"
        case Photo(caption=caption, data=data):
            shown = f'<img src="data:image/jpeg;base64,{b64encode(data).decode()}" alt="{escape(printable(caption))}">'
            return f"<figure>{shown}<figcaption>{text(caption)}</figcaption></figure>"
        case Table():
            return _table(block)
        case KeyValues(pairs=pairs):
            return f"<dl>{''.join(f'<dt>{text(k)}</dt><dd>{text(v)}</dd>' for k, v in pairs)}</dl>"
        case Fields(labels=labels):
            return f'<ul class="fields">{"".join(f"<li>{text(one)}</li>" for one in labels)}</ul>'
        case Signature(roles=roles, statement=statement):
            return f'<p>{text(statement)}</p><ul class="signature">{"".join(f"<li>{text(r)}</li>" for r in roles)}</ul>'
        case Checklist(items=items):
            return f'<ul class="checklist">{"".join(_item(i.text, i.done) for i in items)}</ul>'
        case PageBreak():
            return '<hr class="sheet-end">'
        case Columns(columns=columns):
            return f'<div class="columns">{"".join(f"<div>{_all(c)}</div>" for c in columns)}</div>'
        case Together(blocks=blocks):
            return f'<div class="together">{_all(blocks)}</div>'
        case _:
            assert_never(block)


def _item(words: str, done: bool) -> str:
    return f'<li class="{"done" if done else "open"}">{"✓ " if done else ""}{text(words)}</li>'


def _title(block: TitleBlock) -> str:
    facts = ((name, getattr(block, name)) for name in TITLE_FIELDS)
    rows = "".join(f"<dt>{name}</dt><dd>{text(value)}</dd>" for name, value in facts if value)
    return f'<header><h1>{text(block.paper)}</h1>{block.code}<dl class="title-block">{rows}</dl></header>'


def _cell(cell: Cell) -> str:
    return cell.svg if isinstance(cell, Figure) else text(cell)


def _table(block: Table) -> str:
    align: tuple[Align, ...] = block.align or cast(tuple[Align, ...], ("left",) * len(block.head))
    total = sum(block.widths)
    columns = "".join(f'<col width="{100 * w / total:.0f}%">' for w in block.widths)
    head = "".join(
        f'<th scope="col" class="{a}">{text(words)}</th>' for words, a in zip(block.head, align, strict=True)
    )
    body = "".join(_rows(words, rows, align) for words, rows in block.parts())
    if not block.rows:
        body = _rows("", ((block.empty, *("",) * (len(block.head) - 1)),), align)
    group = f"<colgroup>{columns}</colgroup>" if columns else ""
    return f"<table>{group}<thead><tr>{head}</tr></thead>{body}</table>"


def _rows(words: str, rows: tuple[tuple[Cell, ...], ...], align: tuple[Align, ...]) -> str:
    over = f'<tr><th scope="rowgroup" colspan="{len(align)}">{text(words)}</th></tr>' if words else ""
    cells = ("".join(f'<td class="{a}">{_cell(c)}</td>' for c, a in zip(row, align, strict=True)) for row in rows)
    return f"<tbody>{over}{''.join(f'<tr>{row}</tr>' for row in cells)}</tbody>"
