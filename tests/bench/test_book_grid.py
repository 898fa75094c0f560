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


#: A usual top end as a maker prints it: what is in these tables and nothing else. Intake and exhaust alike is one cell, "=".
WHOLE: dict[str, dict[str, str]] = {
    "lash": {
        "lash.in.from": "0.10", "lash.in.to": "0.15", "lash.ex.from": "0.20", "lash.ex.to": "0.25", "lash.page": "3-2",
        "compression..from": "1000", "compression..to": "1400", "compression..limit": "850",
    },
    "valves": {
        "stem_diameter.in.from": "4.975", "stem_diameter.in.to": "4.990", "stem_diameter.in.limit": "4.960",
        "stem_diameter.ex.from": "4.960", "stem_diameter.ex.to": "4.975", "stem_diameter.ex.limit": "4.945",
        "stem_diameter.page": "6-9",
        "guide_bore.in.from": "5.000", "guide_bore.in.to": "5.012", "guide_bore.in.limit": "5.070", "guide_bore.ex.from": "=",
        "stem_guide_clearance.in.from": "0.010", "stem_guide_clearance.in.to": "0.037",
        "stem_guide_clearance.in.limit": "0.080", "stem_guide_clearance.ex.from": "0.025",
        "stem_guide_clearance.ex.to": "0.052", "stem_guide_clearance.ex.limit": "0.100",
        "stem_runout.in.from": "0", "stem_runout.in.to": "0.010", "stem_runout.in.limit": "0.050", "stem_runout.ex.from": "=",
        "seat_width.in.from": "0.90", "seat_width.in.to": "1.10", "seat_width.in.limit": "1.40", "seat_width.ex.from": "=",
    },
    "springs": {
        "spring_free_length.in.from": "42.80", "spring_free_length.in.to": "43.20", "spring_free_length.in.limit": "41.90",
        "spring_free_length.ex.from": "=", "spring_free_length.page": "6-12",
        "spring_load.in.from": "168", "spring_load.in.to": "186", "spring_load.in.limit": "160", "spring_load.ex.from": "=",
    },
    "cams": {
        "lobe_height.in.from": "36.20", "lobe_height.in.to": "36.30", "lobe_height.in.limit": "36.10",
        "lobe_height.ex.from": "35.90", "lobe_height.ex.to": "36.00", "lobe_height.ex.limit": "35.80",
        "lobe_height.page": "6-4",
        "journal_clearance.in.from": "0.020", "journal_clearance.in.to": "0.054", "journal_clearance.in.limit": "0.080",
        "journal_clearance.ex.from": "=",
        "cam_runout.in.from": "0", "cam_runout.in.to": "0.010", "cam_runout.in.limit": "0.040", "cam_runout.ex.from": "=",
        "chain_length..limit": "128.0",
    },
    "faces": {
        "head_flatness..from": "0", "head_flatness..to": "0.02", "head_flatness..limit": "0.05", "head_flatness.page": "6-14",
        "barrel_flatness..from": "0", "barrel_flatness..to": "0.02", "barrel_flatness..limit": "0.05",
        "squish..from": "0.80", "squish..to": "1.00",
    },
    "bore": {
        "bore_diameter..from": "75.000", "bore_diameter..to": "75.015", "bore_diameter..limit": "75.100",
        "bore_diameter.page": "7-3",
        "out_of_round..from": "0", "out_of_round..to": "0.005", "out_of_round..limit": "0.050",
        "taper..from": "0", "taper..to": "0.005", "taper..limit": "0.050",
        "piston_diameter..from": "74.955", "piston_diameter..to": "74.970", "piston_diameter..limit": "74.870",
        "piston_clearance..from": "0.030", "piston_clearance..to": "0.060", "piston_clearance..limit": "0.100",
        "pin_diameter..from": "17.994", "pin_diameter..to": "18.000", "pin_diameter..limit": "17.980",
        "pin_bore..from": "18.002", "pin_bore..to": "18.008", "pin_bore..limit": "18.040",
    },
    "rings": {
        "ring_gap.top.from": "0.20", "ring_gap.top.to": "0.30", "ring_gap.top.limit": "0.60", "ring_gap.second.from": "0.30",
        "ring_gap.second.to": "0.45", "ring_gap.second.limit": "0.75", "ring_gap.page": "7-6",
        "side_clearance.top.from": "0.030", "side_clearance.top.to": "0.065", "side_clearance.top.limit": "0.120",
        "side_clearance.second.from": "=",
    },
}  # fmt: skip


def test_a_usual_whole_top_end_by_tab_alone(folder: Path, live: Live, page: Page) -> None:
    """Every table of the maker's chapter on the top end: counted, at most 130 typed values, and every one is kept."""
    wb = bench(folder)
    sha, typed = wb.add_book(EMPTY), 0
    for part, cells in WHOLE.items():
        page.goto(f"{live.url}/more/book/{sha}/grid/{part}")
        expect(page.locator(":focus")).to_have_attribute("name", next(iter(cells)).split(".")[0] + ".in.from"
                                                         if part not in ("bore", "faces", "rings") else next(iter(cells)))  # fmt: skip
        left = dict(cells)
        while left:
            name = page.locator(":focus").get_attribute("name") or ""
            if name in left:
                page.keyboard.type(left.pop(name))
                typed += 1
            page.keyboard.press("Tab")
        page.click("text=Keep, stay here")
        expect(page.locator(".kept")).to_be_visible()
        sha = page.url.split("/book/")[1].split("/")[0]
    print(f"\na usual whole top end: {typed} typed values (at most {MOST_VALUES})")
    assert typed <= MOST_VALUES
    book = bench(folder).book(sha)
    assert {row.of for row in book.limits} == {name.split(".")[0] for cells in WHOLE.values() for name in cells}
    exhaust = book.limit_for("guide_bore", "c1.ex.left")
    assert exhaust is not None and str(exhaust.typed_most) == "5.070 mm"


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
