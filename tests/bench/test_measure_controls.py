"""Taps beside the field: what is not as it must be, a pin that does not enter, where air is heard."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Page, expect
from tests.bench.live import Live, empty_queue
from tests.bench.small import open_small

from gudgeon.job.entries import Finding, GoNoGo, Reading
from gudgeon.workbench.bench import Workbench

pytestmark = pytest.mark.browser

PIN = """
[[gauge]]
id = "PIN-T"
kind = "pin"
name = "pins 4.40–4.60"
unit = "mm"
low = "4.40 mm"
high = "4.60 mm"
resolution = "0.01 mm"
permissible_error = "0.001 mm"
source = "invented"
"""


def facts(wb: Workbench) -> list[object]:
    return [e.typed.body for e in wb.loaded("T-1").entries][1:]


def at(live: Live, page: Page, query: str) -> None:
    page.goto(f"{live.url}/job/T-1/measure?{query}")
    page.wait_for_selector("#question:not(:empty)")


def test_what_is_not_so_is_tapped_off_and_lands_with_the_reading(folder: Path, live: Live, page: Page) -> None:
    wb = open_small(folder)
    at(live, page, "m=lash&at=c1.in.left")
    tdc = page.locator("[data-need=tdc]")
    expect(tdc).to_have_attribute("aria-pressed", "true")
    tdc.click()
    expect(tdc).to_have_attribute("aria-pressed", "false")
    expect(page.locator("#value")).to_be_focused()
    page.keyboard.type("0.11/0.12")
    expect(page.locator("#size")).to_have_text("0.11 goes, 0.12 not")
    page.keyboard.press("Enter")
    empty_queue(page)
    (reading,) = (f for f in facts(wb) if isinstance(f, Reading))
    assert "not tdc" in reading.needs and "cold" in reading.needs
    assert all(c.verdict == "not measured" for c in wb.view("T-1").characteristics if c.place == "c1.in.left")


def test_a_pin_has_two_keys_and_no_return(folder: Path, live: Live, page: Page) -> None:
    wb = open_small(folder, scope="head out")
    wb.put_shelf(PIN)
    at(live, page, "m=guide_bore&at=c1.in.left&gauge=PIN-T")
    expect(page.locator(".return")).to_be_hidden()
    page.keyboard.type("4.51")
    page.click("[data-enters='']")
    empty_queue(page)
    (tried,) = (f for f in facts(wb) if isinstance(f, GoNoGo))
    assert (tried.size, tried.enters, tried.gauge) == ("4.51", False, "PIN-T")


def test_air_is_heard_by_a_tap_and_quiet_by_the_next(folder: Path, live: Live, page: Page) -> None:
    wb = open_small(folder)
    at(live, page, "m=leak_down&at=c1")
    page.click("[data-kind='leak heard at the exhaust']")
    empty_queue(page)
    expect(page.locator("[data-kind='leak heard at the exhaust']")).to_have_attribute("aria-pressed", "true")
    page.click("[data-kind='leak heard at the exhaust']")
    empty_queue(page)
    assert [f.kind for f in facts(wb) if isinstance(f, Finding)] == [
        "leak heard at the exhaust",
        "quiet at the exhaust",
    ]


def test_a_finding_has_its_photo(folder: Path, live: Live, page: Page, tmp_path: Path) -> None:
    wb = open_small(folder)
    page.goto(f"{live.url}/job/T-1/build")
    form = page.locator('form[data-fact=\'{"fact":"finding/1"}\']').first
    form.evaluate("form => { for (let e = form; e; e = e.parentElement) if (e.tagName === 'DETAILS') e.open = true; }")
    broken, photo = tmp_path / "words.jpg", tmp_path / "p.png"
    broken.write_bytes(b"these are words")
    Image.new("RGB", (60, 40), "green").save(photo)
    form.locator("[name=kind]").fill("scored")
    form.locator("[name=photo]").set_input_files(broken)
    form.locator("button").click()
    expect(form.locator(".problem")).to_contain_text("no picture")
    form.locator("[name=photo]").set_input_files(photo)
    with page.expect_navigation():
        form.locator("button").click()
    (finding,) = (f for f in facts(wb) if isinstance(f, Finding))
    assert finding.kind == "scored" and len(finding.photos) == 1 and wb.pictures.get(finding.photos[0])
