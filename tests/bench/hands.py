"""Two pairs of hands for walks through the screens: keys alone, and one finger alone. Neither ever uses a mouse."""

from __future__ import annotations

import io
import os
import re
from abc import ABC, abstractmethod
from pathlib import Path

from playwright.sync_api import Dialog, Locator, Page, expect
from tests.bench.live import empty_queue

#: How far the focused element is from the one that is wanted, counted in Tabs as the page stands.
STEPS = """wanted => {
  const can = [...document.querySelectorAll('a[href], button, input, select, textarea, summary')].filter(e =>
    !e.disabled && e.type !== 'hidden' && e.tabIndex >= 0 && e.checkVisibility({visibilityProperty: true})
    && (e.type !== 'radio' || e.checked || e === wanted));
  return [can.indexOf(wanted), can.indexOf(document.activeElement)]; }"""
HERE = "e => e === document.activeElement"
#: The summaries to be opened before an element can be seen, outermost first.
FOLDED = """e => { const found = []; for (let d = e.parentElement?.closest('details'); d; d = d.parentElement?.closest('details'))
  if (!d.open) found.unshift(d.querySelector(':scope > summary')); return found; }"""
HEAD = "() => Number(document.getElementById('facts')?.dataset.head ?? document.body.dataset.head)"
MEASURE_AT = re.compile(r"/measure(\\?|$)")


class Hands(ABC):
    """What both can do: reach something that may be folded away, press it, write in it, wait for what it wrote."""

    def __init__(self, page: Page, url: str, number: str = "") -> None:
        self.page, self.url, self.number = page, url, number
        self.said = ""
        page.on("dialog", self._answer)

    def _answer(self, dialog: Dialog) -> None:
        dialog.accept(self.said)

    # -- what a hand is ------------------------------------------------------------------------------------------------

    @abstractmethod
    def touch(self, what: Locator) -> None:
        """Press what can be seen."""

    @abstractmethod
    def write(self, what: Locator, text: str) -> None:
        """Put the text into a field, instead of what stands there."""

    @abstractmethod
    def choose(self, what: Locator, value: str) -> None:
        """One of a list."""

    @abstractmethod
    def tick(self, what: Locator) -> None:
        """A box, or one of several."""

    @abstractmethod
    def value(self, text: str) -> None:
        """A value into the field of the bench, then Return."""

    # -- what hands do -------------------------------------------------------------------------------------------------

    def find(self, where: str | Locator) -> Locator:
        """What is wanted, unfolded until it can be seen."""
        what = self.page.locator(where).first if isinstance(where, str) else where.first
        what.wait_for(state="attached", timeout=8000)
        for _ in range(4):
            folded = what.evaluate_handle(FOLDED)
            summaries = list(folded.get_properties().values())
            if not summaries:
                break
            mark = "data-next-summary"
            self.page.evaluate(
                "([e, m]) => { document.querySelectorAll(`[${m}]`).forEach(o => o.removeAttribute(m)); e.setAttribute(m, ''); }",
                [summaries[0].as_element(), mark],
            )
            self.touch(self.page.locator(f"[{mark}]"))
        return what

    def press(self, where: str | Locator) -> None:
        """Press something, wherever it is on the page."""
        self.touch(self.find(where))

    def follow(self, link: str | Locator) -> None:
        """A way to another page."""
        what = self.find(link)
        with self.page.expect_navigation():
            self.touch(what)
        self.page.wait_for_load_state()

    def go(self, door: str) -> None:
        """Through a door of the sheet."""
        if self.page.locator(f"nav a[aria-current]:text-is('{door}')").count() == 0:
            self.follow(f"nav a:text-is('{door}')")
        expect(self.page.locator("nav a[aria-current=page]")).to_have_text(door)

    def head(self) -> int:
        """How many entries this page has seen."""
        return int(self.page.evaluate(HEAD))

    def landed(self, before: int) -> None:
        """Wait until what was written stands on the page."""
        self.page.wait_for_function(
            f"() => ({HEAD})() > {before} || document.querySelector('#aside .item')", timeout=15_000
        )
        empty_queue(self.page)
        assert self.page.locator("#aside .item").count() == 0, self.page.inner_text("#aside")

    def enter(self, where: str | Locator) -> None:
        """Press what writes an entry, and wait for it."""
        before = self.head()
        self.press(where)
        self.landed(before)

    def read(self, *texts: str) -> None:
        """Readings in the order in which they are asked; each waits for its verdict."""
        for text in texts:
            before = self.head()
            self.value(text)
            self.landed(before)

    def sign(self, hold: str) -> None:
        """A hold with everything that it asks to be looked at."""
        self.go("build")
        form = self.page.locator(f"#hold-{hold} form")
        self.find(form)
        for box in form.locator("input[type=checkbox]").all():
            self.tick(box)
        self.enter(form.locator("button"))

    def done(self, operation: str, where: str = "", **details: str) -> None:
        """Work written down: by the step that is asked, or among all that can be done."""
        self.go("build")
        named = f"form.doing[data-fact*='\"{operation}\"']"
        asked = self.page.locator(f".holds li.now button[data-entry*='\"{operation}\"']")
        if (
            asked.count()
            and not details
            and (not where or f'"{where}"' in str(asked.first.get_attribute("data-entry")))
        ):
            self.enter(asked)
            return
        form = self.page.locator(named).first
        self.find(form)
        for name, text in details.items():
            self.write(form.locator(f"[name='detail.{name}']"), text)
        if form.locator("select[name=where]").count():
            self.choose(form.locator("select[name=where]"), where)
            self.enter(form.locator("button[type=submit]"))
        else:
            self.enter(form.locator(f"button[name=where][value='{where}']" if where else "button[name=where]"))

    def drawn_up(self, joint: str) -> None:
        """Every stage of a joint, in order, at its step or among the joints."""
        self.go("build")
        forms = self.page.locator(f'form.stage[data-fact*=\'"joint":"{joint}\']').all()
        assert forms, f"no stage of {joint} on the page"
        for fact in dict.fromkeys(str(form.get_attribute("data-fact")) for form in forms):
            self.enter(self.page.locator(f"form.stage[data-fact='{fact}'] button").first)


