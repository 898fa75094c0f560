"""The shelf typed by keyboard alone: an own gauge, a wrong cell, a repeat study with Return from reading to reading, shims."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from tests.bench.live import Live
from tests.bench.small import bench

pytestmark = pytest.mark.browser

CELLS = (
    "MIC-9",
    "own micrometer",
    None,
    None,
    "0",
    "25",
    "0.001",
    "0.002",
    None,
    None,
    None,
    None,
    "2027-05-01",
    "its sheet",
)


def test_a_gauge_a_study_and_shims_by_keyboard(folder: Path, live: Live, page: Page) -> None:
    page.goto(f"{live.url}/more")
    page.get_by_role("link", name="gauges, wrenches").press("Enter")
    page.get_by_role("link", name="Another gauge").press("Enter")
    page.focus("[name=id]")
    for text in CELLS:
        if text:
            page.keyboard.type(text)
        elif page.evaluate("document.activeElement.name") == "kind":
            page.keyboard.type("micrometer")
        page.keyboard.press("Tab")
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_have_text("own micrometer")
    card = bench(folder).shelf().gauge("MIC-9")
    assert card is not None and (card.kind, str(card.high), card.due) == ("micrometer", "25 mm", "2027-05-01")
    _study(page)
    card = bench(folder).shelf().gauge("MIC-9")
    assert card is not None and (card.repeat_nu, card.repeat_by) == (9, "mara")
    _shims(page, live)
    assert [(str(s.size), s.count) for s in bench(folder).shelf().shims] == [("1.70 mm", 2), ("1.75 mm", 1)]


def _study(page: Page) -> None:
    page.get_by_role("link", name="a short repeat study").press("Enter")
    expect(page.locator("[name=r1]")).to_be_focused()
    for n, text in enumerate(("4.975", "4.976", "4.974", "4.975", "4.977", "4.975", "4.995", "4.976", "4.975"), 1):
        expect(page.locator(f"[name=r{n}]")).to_be_focused()
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    page.keyboard.type("4.974")
    page.keyboard.press("Enter")
    expect(page.locator(".found")).to_contain_text("Reading 7, 4.995, stands alone")
    page.fill("[name=r7]", "4.975")
    page.fill("[name=by]", "mara")
    page.get_by_role("button", name="Work it out").press("Enter")
    expect(page.locator(".found")).to_contain_text("degrees of freedom")
    expect(page.locator(".found")).not_to_contain_text("stands alone")
    page.get_by_role("button", name="Put it on the card").press("Enter")
    expect(page.get_by_text("10 readings by mara")).to_be_visible()


def _shims(page: Page, live: Live) -> None:
    page.goto(f"{live.url}/shelf")
    page.focus("[name=size-0]")
    for text in ("1.70", "2", "", "", "drawer 1", "about 1.75"):
        page.keyboard.type(text)
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    wrong = page.locator("[name=size-1]")
    expect(wrong).to_be_focused()
    expect(wrong).to_have_value("about 1.75")
    expect(wrong).to_have_attribute("aria-invalid", "true")
    wrong.fill("1.75")
    page.keyboard.press("Enter")
    expect(page.locator("[role=status].lead")).to_contain_text("Saved")
