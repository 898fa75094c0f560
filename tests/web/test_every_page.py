"""Every page keeps what the design promises: contrast, names, focus, sizes, room, no barrier, nothing that moves."""

from __future__ import annotations

import pytest
from tests.web.conftest import Tablet
from tests.web.every_page import PAGES, address, unseen
from tests.web.promises import NAMELESS, TEXTS, UNSEEN_FOCUS, broken

from gudgeon.workbench.bench import Workbench

pytestmark = pytest.mark.browser

#: What is read at arm's length has 7 : 1, the rest the 4.5 : 1 of WCAG 2.2 AA.
BENCH = ("measure", "style", "sheet")


def looked(tablet: Tablet, workshop: Workbench, names: list[str]) -> dict[str, dict[str, list[str]]]:
    """Every page with a promise that it does not keep."""
    assert names
    found = {}
    tablet.go("/style").wait_for_function("document.fonts.status === 'loaded'")  # a first visit waits for its fonts
    for name in names:
        page = tablet.go(address(name, workshop))
        if bad := broken(page, least=7.0 if name.startswith(BENCH) else 4.5):
            found[name] = bad
    tablet.wrong[:] = [w for w in tablet.wrong if "404" not in w]  # the page that is not there
    return found


def pages(part: str) -> list[str]:
    """The names of the pages of a part of the bench."""
    parts = {"papers": [n for n in PAGES if PAGES[n].count("/paper/")]}
    parts["calculators"] = [n for n in PAGES if PAGES[n].startswith("/calc")]
    parts["a job"] = [n for n in PAGES if PAGES[n].startswith("/job") and n not in parts["papers"]]
    parts["workshop"] = [n for n in PAGES if all(n not in names for names in parts.values())]
    return parts[part]


class TestAtTheBench:
    """The pages of a job."""

    @pytest.mark.parametrize("part", ["a job", "papers"])
    def test_keeps_every_promise(self, tablet: Tablet, workshop: Workbench, part: str) -> None:
        found = looked(tablet, workshop, pages(part))
        assert found == {}, found


class TestBehindIt:
    """Books, shelf, rules and calculators; in a class of its own, so that two processes share the work."""

    @pytest.mark.parametrize("part", ["workshop", "calculators"])
    def test_keeps_every_promise(self, tablet: Tablet, workshop: Workbench, part: str) -> None:
        found = looked(tablet, workshop, pages(part))
        assert found == {}, found


def test_no_page_is_forgotten() -> None:
    assert unseen() == set()


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
    bad = broken(page, least=4.5, shift=False)
    assert {"no name", "focus not seen", "faint, light", "small", "barrier, light"} <= set(bad)
