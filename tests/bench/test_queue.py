"""The tablet's queue in a real browser: what was typed lands whole, in order and once, whatever the network does."""

from __future__ import annotations

import json
import time
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, Route, expect
from tests.bench.live import Live, empty_queue, typed
from tests.bench.small import open_small, texts

from gudgeon.demo.story import shelf_text
from gudgeon.job.entries import Reading, Retraction

pytestmark = pytest.mark.browser


#: What may be asked after the lashes, with a size that makes sense there.
NEXT = {"stem_diameter": "4.481", "leak_down": "8", "compression": "1100"}


def delayed(page: Page, seconds: float) -> None:
    """Every answer of the entries address comes late."""

    def late(route: Route) -> None:
        time.sleep(seconds)
        route.continue_()

    page.route("**/entries", late)


def test_twenty_readings_at_ten_a_second_through_a_slow_network(folder: Path, live: Live, page: Page) -> None:
    """A gauge sends ten a second, the network takes 350 ms: twenty land as twenty, whole, in order."""
    wb = open_small(folder, scope="head out")
    page.goto(f"{live.url}/job/T-1/measure?m=stem_diameter&at=c1.in.left")
    page.wait_for_selector("#question:not(:empty)")
    delayed(page, 0.35)
    wanted = [f"4.4{70 + n:02d}" for n in range(20)]
    for text in wanted:
        page.keyboard.type(text)
        page.keyboard.press("Enter")
        page.wait_for_timeout(100)
    empty_queue(page, 30_000)
    assert texts(wb) == wanted
    places = [(e.typed.body.where, e.typed.body.point) for e in wb.loaded("T-1").entries
              if isinstance(e.typed.body, Reading)]  # fmt: skip
    assert len(set(places)) == 20, "each reading went to a place of its own"


def test_cut_off_between_two_gauges_each_reading_names_its_own(
    folder: Path, live: Live, page: Page, context: BrowserContext
) -> None:
    """The next panel cannot come: what the next reading is read with and under came with the last one."""
    wb = open_small(folder, scope="head out")
    wb.put_shelf(shelf_text())
    page.goto(f"{live.url}/job/T-1/measure?m=lash&at=c1.in.left")
    page.wait_for_selector("#question:not(:empty)")
    ways = page.evaluate("() => JSON.parse(document.getElementById('ways').textContent)")
    asks = page.evaluate("() => JSON.parse(document.getElementById('asks').textContent)")
    after = next(a["measurand"] for a in asks if a["measurand"] != "lash")
    assert ways[after]["gauge"] != ways["lash"]["gauge"]
    context.set_offline(True)
    for text in ("0.11/0.12", "0.12/0.13", "0.21/0.22", "0.22/0.23", NEXT[after]):
        typed(page, text)
    context.set_offline(False)
    empty_queue(page)
    read = [e.typed.body for e in wb.loaded("T-1").entries if isinstance(e.typed.body, Reading)]
    assert [r.measurand for r in read] == ["lash"] * 4 + [after]
    for r in read:
        assert (r.gauge, r.unit, " ".join(r.needs)) == tuple(ways[r.measurand][k] for k in ("gauge", "unit", "needs"))


def test_network_cut_and_back(folder: Path, live: Live, page: Page, context: BrowserContext) -> None:
    """Cut off, the bench goes on; back on, everything lands in order."""
    wb = open_small(folder)
    page.goto(f"{live.url}/job/T-1/measure")
    page.wait_for_selector("#question:not(:empty)")
    context.set_offline(True)
    for text in ("0.11/0.12", "0.12/0.13", "0.21/0.22", "0.22/0.23"):
        typed(page, text)
    assert texts(wb) == []
    assert "4 waiting" in page.inner_text("#queue-state")
    context.set_offline(False)
    empty_queue(page)
    assert texts(wb) == ["0.11/0.12", "0.12/0.13", "0.21/0.22", "0.22/0.23"]


def test_server_killed_in_between(folder: Path, live: Live, page: Page) -> None:
    """The laptop goes down and comes back: nothing leaves the queue without an answer."""
    wb = open_small(folder)
    page.goto(f"{live.url}/job/T-1/measure")
    page.wait_for_selector("#question:not(:empty)")
    typed(page, "0.11/0.12")
    empty_queue(page)
    live.process.kill()
    live.process.wait()
    typed(page, "0.12/0.13")
    typed(page, "0.21/0.22")
    page.wait_for_timeout(300)
    assert "2 waiting" in page.inner_text("#queue-state")
    live.start_again()
    empty_queue(page, 30_000)
    assert texts(wb) == ["0.11/0.12", "0.12/0.13", "0.21/0.22"]


def test_session_lost_in_mid_queue(folder: Path, live: Live, page: Page, context: BrowserContext) -> None:
    """Without its cookie the server refuses; nothing leaves the queue, and after loading again everything lands."""
    wb = open_small(folder)
    page.goto(f"{live.url}/job/T-1/measure")
    page.wait_for_selector("#question:not(:empty)")
    context.clear_cookies()
    typed(page, "0.11/0.12")
    page.wait_for_timeout(700)
    assert "load it again" in page.inner_text("#queue-state")
    assert texts(wb) == []
    page.reload()
    empty_queue(page)
    assert texts(wb) == ["0.11/0.12"]


