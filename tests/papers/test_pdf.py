"""A paper is judged by those who did not make it: two independent readers open it, and hostile words must survive in it."""

from __future__ import annotations

import io
import re
import subprocess
import time
from pathlib import Path
from typing import Any

import pypdf
import pytest

from gudgeon.figures.strip import StripSpec, limit_strip
from gudgeon.papers.blocks import (
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
from gudgeon.papers.pdf import pdf
from gudgeon.papers.text import lines
from gudgeon.problem import Refused

TITLE = TitleBlock(
    paper="Hand-over record",
    engine="Testbed 100 · 0001",
    job="26-001",
    book="edition 2 · 6-12",
    by="k1",
    ledger="entry 58 · 9f3c a1d2",
    date="2026-01-02",
    for_whom="for the owner",
)
STRIP = Figure(svg=limit_strip(StripSpec(value=1.02, high=1.05, caption="seen in the strip")), alt="a strip")
PAPER: tuple[Block, ...] = (
    TITLE,
    KeyValues((("found", "hard to start"), ("done", "one guide new"))),
    Heading("What was measured"),
    Table(head=("place", "value"), rows=(("left", "0.12"), ("right", "0.14")), align=("left", "right"), widths=(2, 1)),
    Columns(((Heading("Bore", 2), STRIP), (Para("beside it"),))),
    Caution("Hold the crank."),
    PageBreak(),
    Fields(labels=("tip height, mm", "gauge"), columns=2),
    Checklist((CheckItem(text="rags counted", done=True), CheckItem(text="circlips seated"))),
    Notice("DO NOT START"),
    Signature(("released by",), statement="As written here."),
)
HOSTILE = "<b>#let x = 1</b> $x$ *bold* _i_ `raw` \\ @ref <label> // c /* */ #eval(1) \x00\x07\x1b[31m \u202eabc \ud800 \uffff"


def words(data: bytes) -> str:
    done = subprocess.run(["pdftotext", "-", "-"], input=data, capture_output=True, check=True)
    return done.stdout.decode()


def reader(data: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(data))


def in_order(text: str, *wanted: str) -> bool:
    places = [text.find(w) for w in wanted]
    return -1 not in places and places == sorted(places)


BOX = re.compile(r'<word xMin="([\d.]+)" yMin="[\d.]+" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>')


def boxes(data: bytes) -> list[tuple[str, float, float, float]]:
    """Every word with its left, right and lower edge in millimetres, as poppler sees it."""
    done = subprocess.run(["pdftotext", "-bbox", "-", "-"], input=data, capture_output=True, check=True)
    found = BOX.findall(done.stdout.decode())
    mm = 25.4 / 72
    return [(word, float(left) * mm, float(right) * mm, float(bottom) * mm) for left, right, bottom, word in found]


@pytest.fixture(scope="module")
def made() -> bytes:
    return pdf(PAPER)


def test_both_readers_find_the_words_in_order(made: bytes) -> None:
    first = ("hard to start", "What was measured", "left", "0.14", "Bore", "Hold the crank")
    wanted = (*first, "tip height, mm", "rags counted", "DO NOT START", "released by")
    assert in_order(words(made), *wanted)
    pages = reader(made).pages
    assert len(pages) == 2
    assert in_order(pages[0].extract_text() + pages[1].extract_text(), *wanted)
    assert "come first" in words(made)
    assert "seen in the strip 1.020 mm" in words(made)


def test_every_sheet_carries_its_title_block(made: bytes) -> None:
    for i, page in enumerate(reader(made).pages, start=1):
        text = page.extract_text()
        for cell in ("Testbed 100 · 0001", "26-001", "edition 2 · 6-12", "k1", "entry 58 · 9f3c a1d2", f"{i} of 2"):
            assert cell in text


def test_title_block_stands_at_the_foot_inside_the_frame(made: bytes) -> None:
    found = boxes(made)
    assert max(bottom for word, _, _, bottom in found if word == "9f3c") > 270
    assert min(left for _, left, _, _ in found) >= 20
    assert max(right for _, _, right, _ in found) <= 210 - 10


def test_fonts_are_inside_and_ours(made: bytes) -> None:
    listed = subprocess.run(["pdffonts", "-"], input=made, capture_output=True, check=True).stdout.decode()
    rows = [line.split() for line in listed.splitlines()[2:]]
    assert rows
    assert all("SourceSansPro" in row[0] for row in rows)
    assert all(row[-5] == "yes" for row in rows), listed


def test_tagged_with_language_title_and_bookmarks(made: bytes) -> None:
    doc = reader(made)
    root: Any = doc.trailer["/Root"]
    assert root["/Lang"] == "en"
    assert root["/MarkInfo"]["/Marked"]
    assert root["/StructTreeRoot"]
    assert doc.metadata is not None
    assert doc.metadata.title == "Hand-over record"
    titles: list[str] = []

    def walk(items: Any) -> None:
        for item in items:
            if isinstance(item, list):
                walk(item)
            else:
                titles.append(item.title)

    walk(doc.outline)
    assert titles == ["Hand-over record", "What was measured", "Bore"]
    assert b"pdfuaid" in made or b"pdfuaid" in bytes(root["/Metadata"].get_data())


def tags(node: Any) -> list[str]:
    found = [str(node["/S"])] if "/S" in node else []
    kids = node.get("/K", [])
    for kid in kids if isinstance(kids, list) else [kids]:
        kid = kid.get_object() if hasattr(kid, "get_object") else kid
        if isinstance(kid, dict) and ("/K" in kid or "/S" in kid):
            found += tags(kid)
    return found


def test_table_and_figure_are_tagged_for_readers_that_do_not_see(made: bytes) -> None:
    root: Any = reader(made).trailer["/Root"]
    found = tags(root["/StructTreeRoot"])
    assert {"/Table", "/TH", "/TD", "/Figure", "/H1", "/H2"} <= set(found)


def test_same_blocks_same_bytes(made: bytes) -> None:
    time.sleep(1.1)
    assert pdf(PAPER) == made
    assert pdf((*PAPER, Para("more"))) != made


@pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("us-letter", (612, 792))])
def test_page_sizes(paper: str, size: tuple[int, int]) -> None:
    page = reader(pdf(PAPER, paper=paper)).pages[0]  # type: ignore[arg-type]
    assert (round(page.mediabox.width), round(page.mediabox.height)) == size


