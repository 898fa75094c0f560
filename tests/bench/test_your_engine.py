"""A new owner's path as docs/your-engine.md tells it: nothing there yet, own layout, verdicts, shims, and then wider."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from tests.bench.hands import picture
from tests.bench.live import Live, empty_queue, typed
from tests.bench.small import bench

pytestmark = pytest.mark.browser

LASHES = ("0.06/0.07", "0.11/0.12", "0.21/0.22", "0.30/0.31")
SHIMS = ("2.46", "2.51", "2.38", "2.41")
WINDOWS = ("0.10–0.15", "0.20–0.25")


def test_an_own_engine_from_nothing_to_head_out(folder: Path, live: Live, page: Page) -> None:
    """Each step of the document, in its order, with a picture where the document has one."""
    _take_in(page, live.url)
    _measure(page, live.url)
    page.goto(f"{live.url}/job/1/decide")
    page.wait_for_load_state()
    picture(page, "own-verdicts")
    words = {c.verdict for c in bench(folder).view("1").characteristics if c.address.startswith("lash@")}
    assert "tight" in words and len(words) > 1, words
    plan = bench(folder).view("1").plan("shims")
    assert plan is not None and plan.state == "ready"
    page.goto(f"{live.url}/job/1/decide#plan-shims")
    page.reload()
    picture(page, "own-shims")
    before = bench(folder).loaded("1").head
    page.click("button[data-entry*='\"head out\"']")
    empty_queue(page)
    view = bench(folder).view("1")
    assert view.job.scope == "head out" and view.ledger.head == before + 1
    page.goto(f"{live.url}/job/1/")
    page.wait_for_load_state()
    picture(page, "own-wider")
    page.goto(f"{live.url}/job/1/measure")
    expect(page.locator("h1")).not_to_have_text("Lash")
    picture(page, "own-next")


PLACES = ("c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right")


def _take_in(page: Page, url: str) -> None:
    """An engine that has no book: its layout, picked."""
    page.goto(f"{url}/open")
    page.fill("[name=engine_number]", "77")
    page.fill("[name=number]", "1")
    page.check("[name=follower][value=bucket_under]")
    page.fill("[name=family]", "Own 300")
    picture(page, "own-layout")
    page.click("text=Open the job")
    page.wait_for_url("**/job/1/**")


def _measure(page: Page, url: str) -> None:
    """Four lashes, each side's window asked with its first; then the shims that are in there."""
    page.goto(f"{url}/job/1/measure")
    for n, lash in enumerate(LASHES):
        expect(page.locator("#question")).to_contain_text(
            ("Intake left", "Intake right", "Exhaust left", "Exhaust right")[n]
        )
        expect(page.locator("#facts")).to_have_attribute("data-place", PLACES[n])  # the panel has come
        if page.locator("#new-limit").count():
            page.fill("#limit-new", WINDOWS[n // 2])
            if n == 0:
                picture(page, "own-limit")
            page.click("#new-limit button")
            expect(page.locator("#new-limit")).to_have_count(0)
        page.focus("#value")
        typed(page, lash)
        empty_queue(page)
    for shim in SHIMS:
        expect(page.locator("h1")).to_have_text("Shim thickness", timeout=20_000)
        page.focus("#value")
        typed(page, shim)
        empty_queue(page)
