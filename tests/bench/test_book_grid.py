"""A usual head typed from the maker's pages with two keys: at most 130 values, one edition a page, nothing lost."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from tests.bench.live import Live
from tests.bench.small import bench
from tests.workbench.test_grid import EMPTY

pytestmark = pytest.mark.browser

MOST_VALUES = 130
#: What a maker's pages print: by page of the grid, row by row, cells as Tab meets them; the page number comes last.
PAGES: dict[str, tuple[tuple[str, tuple[str, ...]], ...]] = {
    "valves": (
        ("stem_diameter", ("4.975", "4.990", "4.960", "4.960", "4.975", "4.945", "6-9")),
        ("guide_bore", ("5.000", "5.012", "5.070", "=")),
        ("stem_guide_clearance", ("0.010", "0.037", "0.080", "0.025", "0.052", "0.100")),
        ("wobble", ()),
        ("stem_runout", ("0", "0.010", "0.050", "=")),
        ("valve_margin", ("0.95", "1.10", "0.60", "1.05", "1.20", "0.70")),
        ("seat_width", ("0.90", "1.10", "1.40", "1.00", "1.20", "1.60")),
    ),
    "springs": (
        ("spring_free_length", ("42.80", "43.20", "41.90", "=", "", "", "6-12")),
        ("spring_load", ("168", "186", "160", "=")),
        ("spring_tilt", ("0", "0.8", "1.6", "=")),
    ),
}


def test_pages_of_a_book_with_two_keys(folder: Path, live: Live, page: Page) -> None:
    """Tab goes to the next cell, Return to the next row; every page becomes an edition."""
    sha, typed = bench(folder).add_book(EMPTY), 0
    for part, rows in PAGES.items():
        page.goto(f"{live.url}/more/book/{sha}/grid/{part}")
        expect(page.locator(":focus")).to_have_attribute("name", f"{rows[0][0]}.in.from")
        for key, values in rows:
            assert (page.locator(":focus").get_attribute("name") or "").startswith(f"{key}.")
            for value in values:
                page.keyboard.type(value)
                page.keyboard.press("Tab")
            if len(values) == 7:
                page.keyboard.press("Shift+Tab")
            page.keyboard.press("Enter")
            typed += sum(bool(v) for v in values)
        page.click("text=Keep, stay here")
        expect(page.locator(".kept")).to_be_visible()
        sha = page.url.split("/book/")[1].split("/")[0]
    book = bench(folder).book(sha)
    assert book.edition == "own+2"
    assert {row.of for row in book.limits} == {key for rows in PAGES.values() for key, values in rows if values}
    assert {row.page for row in book.limits} == {"6-9", "6-12"}, "the page is typed once"
    assert typed <= MOST_VALUES


def test_a_wrong_cell_is_said_at_once_and_loses_nothing(folder: Path, live: Live, page: Page) -> None:
    """The reason stands beside the row before anything is kept, and what was typed stays."""
    sha = bench(folder).add_book(EMPTY)
    page.goto(f"{live.url}/more/book/{sha}/grid/valves")
    for value in ("4.975", "5 psi", "4.960"):
        page.keyboard.type(value)
        page.keyboard.press("Tab")
    expect(page.locator("[data-key=stem_diameter] .why")).to_contain_text("pressure")
    page.click("text=Keep, stay here")
    expect(page.locator("[name='stem_diameter.in.to']")).to_have_value("5 psi")
    expect(page.locator("[name='stem_diameter.in.limit']")).to_have_value("4.960")
    assert len(bench(folder).library.books()) == 1