class Keys(Hands):
    """Keyboard alone: Tab to reach, Return and Space to press."""

    def reach(self, what: Locator) -> None:
        for _ in range(12):
            if what.evaluate(HERE):
                return
            wanted, now = what.evaluate(STEPS)
            assert wanted >= 0, f"no key reaches {what}"
            key = "Tab" if wanted > now else "Shift+Tab"
            for _ in range(max(1, abs(wanted - now))):
                self.page.keyboard.press(key)
        raise AssertionError(f"Tab does not arrive at {what}")

    def touch(self, what: Locator) -> None:
        self.reach(what)
        self.page.keyboard.press("Enter")

    def write(self, what: Locator, text: str) -> None:
        self.reach(what)
        self.page.keyboard.press("Control+a")
        self.page.keyboard.type(text)

    def choose(self, what: Locator, value: str) -> None:
        self.reach(what)
        self.page.keyboard.press("Home")
        for _ in range(what.locator("option").count()):
            if what.input_value() == value:
                return
            self.page.keyboard.press("ArrowDown")
        assert what.input_value() == value, (value, what.inner_text())

    def tick(self, what: Locator) -> None:
        if what.is_checked():
            return
        if what.get_attribute("type") != "radio":
            self.reach(what)
            self.page.keyboard.press("Space")
            assert what.is_checked()
            return
        name = what.get_attribute("name")
        self.reach(self.page.locator(f"input[name='{name}']:checked"))
        for _ in range(20):
            if what.is_checked():
                return
            self.page.keyboard.press("ArrowDown")
        raise AssertionError(f"no arrow arrives at {what}")

    def value(self, text: str) -> None:
        assert self.page.evaluate("document.activeElement.id") == "value", "the field has lost the cursor"
        self.page.keyboard.type(text)
        self.page.keyboard.press("Enter")


class Finger(Hands):
    """Touch alone: taps; words come from the keyboard that a tablet shows, numbers from the keys on the screen."""

    def touch(self, what: Locator) -> None:
        what.tap()

    def write(self, what: Locator, text: str) -> None:
        what.tap()
        what.evaluate("e => e.select()")
        self.page.keyboard.insert_text(text)

    def choose(self, what: Locator, value: str) -> None:
        what.tap()
        what.select_option(value)  # the list itself is drawn by the tablet, outside the page

    def tick(self, what: Locator) -> None:
        if not what.is_checked():
            what.tap()

    def value(self, text: str) -> None:
        if self.page.locator("#words button").count():
            self.page.locator(f"#words button:text-is('{text}')").tap()
            return
        left = text
        while left:
            key = "no gap" if left.startswith("no gap") else left[0]
            self.page.locator(f"#keys [data-key='{key}']").tap()
            left = left[len(key) :]
        self.page.locator("button.return").tap()


def picture(page: Page, name: str) -> None:
    """A picture for the book of the day, when a folder for it is named; few colours, so that it stays small."""
    folder = os.environ.get("GUDGEON_PICTURES")
    if folder:
        from PIL import Image

        with Image.open(io.BytesIO(page.screenshot())) as shot:
            shot.convert("RGB").quantize(48).save(Path(folder) / f"day-{name}.png", optimize=True)
