"""Type a sheet: in the order of the paper, by Tab or Return, each field sent through the queue, a refused one told at its line."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect
from tests.bench.live import Live, empty_queue
from tests.bench.small import open_small, texts

from gudgeon.job.entries import Retraction
from gudgeon.papers.blocks import Columns, Heading, Together
from gudgeon.papers.kinds import bench_sheet
from gudgeon.workbench.recording import recorded
from gudgeon.workbench.sheet_typing import sheet_of

pytestmark = pytest.mark.browser
LASH = "#typing fieldset[data-measurand=lash] .value"


def headings(found: object) -> list[str]:
    """The headings of a paper, in their order, wherever they are nested."""
    if isinstance(found, Heading):
        return [found.text]
    if isinstance(found, tuple | list):
        return [text for one in found for text in headings(one)]
    if isinstance(found, Together):
        return headings(found.blocks)
    if isinstance(found, Columns):
        return headings(found.columns)
    return []


def test_the_order_of_the_fields_is_that_of_the_printed_sheet(folder: Path) -> None:
    wb = open_small(folder, scope="head out")
    printed = headings(bench_sheet.blocks(recorded(wb.worked("T-1"))))
    typed = []
    for gauge, kinds in sheet_of(wb, "T-1").groups:
        typed.append(gauge[:1].upper() + gauge[1:])
        typed += [f"{kind.name}, " for kind in kinds]
    printed = [text for text in printed if text]
    assert len(typed) > 4 and len(typed) == len(printed)
    assert [p.split(",")[0] for p in printed] == [t.split(",")[0] for t in typed]


def test_typed_through_with_one_refused_and_one_typed_again(folder: Path, live: Live, page: Page) -> None:
    wb = open_small(folder)
    page.goto(f"{live.url}/job/T-1/sheet")
    expect(page.locator(LASH)).to_have_count(4)
    page.locator(LASH).first.focus()
    for text, key in (("0.11/0.12", "Enter"), ("abc", "Tab"), ("0.21/0.22", "Enter"), ("0.22/0.23", "Tab")):
        page.keyboard.type(text)
        page.keyboard.press(key)
    empty_queue(page)
    assert texts(wb) == ["0.11/0.12", "0.21/0.22", "0.22/0.23"]
    bad = page.locator("#typing .line.refused")
    expect(bad).to_have_count(1)
    assert len(bad.locator(".said").inner_text()) > 20
    page.reload()
    expect(page.locator("#typing .line.refused .value")).to_have_value("abc")
    page.locator("#typing .line.refused .value").fill("0.12/0.13")
    page.keyboard.press("Enter")
    empty_queue(page)
    expect(page.locator("#typing .line.refused")).to_have_count(0)
    expect(page.locator("#aside .item")).to_have_count(0)
    assert texts(wb) == ["0.11/0.12", "0.21/0.22", "0.22/0.23", "0.12/0.13"]
    page.locator(LASH).nth(1).fill("0.13/0.14")
    page.keyboard.press("Enter")
    empty_queue(page)
    assert sum(isinstance(e.typed.body, Retraction) for e in wb.loaded("T-1").entries) == 1
    page.reload()
    expect(page.locator("#typing .stands").nth(1)).to_contain_text("0.13/0.14")


def test_cut_off_nothing_is_lost(folder: Path, live: Live, page: Page, context: BrowserContext) -> None:
    wb = open_small(folder)
    page.goto(f"{live.url}/job/T-1/sheet")
    context.set_offline(True)
    page.locator(LASH).first.focus()
    for text in ("0.11/0.12", "0.12/0.13"):
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    assert texts(wb) == []
    context.set_offline(False)
    empty_queue(page)
    assert texts(wb) == ["0.11/0.12", "0.12/0.13"]
