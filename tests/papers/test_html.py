"""A page's piece must hold any words and still be one well-formed piece without script or style."""

from __future__ import annotations

import re
from html.parser import HTMLParser

from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.figures.strip import StripSpec, limit_strip
from gudgeon.papers.blocks import (
    COMES_FIRST,
    Block,
    Caution,
    CheckItem,
    Checklist,
    Columns,
    Fields,
    Figure,
    Heading,
    KeyValues,
    Notice,
    PageBreak,
    Para,
    Signature,
    Table,
    TitleBlock,
)
from gudgeon.papers.html import html

VOID = {"br", "col", "hr"}
ALLOWED = {
    "article", "header", "h1", "h2", "h3", "dl", "dt", "dd", "p", "figure", "figcaption", "table", "colgroup", "col",
    "thead", "tbody", "tr", "th", "td", "ul", "li", "div", "hr", "br", "svg", "g", "path", "text", "title", "desc",
    "circle", "rect",
}  # fmt: skip


class Balance(HTMLParser):
    """Every tag known and closed in order; no attribute that runs or styles."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.words = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert tag in ALLOWED, tag
        assert not any(name == "style" or name.startswith("on") for name, _ in attrs)
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert tag in ALLOWED

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.words += data


def paper(text: str) -> tuple[Block, ...]:
    strip = Figure(svg=limit_strip(StripSpec(caption=text)), alt="x", caption=text)
    return (
        TitleBlock(paper=text, engine=text, job=text, ledger=text),
        Heading(text),
        Heading(text, 2),
        Para(text, "context"),
        Notice(text),
        Caution(text),
        strip,
        Table(head=(text, "b"), rows=((text, strip),), widths=(1, 2), align=("right", "left")),
        Table(head=("a",), rows=()),
        KeyValues(((text, text),)),
        Fields(labels=(text,)),
        Signature((text,), text),
        Checklist((CheckItem(text=text, done=True),)),
        PageBreak(),
        Columns(((Para(text),), (strip,))),
    )


@settings(deadline=None)
@given(st.text(max_size=120) | st.sampled_from(["<script>alert(1)</script>", '" onload="x', "]]>", "&amp;", "\x00"]))
def test_any_words_give_one_whole_piece(text: str) -> None:
    parser = Balance()
    parser.feed(html(paper(text)))
    parser.close()
    assert parser.open == []


def test_words_arrive_as_typed() -> None:
    parser = Balance()
    parser.feed(html((TitleBlock(paper="A <b>", engine="e", job="j"), Para("1 < 2 & \"3\" '4'\nnext"))))
    assert "A <b>" in parser.words
    assert "1 < 2 & \"3\" '4'" in parser.words


def test_a_caution_always_ends_with_what_comes_first() -> None:
    assert Caution("Hold it").words() == f"Hold it. {COMES_FIRST}"
    assert Caution(f"Hold it. {COMES_FIRST}").words().count("come first") == 1
    piece = html((TitleBlock(paper="p", engine="e", job="j"), Caution("Hold it")))
    assert re.search(r'class="caution"[^>]*>Hold it\. .*come first\.', piece)
