"""At arm's length: what the next action needs stands at least 26 px high, the values taken at least 20 px, Return in sight."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser
from tests.bench.live import Live
from tests.bench.small import open_small

from gudgeon.job.entries import Reading
from gudgeon.workbench.bench import Hand

pytestmark = pytest.mark.browser

HEIGHTS = """() => { const drawn = document.querySelector('.drawing svg'), scale = drawn.getScreenCTM().a;
  return [...drawn.querySelectorAll('text')].map(t => [t.classList[0], t.getAttribute('font-weight'), t.textContent,
    scale * parseFloat(getComputedStyle(t).fontSize)]); }"""
INSIDE = """() => { const sheet = document.querySelector('.sheet').getBoundingClientRect();
  return [...document.querySelectorAll('.drawing svg text')].every(t => { const b = t.getBoundingClientRect();
    return b.left >= sheet.left && b.right <= sheet.right; }); }"""
ASKS = {
    "a place with six points": "m=stem_diameter&at=c1.in.left&point=middle+x",
    "four places, one spot": "m=lash&at=c1.ex.right",
    "a seat": "m=seal_test&at=c1.in.right",
}


@pytest.mark.parametrize(("width", "height"), [(1280, 800), (800, 1280)])
def test_heights(folder: Path, live: Live, chromium: Browser, width: int, height: int) -> None:
    wb = open_small(folder, scope="head out")
    taken = [("lash", w, "", "0.11/0.12") for w in ("c1.in.left", "c1.in.right")]
    taken += [("stem_diameter", "c1.in.left", p, "4.481") for p in ("top x", "top y")]
    taken.append(("seal_test", "c1.in.left", "", "holds"))
    kinds = {"lash": "feeler", "stem_diameter": "micrometer", "seal_test": "eye"}
    gauges = {m: wb.shelf().of_kind(kind)[0] for m, kind in kinds.items()}
    facts = tuple(
        Reading(measurand=m, where=w, point=p, text=t, unit=gauges[m].unit, gauge=gauges[m].id) for m, w, p, t in taken
    )
    wb.record("T-1", facts, Hand(by="t", bench="set-up"))
    context = chromium.new_context(viewport={"width": width, "height": height})
    page = context.new_page()
    for what, query in ASKS.items():
        page.goto(f"{live.url}/job/T-1/measure?{query}")
        page.wait_for_selector("#question:not(:empty)")
        texts = page.evaluate(HEIGHTS)
        wanted = [high for pen, _, _, high in texts if pen == "blue"]
        figures = [high for pen, weight, _, high in texts if pen == "ink" and weight == "600"]
        assert len(wanted) >= 2 and figures, (what, texts)
        assert min(wanted) >= 26, (what, texts)
        assert min(figures) >= 20, (what, texts)
        assert page.evaluate(INSIDE), what
        assert float(page.evaluate("parseFloat(getComputedStyle(document.getElementById('value')).fontSize)")) >= 40
        assert page.evaluate("document.querySelector('.return').getBoundingClientRect().bottom") <= height, what
    context.close()