def test_archival_form() -> None:
    root: Any = reader(pdf(PAPER, standard="a-3a")).trailer["/Root"]
    assert b"pdfaid" in root["/Metadata"].get_data()


def hostile(text: str) -> tuple[Block, ...]:
    return (
        TitleBlock(paper=text, engine=text, job=text, book=text, by=text, ledger=text, date=text, for_whom=text),
        Heading(text),
        Para(text),
        Notice(text),
        Caution(text),
        Table(head=(text, "b"), rows=((text, text), (STRIP, text))),
        KeyValues(((text, text),)),
        Fields(labels=(text,)),
        Signature((text,), text),
        Checklist((CheckItem(text=text),)),
        Figure(svg=limit_strip(StripSpec(caption=text)), alt=text.strip() or "x", caption=text),
        Columns(((Para(text),), (Para(text),))),
    )


def test_markup_stays_words_and_what_cannot_be_seen_is_spelled_out() -> None:
    found = " ".join(words(pdf((TITLE, Para(HOSTILE)))).split())
    assert "<b>#let x = 1</b> $x$ *bold* _i_ `raw` \\ @ref <label> // c /* */ #eval(1)" in found
    for spelled in ("‹U+0000›", "‹U+0007›", "‹U+001B›[31m", "‹U+202E›abc", "‹U+D800›", "‹U+FFFF›"):
        assert spelled in found


