"""A valves job on the small engine, walked through the screens by whichever hands; what it must come to at the end."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

from playwright.sync_api import Page, expect
from tests.bench.hands import Hands, picture
from tests.bench.small import BOOK, bench

from gudgeon.demo.story import shelf_text
from gudgeon.job.entries import HoldPassed, PaperIssued
from gudgeon.workbench.bench import Workbench

#: What the small engine lacks for a whole job: shims on sale, and bolts.
WHOLE = (
    BOOK
    + """
[[shims]]
diameter = "9.0 mm"
smallest = "2.30 mm"
largest = "2.80 mm"
step = "0.05 mm"
count = 11
mark = "three digits"
part = "125-1600"
price = "4.00"

[[fastener]]
name = "cam holder bolts"
joint = "holder"
thread = "M6"
grade = "8.8"
count = 4
torque = ["4 N·m", "7 N·m", "10 N·m"]
thread_state = "dry"
under_head = "dry"
page = "3-30"

[[fastener]]
name = "tensioner bolts"
joint = "tensioner"
thread = "M6"
grade = "8.8"
count = 2
torque = ["10 N·m"]
thread_state = "dry"
under_head = "dry"
page = "3-31"

[[fastener]]
name = "cover bolts"
joint = "cover"
thread = "M6"
grade = "8.8"
count = 4
torque = ["8 N·m"]
thread_state = "dry"
under_head = "dry"
page = "3-31"
"""
)
NUMBER = "V-1"
IL, IR, EL, ER = "c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right"


def shelved(folder: Path) -> Workbench:
    """The workshop before the engine comes: gauges and wrenches on the shelf, the book kept."""
    wb = bench(folder)
    wb.put_shelf(shelf_text())
    wb.add_book(WHOLE)
    return wb


def intake(hands: Hands) -> None:
    """The engine taken in."""
    page = hands.page
    page.goto(hands.url)
    hands.press("text=Open the first job")
    page.wait_for_load_state()
    for name, text in (("machine", "pump 2"), ("engine_number", "0031"), ("hours", "88 h"), ("number", NUMBER),
                       ("owner", "Valley pumping station"), ("complaint", "ticks when cold")):  # fmt: skip
        hands.write(page.locator(f"[name={name}]"), text)
    picture(page, "intake")
    hands.press("button.go")
    page.wait_for_url(f"**/job/{NUMBER}/measure")
    page.wait_for_load_state()


#: What the gauges show on the way, by what is asked and where; the lash of the tight valve is read twice.
SHOWN = {
    ("lash", IL): ["0.06/0.07", "0.12/0.13"],
    ("lash", IR): ["0.12/0.13", "0.12/0.13"],
    ("lash", EL): ["0.21/0.22", "0.21/0.22"],
    ("lash", ER): ["0.22/0.23", "0.22/0.23"],
    ("shim_thickness", IL): ["2.460"],
    ("shim_thickness", IR): ["2.510"],
    ("timing_marks", "cam.in"): ["in line"],
    ("timing_marks", "cam.ex"): ["in line"],
}
BOUGHT, MARK, ORDER = "2.402", "240", "P-1"


class Technician:
    """Goes where the blue step leads, reads what is asked, and does what stands there."""

    def __init__(self, hands: Hands) -> None:
        self.hands, self.page = hands, hands.page
        self.shown = {key: list(texts) for key, texts in SHOWN.items()}

    def read_what_is_asked(self) -> None:
        """One reading, as the page asks it."""
        facts = self.page.locator("#facts")
        asked = str(facts.get_attribute("data-measurand")), str(facts.get_attribute("data-place"))
        self.hands.read(self.shown[asked].pop(0))

    def step(self) -> bool:
        """The step that is blue on the route; false when none is left."""
        hands = self.hands
        hands.go("build")
        now = self.page.locator(".holds li.now")
        if not now.count():
            return False
        if now.locator("form.stage").count():
            joint = json.loads(str(now.locator("form.stage").first.get_attribute("data-fact")))["joint"]
            if "holder" in joint:
                picture(self.page, "tighten")
            hands.drawn_up(joint)
        elif now.locator("button[data-entry]").count():
            hands.enter(now.locator("button[data-entry]"))
        elif now.locator(".needs a.link").count():
            hands.follow(now.locator(".needs a.link"))
            self.read_what_is_asked()
        elif now.locator("form[data-fact*=hold_passed]").count():
            for box in now.locator("input[type=checkbox]").all():
                hands.tick(hands.find(box))
            hands.enter(now.locator("button"))
        else:
            hands.follow(now.locator("a.key"))
            self.shims()
        return True

    def shims(self) -> None:
        """The plan of shims: what it waits for, then order, arrival, in hand, read, fitted."""
        hands, page = self.hands, self.page
        needs = page.locator("#plan-shims .needs a.link")
        if needs.count():
            hands.follow(needs)
            self.read_what_is_asked()
            return
        expect(page.locator("#plan-shims")).to_contain_text("buy 2.400")
        picture(page, "shims")
        order = page.locator("#plan-order .order-form")
        hands.write(hands.find(order.locator("[name=order]")), ORDER)
        hands.enter(order.locator("button"))
        hands.enter(page.locator(".order form[data-fact*=arrived] button"))
        piece = page.locator(".order form[data-fact*=part_received]")
        hands.write(piece.locator("[name=mark]"), MARK)
        hands.enter(piece.locator("button"))
        loose = page.locator("form[data-fact*=shim_thickness]")
        hands.write(loose.locator("[name=text]"), BOUGHT)
        hands.choose(loose.locator("select"), "MIC-25")
        hands.enter(loose.locator("button"))
        hands.enter(page.locator("#plan-shims button[data-entry]"))


def walk(hands: Hands) -> None:
    """From the engine on the bench to its record handed over."""
    page = hands.page
    intake(hands)
    hands.sign("H0")
    hands.done("open_cover", "head")
    hands.go("measure")
    technician = Technician(hands)
    for _ in range(4):
        technician.read_what_is_asked()
        if _ == 0:
            expect(page.locator("#strips")).to_contain_text("tight")
            picture(page, "lash")
    for _ in range(40):
        if not technician.step():
            break
    else:
        raise AssertionError("the route does not end")
    picture(page, "built")
    hands.go("engine")
    expect(page.locator(".standing")).to_contain_text("nothing open")
    hands.follow(".next a.go")
    paper = page.locator("form[action$='/hand_over/issued'] button")
    hands.follow(paper)
    expect(page.locator("li", has_text="hand-over").first).to_contain_text("handed over")


def came_to_its_end(wb: Workbench, page: Page, url: str, folder: Path) -> None:
    """Every entry of the walk stands, and the record that was written is the record of this ledger."""
    view = wb.view(NUMBER)
    assert not view.open and not view.problems, (view.open, view.problems)
    assert view.at(f"lash@{IL}").said == "0.125"  # type: ignore[union-attr]
    assert {c.verdict for c in view.characteristics if c.key == "lash"} == {"in setting"}
    bodies = [e.typed.body for e in wb.loaded(NUMBER).entries]
    assert {b.hold for b in bodies if isinstance(b, HoldPassed)} == {"H0", "H9a", "H9b", "H10", "H11", "H13"}
    assert not any(b.override for b in bodies if isinstance(b, HoldPassed))
    assert isinstance(bodies[-1], PaperIssued) and bodies[-1].paper == "hand_over"
    record = folder / "record.pdf"
    record.write_bytes(page.request.get(f"{url}/job/{NUMBER}/paper/hand_over.pdf").body())
    said = subprocess.run(
        [sys.executable, "-m", "gudgeon", "paper", "check", str(record)],
        env={**os.environ, "GUDGEON_DATA": str(folder)}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert said.returncode == 0, said.stdout + said.stderr
