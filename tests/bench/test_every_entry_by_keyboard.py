"""What a valves job never needs, by keyboard alone on the demo's engine: each kind of entry has its control on a screen."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page
from tests.bench.hands import Keys
from tests.bench.live import Live
from tests.bench.small import bench

from gudgeon.demo.story import book_text, shelf_text
from gudgeon.job.entries import (
    ArrivedWrong,
    Disposition,
    EstimateApproved,
    Finding,
    HoldPassed,
    JobClosed,
    JobOpened,
    Note,
    OperationDone,
    Ordered,
    PartFitted,
    PartRemoved,
    PartsSwapped,
    Retraction,
    ScopeWidened,
    TorqueApplied,
)
from gudgeon.workbench.bench import Hand, Workbench

pytestmark = pytest.mark.browser

JOB = "K-1"
EL, ER = "c1.ex.left/shim", "c1.ex.right/shim"


def opened(folder: Path) -> Workbench:
    """The demo's engine on the bench, with an order out."""
    wb = bench(folder)
    wb.put_shelf(shelf_text())
    sha, hand = wb.add_book(book_text("corrie"), "corrie.toml"), Hand(by="t", bench="set-up")
    wb.open_job(JobOpened(number=JOB, engine_number="0417", scope="head out", machine="quad 3"), sha, hand)
    wb.record(JOB, [Ordered(order="P-1", kind="parts", lines={"371-1340": 4})], hand)
    return wb


def built(keys: Keys) -> None:
    """Seen, noted, opened, exchanged, remembered late, drawn up, cleaned."""
    page = keys.page
    keys.go("build")
    finding = "#seen form[data-fact*=finding]"
    keys.choose(keys.find(f"{finding} select"), "c1")
    keys.write(keys.find(f"{finding} [name=kind]"), "leak heard at the intake")
    keys.enter(f"{finding} button")
    keys.write(keys.find("#seen form[data-fact*=note] [name=words]"), "Number read off the crankcase.")
    keys.enter("#seen form[data-fact*=note] button")
    keys.done("open_cam_holder", "cam.ex")
    swap = "form[data-fact*=parts_swapped]"
    keys.choose(keys.find(f"{swap} [name=slot]"), EL)
    keys.choose(keys.find(f"{swap} [name=other]"), ER)
    keys.enter(f"{swap} button")
    last = str(page.locator("#late-before option").nth(1).get_attribute("value"))
    keys.choose(keys.find("#late-before"), last)
    keys.write(keys.find("#late-because"), "the mark was read")
    out = "form[data-fact*=part_removed]"
    keys.choose(keys.find(f"{out} select"), EL)
    keys.enter(f"{out} button")
    keys.choose(keys.find(f"{out} select"), ER)
    keys.enter(f"{out} button")
    keys.choose(keys.find("form[data-fact*=part_fitted] select"), ER)
    keys.enter("form[data-fact*=part_fitted] button")
    keys.drawn_up("engine oil union")
    keys.enter("form.doing[data-fact*='\"clean\"'] button[data-entries]")


def decided(keys: Keys) -> None:
    """A part decided, the owner's yes, something that came wrong, the job widened."""
    page = keys.page
    keys.go("decide")
    keys.press("details.folded summary:has-text('other part')")
    part = page.locator("details.part form[data-fact*=disposition]").first
    keys.write(keys.find(part.locator("[name=reason]")), "grooved")
    keys.enter(part.locator("button[value=renew]"))
    keys.write(keys.find("form[data-fact*=estimate_approved] [name=amount]"), "640.00")
    keys.write(keys.find("form[data-fact*=estimate_approved] [name=by]"), "station")
    keys.enter("form[data-fact*=estimate_approved] button")
    keys.enter("form[data-fact*=arrived_wrong] button")
    keys.enter("button[data-entry*=scope_widened]")


def ended(keys: Keys) -> None:
    """A hold signed against, an entry taken back, the job closed with its reason."""
    keys.go("build")
    keys.write(keys.find("form[data-fact*=hold_passed] [name=override]"), "told to the owner")
    keys.enter(keys.page.locator("form[data-fact*=hold_passed]:has([name=override]) button"))
    keys.go("papers")
    keys.follow("a.link[href*='retract=']")
    keys.write(keys.find("form[data-fact*=retraction] [name=reason]"), "wrong hold")
    keys.enter("form[data-fact*=retraction] button")
    keys.go("papers")
    keys.write(keys.find("form[data-fact*=job_closed] [name=reason]"), "stopped by the owner")
    keys.enter("form[data-fact*=job_closed] button")


def test_every_kind_of_entry_has_its_control(folder: Path, live: Live, page: Page) -> None:
    """Each of them lands, and none needs a mouse."""
    wb = opened(folder)
    keys = Keys(page, live.url)
    page.goto(f"{live.url}/job/{JOB}/")
    built(keys)
    decided(keys)
    ended(keys)
    bodies = [e.typed.body for e in wb.loaded(JOB).entries]
    wanted = (Finding, Note, OperationDone, PartsSwapped, PartRemoved, PartFitted, TorqueApplied, Disposition,
              EstimateApproved, ArrivedWrong, ScopeWidened, HoldPassed, Retraction, JobClosed)  # fmt: skip
    assert [kind.__name__ for kind in wanted if not any(isinstance(b, kind) for b in bodies)] == []
    cleaned = [b for b in bodies if isinstance(b, OperationDone) and b.operation == "clean"]
    assert len(cleaned) > 20
    late = next(b for b in bodies if isinstance(b, PartRemoved))
    assert late.before and late.because == "the mark was read"