@pytest.mark.parametrize(
    "text",
    [HOSTILE, "", " ", "\n\n\r\n\t", "שלום سلام", "中文 😀 👩‍🔧", "a\u0301\u0328" * 50, "ﷺ" * 40],
    ids=["markup", "empty", "space", "ends", "right-to-left", "no-glyph", "combining", "wide"],
)
def test_any_words_anywhere(text: str) -> None:
    assert len(reader(pdf(hostile(text))).pages) >= 1


def test_characters_without_a_glyph_are_spelled_out_and_others_kept() -> None:
    found = words(pdf((TITLE, Para("中 ok 😀 Ünïcødé Привет θ"))))
    assert "‹U+4E2D› ok ‹U+1F600› Ünïcødé Привет θ" in found


def test_ten_thousand_characters_in_one_run_stay_whole_and_on_the_sheet() -> None:
    data = pdf((TITLE, Para("Q" * 10_000), Table(head=("a", "b"), rows=(("k", "Z" * 10_000),))))
    found = words(data)
    assert found.count("Q") == 10_000
    assert found.count("Z") == 10_000
    assert "\u200b" not in found
    assert max(right for _, _, right, _ in boxes(data)) <= 210 - 10
    assert max(bottom for word, _, _, bottom in boxes(data) if "QQQQ" in word) <= 297 - 10 - 23


def test_a_long_table_repeats_its_head() -> None:
    rows = tuple((str(i), f"reading {i}") for i in range(120))
    pages = reader(pdf((TITLE, Table(head=("entry", "what was read"), rows=rows)))).pages
    assert len(pages) >= 3
    assert all("what was read" in page.extract_text() for page in pages)


def test_an_empty_table_says_so() -> None:
    assert "none" in words(pdf((TITLE, Table(head=("a", "b"), rows=()))))


def test_words_of_the_sheet_can_be_translated() -> None:
    found = words(pdf(PAPER, language="de", translate={"engine": "Motor", "{page} of {pages}": "{page} von {pages}"}))
    assert "Motor" in found
    assert "1 von 2" in found


@pytest.mark.parametrize("blocks", [(), (Para("x"),), (TITLE, TITLE)])
def test_exactly_one_title_block(blocks: tuple[Block, ...]) -> None:
    with pytest.raises(Refused, match="title block"):
        pdf(blocks)


def test_impossible_blocks_are_refused() -> None:
    with pytest.raises(Refused, match="rows 2"):
        Table(head=("a", "b"), rows=(("1", "2"), ("1",)))
    with pytest.raises(Refused):
        Table(head=("a",), rows=(), widths=(1, 2))
    with pytest.raises(Refused):
        Figure(svg="", alt="x")
    with pytest.raises(Refused, match="a3"):
        pdf(PAPER, paper="a3")  # type: ignore[arg-type]


def test_fonts_folder_has_each_face_once() -> None:
    """A folder holding a face twice gives other bytes on another machine."""
    import gudgeon.papers.pdf as module

    files = sorted(f.name for f in (Path(module.__file__).parent / "fonts").iterdir())
    assert files == ["OFL.txt", "SourceSansPro-Bold.otf", "SourceSansPro-Regular.otf", "SourceSansPro-Semibold.otf"]


def test_words_over_rows_repeat_with_the_head_and_never_end_a_sheet() -> None:
    rows = tuple((f"{i} · 10:{i % 60:02}", f"reading {i}") for i in range(140))
    groups = ((0, "MIC-25 · 2026-03-02"), (70, "BG-88 · 2026-03-03"))
    blocks = (TITLE, Table(head=("entry", "what was read"), rows=rows, groups=groups))
    pages = [page.extract_text() for page in reader(pdf(blocks)).pages]
    assert len(pages) >= 3
    assert all(any(words in page for _, words in groups) for page in pages)
    assert in_order(pages[0], "what was read", "MIC-25", "reading 0")
    text = words(pdf(blocks))
    assert in_order(text, "reading 69", "BG-88 · 2026-03-03", "reading 70")
    assert lines(blocks)[1] == "MIC-25 · 2026-03-02" and "BG-88 · 2026-03-03" in lines(blocks)
    assert html(blocks).count('scope="rowgroup"') == 2
