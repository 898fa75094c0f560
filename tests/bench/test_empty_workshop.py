"""From an empty workshop to a whole shim set for one's own four-valve engine: at most 10 book values and 25 entries."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from tests.bench.live import Live, empty_queue, typed
from tests.bench.small import bench

from gudgeon.job.entries import BookPinned, Reading

pytestmark = pytest.mark.browser

MOST_BOOK_VALUES, MOST_ENTRIES = 10, 25


class Counted:
    """What the technician typed for the book, counted cell by cell."""

    def __init__(self, page: Page) -> None:
        self.page, self.values = page, 0

    def cell(self, where: str, *texts: str) -> None:
        """Fill a cell; a range counts as its two ends."""
        self.page.fill(where, "–".join(texts))
        self.values += len(texts)


PLACES = ("c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right")


def opened(page: Page, url: str) -> None:
    """Intake on one screen: engine, layout from a picture."""
    page.goto(url)
    page.click("text=Open the first job")
    page.fill("[name=engine_number]", "77")
    page.fill("[name=number]", "1")
    page.check("[name=follower][value=bucket_under]")
    page.fill("[name=family]", "Own 300")
    page.click("text=Open the job")
    page.wait_for_url("**/job/1/**")


def test_own_engine_to_a_whole_shim_set(folder: Path, live: Live, page: Page) -> None:
    """Layout, two windows, four lashes, four shims: the planner says which shim goes where, and buys as few as it can."""
    opened(page, live.url)
    page.goto(f"{live.url}/job/1/measure")
    book = Counted(page)
    lashes = ("0.06/0.07", "0.11/0.12", "0.21/0.22", "0.30/0.31")
    for n, lash in enumerate(lashes):
        expect(page.locator("#question")).to_contain_text(
            ("Intake left", "Intake right", "Exhaust left", "Exhaust right")[n]
        )
        expect(page.locator("#facts")).to_have_attribute("data-place", PLACES[n])  # the panel has come
        if page.locator("#new-limit").count():
            book.cell("#limit-new", *(("0.10", "0.15") if n < 2 else ("0.20", "0.25")))
            page.click("#new-limit button")
            expect(page.locator("#new-limit")).to_have_count(0)
        page.focus("#value")
        typed(page, lash)
        empty_queue(page)
    for place, shim in zip(PLACES, ("2.46", "2.51", "2.38", "2.41"), strict=True):
        expect(page.locator("h1")).to_have_text("Shim thickness", timeout=20_000)
        expect(page.locator("#facts")).to_have_attribute("data-place", place)
        page.focus("#value")
        typed(page, shim)
        empty_queue(page)
    wb = bench(folder)
    view = wb.view("1")
    entries = [e for e in view.entries if e.bench != "gudgeon"]
    plan = view.plan("shims")
    assert plan is not None and plan.state == "ready", (plan and plan.needs, plan and plan.reasons)
    lines = {line.where: dict(line.numbers) for line in plan.lines}
    assert set(lines) == {"c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right"}
    windows = {"in": (0.10, 0.15), "ex": (0.20, 0.25)}
    for place, numbers in lines.items():
        low, high = windows[place.split(".")[1]]
        assert low <= float(numbers["lash_mm"]) <= high, (place, numbers)
    assert book.values <= MOST_BOOK_VALUES
    assert len(entries) <= MOST_ENTRIES
    facts = [e.typed.body for e in wb.loaded("1").entries]
    assert sum(isinstance(f, Reading) for f in facts) == 8
    assert sum(isinstance(f, BookPinned) for f in facts) == 3, "the layout, and a window for each side"
    print(f"book values {book.values}, entries {len(entries)}")


def test_the_limit_is_kept_for_the_next_engine(folder: Path, live: Live, page: Page) -> None:
    """The second engine of the family asks for nothing that was typed with the first."""
    opened(page, live.url)
    page.goto(f"{live.url}/job/1/measure")
    page.fill("#limit-new", "0.10 to 0.15")
    page.click("#new-limit button")
    expect(page.locator("#new-limit")).to_have_count(0)
    expect(page.locator("#limit")).to_contain_text("0.10")
    wb = bench(folder)
    sha = wb.loaded("1").book()
    assert wb.book(sha).limit_for("lash", "c1.in.left") is not None
    page.goto(f"{live.url}/open")
    page.fill("[name=engine_number]", "78")
    page.fill("[name=number]", "2")
    page.check(f"[name=book][value='{sha}']")
    page.click("text=Open the job")
    page.goto(f"{live.url}/job/2/measure")
    expect(page.locator("#limit")).to_contain_text("0.10")
    assert page.locator("#new-limit").count() == 0


def test_a_limit_that_makes_no_sense_is_asked_again(folder: Path, live: Live, page: Page) -> None:
    """Swapped ends and a wrong unit are said beside the cells, and nothing is kept."""
    opened(page, live.url)
    page.goto(f"{live.url}/job/1/measure")
    for wrong in ("0.15–0.10", "5 psi – 6 psi", "about a tenth"):
        page.fill("#limit-new", wrong)
        page.click("#new-limit button")
        expect(page.locator("#new-limit [role=alert]")).to_be_visible()
    assert bench(folder).loaded("1").head == 3