def test_a_slip_steps_aside_and_blocks_nobody(folder: Path, live: Live, page: Page) -> None:
    """Ten times off is asked in words; the next reading lands meanwhile; insisting lands it confirmed."""
    wb = open_small(folder)
    page.goto(f"{live.url}/job/T-1/measure")
    page.wait_for_selector("#question:not(:empty)")
    typed(page, "1.2")
    typed(page, "0.12/0.13")
    empty_queue(page)
    page.wait_for_selector("#aside .item")
    assert "0.12" in page.inner_text("#aside")
    assert texts(wb) == ["0.12/0.13"]
    page.click("#aside >> text=it is right")
    empty_queue(page)
    assert texts(wb) == ["0.12/0.13", "1.2"]
    assert page.locator("#aside .item").count() == 0


def test_undo_takes_back_the_last_one(folder: Path, live: Live, page: Page) -> None:
    """Undo is a retraction of one's own reading; the reading becomes wanted again."""
    wb = open_small(folder)
    page.goto(f"{live.url}/job/T-1/measure")
    page.wait_for_selector("#question:not(:empty)")
    typed(page, "0.11/0.12")
    empty_queue(page)
    page.click("#undo")
    empty_queue(page)
    entries = wb.loaded("T-1").entries
    assert isinstance(entries[-1].typed.body, Retraction)
    assert wb.view("T-1").at("lash@c1.in.left").verdict == "not measured"  # type: ignore[union-attr]


def test_verdict_stands_beside_the_field(folder: Path, live: Live, page: Page) -> None:
    """The word for what was just read is on the screen at once, and the field has the cursor."""
    open_small(folder)
    page.goto(f"{live.url}/job/T-1/measure")
    page.wait_for_selector("#question:not(:empty)")
    typed(page, "0.03/0.04")
    empty_queue(page)
    expect(page.locator("#strips")).to_contain_text("tight", timeout=5000)
    assert page.evaluate("document.activeElement.id") == "value"


def test_keys_for_gloves(folder: Path, live: Live, page: Page) -> None:
    """The same reading by touch alone; keys are at least 106 pixels high."""
    wb = open_small(folder)
    page.goto(f"{live.url}/job/T-1/measure")
    page.wait_for_selector("#question:not(:empty)")
    for key in "0.11/0":
        page.click(f"[data-key='{key}']")
    page.click("[data-key='⌫']")
    for key in "0.12":
        page.click(f"[data-key='{key}']")
    page.click("button.return")
    empty_queue(page)
    assert texts(wb) == ["0.11/0.12"]
    heights = page.eval_on_selector_all("#keys button", "keys => keys.map(k => k.getBoundingClientRect().height)")
    widths = page.eval_on_selector_all("#keys button", "keys => keys.map(k => k.getBoundingClientRect().width)")
    assert min(heights) >= 106 and min(widths) >= 100


def test_two_tablets_see_each_other(folder: Path, live: Live, page: Page, context: BrowserContext) -> None:
    """The same place read on two benches is two repeats; the other's entry is seen within two seconds."""
    wb = open_small(folder)
    other = context.browser.new_context().new_page()  # type: ignore[union-attr]
    for one in (page, other):
        one.goto(f"{live.url}/job/T-1/measure?m=lash&at=c1.in.left&point=")
        one.wait_for_selector("#question:not(:empty)")
    typed(page, "0.11/0.12")
    empty_queue(page)
    expect(other.locator("#ledger-cell")).to_contain_text("5 ·", timeout=2500)
    typed(other, "0.12/0.13")
    empty_queue(other)
    view = wb.view("T-1").at("lash@c1.in.left")
    assert view is not None and len(view.rests_on) == 2 and view.said == "0.120"
    benches = {e.typed.bench for e in wb.loaded("T-1").entries if isinstance(e.typed.body, Reading)}
    assert len(benches) == 2
    other.context.close()


def test_answers_are_json_and_never_redirect(folder: Path, live: Live, page: Page) -> None:
    """Without a token, with rubbish, for no job: JSON with problems, and no other address."""
    open_small(folder)
    page.goto(f"{live.url}/job/T-1/measure")
    said = page.evaluate(
        """async () => { const found = [];
        for (const [job, body, token] of [["T-1", "{}", ""], ["T-1", "{\\"x\\":1}", document.cookie.split("csrftoken=")[1]],
             ["none", "{}", document.cookie.split("csrftoken=")[1]]]) {
          const a = await fetch(`/job/${job}/entries`, {method: "POST", headers: {"X-CSRFToken": token}, body, redirect: "error"});
          found.push([a.status, a.headers.get("content-type"), await a.json()]); }
        return found; }"""
    )
    assert [s[0] for s in said] == [403, 422, 422]
    assert all(s[1] == "application/json" and s[2]["problems"][0]["what"] for s in said)
    assert json.dumps(said)
