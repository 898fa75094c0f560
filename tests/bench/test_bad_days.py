"""What goes wrong at a bench: each is a sentence on the screen, and nothing that was typed is lost or doubled."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from tests.bench.live import Live, empty_queue, typed
from tests.bench.small import open_small, texts

from gudgeon.job.entries import Reading, ZeroChecked
from gudgeon.workbench.bench import Hand
from gudgeon.workbench.zeros import zero_wanted

pytestmark = pytest.mark.browser

PASTE = """size => { const data = new DataTransfer(); data.setData('text', '1'.repeat(size));
  const paste = new ClipboardEvent('paste', {clipboardData: data, bubbles: true, cancelable: true});
  return document.getElementById('value').dispatchEvent(paste); }"""
FULL = "() => { Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }; }"


def at_the_bench(live: Live, page: Page, query: str = "") -> None:
    page.goto(f"{live.url}/job/T-1/measure{query}")
    page.wait_for_selector("#question:not(:empty)")


def test_ten_megabytes_pasted(folder: Path, live: Live, page: Page) -> None:
    wb = open_small(folder)
    at_the_bench(live, page)
    assert page.evaluate(PASTE, 10_000_000) is False, "the paste is stopped"
    expect(page.locator("#aside")).to_contain_text("10000000 signs")
    assert page.input_value("#value") == ""
    assert page.evaluate(PASTE, 9) is True, "a short one is not"
    typed(page, "0.11/0.12")
    empty_queue(page)
    assert texts(wb) == ["0.11/0.12"]


def test_return_tapped_twice_and_back_after_saving(folder: Path, live: Live, page: Page) -> None:
    wb = open_small(folder)
    at_the_bench(live, page)
    page.keyboard.type("0.11/0.12")
    page.locator("button.return").dblclick()
    empty_queue(page)
    assert texts(wb) == ["0.11/0.12"]
    page.goto(f"{live.url}/job/T-1/decide")
    page.go_back()
    page.wait_for_selector("#question:not(:empty)")
    assert page.input_value("#value") == ""
    page.keyboard.press("Enter")
    typed(page, "0.12/0.13")
    empty_queue(page)
    assert texts(wb) == ["0.11/0.12", "0.12/0.13"]
    places = [e.typed.body.where for e in wb.loaded("T-1").entries if isinstance(e.typed.body, Reading)]
    assert len(set(places)) == 2, "the second went to the next place"


@pytest.mark.parametrize("days", [365, -365])
def test_the_clock_of_the_tablet_is_a_year_off(folder: Path, live: Live, page: Page, days: int) -> None:
    wb = open_small(folder)
    page.clock.set_system_time(page.evaluate("Date.now()") + days * 86_400_000)
    at_the_bench(live, page)
    typed(page, "0.11/0.12")
    empty_queue(page)
    assert texts(wb) == ["0.11/0.12"]
    expect(page.locator("#aside")).to_contain_text("clock", timeout=5000)
    page.click("#aside .told button")
    expect(page.locator("#aside")).to_be_hidden()


def test_the_storage_of_the_tablet_is_full(folder: Path, live: Live, page: Page) -> None:
    wb = open_small(folder)
    at_the_bench(live, page)
    page.evaluate(FULL)
    for text in ("0.11/0.12", "0.12/0.13", "0.21/0.22"):
        typed(page, text)
    expect(page.locator("#aside")).to_contain_text("storage is full")
    empty_queue(page)
    assert texts(wb) == ["0.11/0.12", "0.12/0.13", "0.21/0.22"]


def test_a_slip_is_asked_with_buttons_for_a_thumb(folder: Path, live: Live, page: Page) -> None:
    wb = open_small(folder)
    at_the_bench(live, page)
    typed(page, "1.2")
    page.wait_for_selector("#aside .item")
    heights = page.eval_on_selector_all("#aside button", "bs => bs.map(b => b.getBoundingClientRect().height)")
    assert len(heights) == 2 and min(heights) >= 106
    page.click("#aside >> text=type again")
    expect(page.locator("#aside")).to_be_hidden()
    typed(page, "0.12/0.13")
    empty_queue(page)
    assert texts(wb) == ["0.12/0.13"]


def test_the_zero_is_asked_before_and_after_and_a_drifted_one_is_said(folder: Path, live: Live, page: Page) -> None:
    wb = open_small(folder, scope="head out")
    gauge = wb.shelf().of_kind("micrometer")[0]
    at_the_bench(live, page, f"?m=stem_diameter&at=c1.in.left&gauge={gauge.id}")
    expect(page.locator(".zero")).to_contain_text("before")
    page.click("#zero")
    page.click(".asking .choices button:text-is('0')")
    empty_queue(page)
    expect(page.locator("#zero")).to_have_count(0)
    hand = Hand(by="t", bench="set-up")
    wb.record("T-1", (Reading(measurand="stem_diameter", where="c1.in.left", point="top x", text="4.481",
                              unit="mm", gauge=gauge.id),), hand)  # fmt: skip
    zero = zero_wanted(wb, "T-1", gauge.id)
    assert zero is not None and zero.wanted == "after"
    page.goto(f"{live.url}/job/T-1/measure?m=lash&at=c1.in.left")
    expect(page.locator(".zero")).to_contain_text("after")
    page.click("#without-zero")
    expect(page.locator(".zero")).to_be_hidden()
    page.reload()
    page.click("#zero")
    page.fill(".asking [name=words]", "0.05")
    page.click(".asking .go")
    empty_queue(page)
    expect(page.locator(".drifted")).to_contain_text("1 reading")
    assert sum(isinstance(e.typed.body, ZeroChecked) for e in wb.loaded("T-1").entries) == 2
