"""What the design promises a gloved hand and a tired eye, where one page is enough to see it; every page is looked at elsewhere."""

from __future__ import annotations

import pytest
from tests.web.conftest import JOB, SMALL, Tablet
from tests.web.promises import SHIFTED

pytestmark = pytest.mark.browser

MOVING = """() => [...document.querySelectorAll('*')].map((e) => getComputedStyle(e))
  .filter((s) => s.animationName !== 'none' || s.transitionDuration.split(',').some((t) => parseFloat(t) > 0)).length"""


def test_who_wants_no_motion_gets_none_and_the_others_hardly_any(tablet: Tablet) -> None:
    page = tablet.go("/style")
    assert page.evaluate(MOVING) == 0
    page.emulate_media(reduced_motion="no-preference")
    longest = page.evaluate(
        "Math.max(...[...document.querySelectorAll('*')].map((e) => parseFloat(getComputedStyle(e).transitionDuration)))"
    )
    assert 0 < longest <= 0.15


def test_keys_for_gloves_are_18_mm_and_what_is_typed_reads_across_a_bench(tablet: Tablet) -> None:
    for path, keys in (("/style", ".gloves button"), (f"/job/{SMALL}/measure", "#keys button")):
        page = tablet.go(path)
        page.wait_for_load_state("networkidle")
        heights = page.locator(keys).evaluate_all("all => all.map((e) => e.getBoundingClientRect().height)")
        shown = [height for height in heights if height]
        assert shown or path != "/style"
        assert all(height >= 105.5 for height in shown)


def test_the_engine_page_speaks_in_the_order_it_is_read(tablet: Tablet) -> None:
    page = tablet.go(f"/job/{JOB}/")
    tree = page.locator("body").aria_snapshot()
    assert tree.index("heading") < tree.index("navigation") < tree.index("main")


def test_a_shift_would_be_seen(tablet: Tablet) -> None:
    page = tablet.go("/style")
    page.wait_for_load_state("networkidle")
    page.evaluate(
        "() => { const p = document.createElement('p'); p.style.setProperty('height', '300px');"
        " document.querySelector('main').prepend(p); }"
    )
    page.wait_for_timeout(300)
    assert page.evaluate(SHIFTED) > 0.1
