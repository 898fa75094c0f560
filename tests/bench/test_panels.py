"""Questions in the page: note and photo, why a reading is skipped, who types; no window of the browser is opened."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Page, expect
from tests.bench.live import Live, empty_queue
from tests.bench.small import open_small

from gudgeon.job.entries import Note
from gudgeon.workbench.bench import Workbench

pytestmark = pytest.mark.browser


def notes(wb: Workbench) -> list[Note]:
    return [e.typed.body for e in wb.loaded("T-1").entries if isinstance(e.typed.body, Note)]


def at_the_bench(live: Live, page: Page) -> None:
    page.on("dialog", lambda dialog: pytest.fail(f"a window of the browser: {dialog.message}"))
    page.goto(f"{live.url}/job/T-1/measure")
    page.wait_for_selector("#question:not(:empty)")


def test_note_with_a_photo(folder: Path, live: Live, page: Page, tmp_path: Path) -> None:
    wb = open_small(folder)
    at_the_bench(live, page)
    page.click("#note")
    no_photo = tmp_path / "words.jpg"
    no_photo.write_bytes(b"these are words")
    page.fill(".asking [name=words]", "burr <b>here</b>")
    page.set_input_files(".asking [name=photo]", no_photo)
    page.click(".asking .go")
    expect(page.locator(".asking .problem")).to_contain_text("no picture")
    assert page.input_value(".asking [name=words]") == "burr <b>here</b>", "the words are kept"
    photo = tmp_path / "p.png"
    Image.new("RGB", (60, 40), "green").save(photo)
    page.set_input_files(".asking [name=photo]", photo)
    page.click(".asking .go")
    expect(page.locator(".asking")).to_have_count(0)
    empty_queue(page)
    (note,) = notes(wb)
    assert note.words == "burr <b>here</b>" and len(note.photos) == 1
    assert wb.pictures.get(note.photos[0])


def test_skip_by_one_tap_and_who_types_by_one_tap(folder: Path, live: Live, page: Page) -> None:
    wb = open_small(folder)
    at_the_bench(live, page)
    asked = page.inner_text("#question")
    page.click("#by")
    page.fill(".asking [name=words]", "mv")
    page.click(".asking .go")
    page.click("#by")
    page.fill(".asking [name=words]", "tk")
    page.click(".asking .go")
    page.click("#by")
    page.click(".asking .choices button:text-is('mv')")
    expect(page.locator("#by")).to_have_text("mv")
    page.click("#skip")
    heights = page.evaluate("[...document.querySelectorAll('.asking .choices button')].map(b => b.offsetHeight)")
    assert len(heights) == 3 and min(heights) >= 106
    page.click(".asking .choices button:text-is('not reachable')")
    expect(page.locator("#question")).not_to_have_text(asked)
    empty_queue(page)
    (note,) = notes(wb)
    assert "not reachable" in note.words
    assert wb.loaded("T-1").entries[-1].typed.by == "mv"


def test_left_it_says_nothing(folder: Path, live: Live, page: Page) -> None:
    wb = open_small(folder)
    at_the_bench(live, page)
    page.click("#note")
    page.keyboard.press("Escape")
    page.click("#skip")
    page.click(".asking .leave")
    assert notes(wb) == []
    assert page.evaluate("document.activeElement.id") == "value"
