"""What the design promises a gloved hand and a tired eye, asked of one page by the browser: scripts and their answers."""

from __future__ import annotations

import json

from axe_playwright_python.base import AXE_SCRIPT
from playwright.sync_api import Page

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
PRESSED = (
    "main button, main .key, main select, main summary, nav a, main a.link, "
    "main input:not([type=checkbox]):not([type=radio]):not([type=hidden])"
)
SMALL_TARGETS = """(pressed) => [...document.querySelectorAll(pressed)]
  .filter((e) => e.offsetParent !== null && getComputedStyle(e).visibility !== 'hidden')
  .map((e) => [e.textContent.trim().slice(0, 40) || e.name, e.getBoundingClientRect().height])
  .filter(([, height]) => height < 47.5).map(([words, height]) => `${words}: ${height.toFixed(0)} px high`)"""
UNFOLD = "document.querySelectorAll('details').forEach((d) => { d.open = true; })"
QUIET = "() => !document.querySelector('.htmx-request, .htmx-settling, .htmx-swapping')"
SIZES = {"tablet": (1280, 800), "tablet upright": (800, 1280), "phone": (390, 844), "desk": (1920, 1080)}
SCHEMES = ("light", "dark")
RULES = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa")


def unfolded(page: Page) -> None:
    """Open whatever is folded away, and wait for what it fetches."""
    page.evaluate(UNFOLD)
    page.wait_for_timeout(30)
    page.wait_for_function(QUIET)


def broken(page: Page, *, least: float, shift: bool = True) -> dict[str, list[str]]:
    """Every promise that a page just opened does not keep, by its name."""
    found = {}
    if shift and (moved := page.evaluate(SHIFTED)) > 0.02:
        found["moved after it was painted"] = [f"{moved:.3f}"]
    unfolded(page)
    found["no name"] = page.evaluate(NAMELESS)
    found["focus not seen"] = page.evaluate(UNSEEN_FOCUS)
    found |= _sizes(page)
    page.set_viewport_size({"width": 1280, "height": 800})
    page.evaluate(AXE_SCRIPT)
    for scheme in SCHEMES:
        page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
        texts = page.evaluate(TEXTS)
        found[f"faint, {scheme}"] = [t["words"] for t in texts if t["ratio"] < least and not t["disabled"]]
        found[f"barrier, {scheme}"] = barriers(page)
    found["small"] = [t["words"] for t in texts if t["size"] < 16] if texts else ["no text at all"]
    page.emulate_media(color_scheme="light")
    page.evaluate("document.documentElement.style.setProperty('font-size', '200%')")  # set by script: no inline rule
    found["lost at twice the size"] = page.evaluate(LOST)
    return {what: bad[:5] for what, bad in found.items() if bad}


def _sizes(page: Page) -> dict[str, list[str]]:
    found = {}
    for size, (width, height) in SIZES.items():
        page.set_viewport_size({"width": width, "height": height})
        wide = page.evaluate("document.documentElement.scrollWidth > innerWidth + 1")
        found[f"wrong on a {size}"] = [
            *(["wider than the screen"] if wide else []),
            *page.evaluate(SMALL_TARGETS, PRESSED),
            *(f"cut off: {words}" for words in page.evaluate(LOST)),
        ]
    return found


def barriers(page: Page) -> list[str]:
    """What axe, already in the page, finds in the scheme that is shown."""
    asked = json.dumps({"runOnly": RULES, "resultTypes": ["violations"]})
    seen = page.evaluate(f"() => axe.run({asked})")
    return [
        f"{v['id']}: {node['target']} {node['failureSummary'][:200]}"
        for v in seen["violations"]
        for node in v["nodes"][:3]
    ]
