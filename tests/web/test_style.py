"""What the design promises a gloved hand and a tired eye, measured by the browser on the sheet of all elements and on every screen."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page
from tests.web.conftest import JOB, SMALL, Tablet
from tests.web.test_screens import PAGES

pytestmark = pytest.mark.browser

BENCH = ("measure", "style")
#: Every text that is seen, with its size and its contrast against the nearest ground below it (WCAG 2.2, relative luminance).
TEXTS = """() => {
  const rgb = (text) => { const n = (text.match(/[\\d.]+/g) ?? []).map(Number); return { c: n.slice(0, 3), a: n.length > 3 ? n[3] : 1 }; };
  const linear = (v) => v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4;
  const light = (c) => { const [r, g, b] = c.map(linear); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
  const ground = (e) => {
    for (let at = e; at; at = at.parentElement) {
      const found = rgb(getComputedStyle(at).backgroundColor);
      if (found.a > 0.99) return found.c;
    }
    return [255, 255, 255];
  };
  const found = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const e = node.parentElement, words = node.textContent.trim();
    if (!words || !e.checkVisibility({ visibilityProperty: true }) || e.closest('.sr, .skip, svg, script, template, option')) continue;
    const style = getComputedStyle(e), disabled = e.closest('[disabled]') !== null;
    const [a, b] = [light(rgb(style.color).c), light(ground(e))].sort((x, y) => y - x);
    found.push({ words: words.slice(0, 40), size: parseFloat(style.fontSize), ratio: (a + 0.05) / (b + 0.05), disabled });
  }
  return found;
}"""
NAMELESS = """() => [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary, svg')]
  .filter((e) => e.checkVisibility())
  .filter((e) => e.tagName === 'svg'
    ? !(e.querySelector('title') || e.getAttribute('aria-label') || e.closest('[aria-hidden]'))
    : !((e.labels && e.labels.length) || e.getAttribute('aria-label') || e.getAttribute('aria-labelledby') || e.textContent.trim()))
  .map((e) => e.outerHTML.slice(0, 120))"""
UNSEEN_FOCUS = """() => [...document.querySelectorAll('main :is(a[href], button, input, select, textarea, summary), nav a')]
  .filter((e) => e.checkVisibility())
  .filter((e) => { e.focus({ focusVisible: true, preventScroll: true });
    const seen = (x) => { const s = getComputedStyle(x); return s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 3; };
    return document.activeElement === e && !seen(e) && !e.closest('.field'); })
  .map((e) => e.outerHTML.slice(0, 120))"""
MOVING = """() => [...document.querySelectorAll('*')].map((e) => getComputedStyle(e))
  .filter((s) => s.animationName !== 'none' || s.transitionDuration.split(',').some((t) => parseFloat(t) > 0)).length"""
LOST = """() => [...document.querySelectorAll('main *')]
  .filter((e) => e.checkVisibility() && e.childElementCount === 0 && e.textContent.trim()
    && !e.closest('.sr, svg, pre, textarea, select, .table-scroll'))
  .filter((e) => (getComputedStyle(e).overflowX === 'hidden' && e.scrollWidth > e.clientWidth + 1)
    || e.getBoundingClientRect().right > innerWidth + 1)
  .map((e) => e.textContent.trim().slice(0, 60))"""

#: The browser's own account of what moved after it had been painted (Layout Instability, 0.1 is its word for good).
SHIFTED = """() => new Promise((done) => {
  let sum = 0;
  new PerformanceObserver((seen) => { for (const one of seen.getEntries()) if (!one.hadRecentInput) sum += one.value; })
    .observe({ type: 'layout-shift', buffered: true });
  setTimeout(() => done(sum), 150);
})"""


def opened(tablet: Tablet, name: str) -> Page:
    """A page with whatever is folded away opened."""
    page = tablet.go(PAGES[name])
    page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
    page.wait_for_load_state("networkidle")
    tablet.wrong[:] = [w for w in tablet.wrong if "404" not in w]
    return page


def test_contrast_and_sizes_hold_in_both_schemes(tablet: Tablet) -> None:
    found = {}
    for name in PAGES:
        page = opened(tablet, name)
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            texts = page.evaluate(TEXTS)
            least = 7.0 if name in BENCH else 4.5
            low = [t["words"] for t in texts if t["ratio"] < least and not t["disabled"]]
            small = [t["words"] for t in texts if t["size"] < 16]
            if low or small or not texts:
                found[f"{name}, {scheme}"] = (low[:5], small[:5])
    assert found == {}


def test_everything_pressed_or_drawn_has_a_name(tablet: Tablet) -> None:
    assert {name: bad for name in PAGES if (bad := opened(tablet, name).evaluate(NAMELESS))} == {}


def test_focus_is_seen_wherever_it_goes(tablet: Tablet) -> None:
    assert {name: bad for name in PAGES if (bad := opened(tablet, name).evaluate(UNSEEN_FOCUS))} == {}


def test_who_wants_no_motion_gets_none_and_the_others_hardly_any(tablet: Tablet) -> None:
    page = opened(tablet, "style")
    assert page.evaluate(MOVING) == 0
    page.emulate_media(reduced_motion="no-preference")
    longest = page.evaluate(
        "Math.max(...[...document.querySelectorAll('*')].map((e) => parseFloat(getComputedStyle(e).transitionDuration)))"
    )
    assert 0 < longest <= 0.15


def test_text_twice_as_large_loses_nothing(tablet: Tablet) -> None:
    found = {}
    for name in PAGES:
        page = opened(tablet, name)
        page.evaluate(
            "document.documentElement.style.setProperty('font-size', '200%')"
        )  # set by script: no inline rule
        if lost := page.evaluate(LOST):
            found[name] = lost[:5]
    assert found == {}


def test_keys_for_gloves_are_18_mm_and_what_is_typed_reads_across_a_bench(tablet: Tablet) -> None:
    for path, keys in (("/style", ".gloves button"), (f"/job/{SMALL}/measure", "#keys button")):
        page = tablet.go(path)
        page.wait_for_load_state("networkidle")
        heights = page.locator(keys).evaluate_all("all => all.map((e) => e.getBoundingClientRect().height)")
        shown = [height for height in heights if height]
        assert shown or path != "/style"
        assert all(height >= 105.5 for height in shown)


def test_the_measures_bite(tablet: Tablet) -> None:
    page = tablet.go("/style")
    page.evaluate(
        "() => { const p = document.createElement('p'); p.textContent = 'faint words'; document.querySelector('main').append(p);"
        " p.style.setProperty('color', 'rgb(150, 150, 150)'); p.style.setProperty('font-size', '12px');"
        " const b = document.createElement('button'); document.querySelector('main').append(b); b.style.setProperty('outline', 'none'); }"
    )
    faint = next(t for t in page.evaluate(TEXTS) if t["words"] == "faint words")
    assert faint["ratio"] < 4.5 and faint["size"] == 12
    assert len(page.evaluate(NAMELESS)) == 1
    assert len(page.evaluate(UNSEEN_FOCUS)) == 1


def test_the_engine_page_speaks_in_the_order_it_is_read(tablet: Tablet) -> None:
    page = tablet.go(f"/job/{JOB}/")
    tree = page.locator("body").aria_snapshot()
    assert tree.index("heading") < tree.index("navigation") < tree.index("main")


def test_nothing_moves_while_a_page_is_built(tablet: Tablet) -> None:
    shifts = {}
    for name in PAGES:
        page = tablet.go(PAGES[name])
        page.wait_for_load_state("networkidle")
        tablet.wrong[:] = [w for w in tablet.wrong if "404" not in w]
        shifts[name] = page.evaluate(SHIFTED)
    print({name: round(shift, 4) for name, shift in shifts.items()})
    assert {name: shift for name, shift in shifts.items() if shift > 0.02} == {}


def test_a_shift_would_be_seen(tablet: Tablet) -> None:
    page = tablet.go("/style")
    page.wait_for_load_state("networkidle")
    page.evaluate(
        "() => { const p = document.createElement('p'); p.style.setProperty('height', '300px');"
        " document.querySelector('main').prepend(p); }"
    )
    page.wait_for_timeout(300)
    assert page.evaluate(SHIFTED) > 0.1
