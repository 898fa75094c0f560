"""The screens in a real browser: what they do, with no error and no request that leaves the bench."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect
from tests.bench.live import empty_queue
from tests.web.conftest import HAND, JOB, SMALL, Tablet

from gudgeon.job.entries import Disposition, Note, OperationDone
from gudgeon.workbench.bench import Workbench

pytestmark = pytest.mark.browser


def test_the_engine_stands_whole_on_a_tablet_both_ways(tablet: Tablet) -> None:
    for width, height in ((1280, 800), (800, 1280), (1440, 900)):
        tablet.page.set_viewport_size({"width": width, "height": height})
        page = tablet.go(f"/job/{JOB}/")
        assert page.locator(".levels li").count() == 10
        assert page.evaluate("document.documentElement.scrollHeight") <= height
        sizes = page.locator(".says strong, .name").evaluate_all(
            "all => all.map(e => parseFloat(getComputedStyle(e).fontSize))"
        )
        assert min(sizes) >= 20
        assert page.locator(".next .key").evaluate("e => parseFloat(getComputedStyle(e).fontSize)") >= 26


def test_each_level_leads_to_what_it_is_about(tablet: Tablet) -> None:
    page = tablet.go(f"/job/{JOB}/")
    page.get_by_role("link", name=re.compile("springs, keepers")).click()
    expect(page).to_have_url(re.compile("/(decide|measure)"))
    page.go_back()
    page.locator(".next .key").click()
    expect(page).to_have_url(re.compile(f"/job/{JOB}/(measure|decide|build|papers)"))


def test_intake_with_an_own_layout_goes_to_the_bench(tablet: Tablet) -> None:
    page = tablet.go("/open")
    page.get_by_label("machine").fill("snow groomer")
    page.get_by_label("engine number").fill("88")
    page.get_by_label("an engine without a book").check()
    page.get_by_label("engine family").fill("Mule 4")
    page.get_by_label("cylinders").fill("2")
    page.get_by_role("radio", name="buckets, shim underneath").check()
    page.get_by_role("button", name="Open the job").click()
    expect(page).to_have_url(re.compile(r"/job/26-\d+/measure"))
    expect(page.locator("#question")).to_contain_text("ylinder 1")


def test_a_layout_is_asked_for_only_without_a_book(tablet: Tablet) -> None:
    page = tablet.go("/open")
    expect(page.get_by_label("engine family")).to_be_hidden()
    page.get_by_label("an engine without a book").check()
    expect(page.get_by_label("engine family")).to_be_visible()


def test_a_hold_is_signed_only_with_its_checks(tablet: Tablet, workshop: Workbench) -> None:
    page = tablet.go(f"/job/{JOB}/build")
    hold = page.locator("#hold-H0")
    hold.get_by_role("button", name="sign H0").click()
    assert workshop.ledgers.head(JOB).seq == workshop.view(JOB).ledger.head  # the checks were not ticked
    for check in hold.get_by_role("checkbox").all():
        check.check()
    hold.get_by_role("button", name="sign H0").click()
    expect(page.locator("#hold-H0 h3")).to_contain_text("passed")
    assert next(h for h in workshop.view(JOB).holds if h.hold == "H0").state == "passed"


def test_signing_against_the_evidence_needs_its_reason(tablet: Tablet, workshop: Workbench) -> None:
    page = tablet.go(f"/job/{JOB}/build")
    hold = page.locator("#hold-H10")
    hold.locator("summary").click()
    button = hold.get_by_role("button", name="sign against")
    button.click()
    hold.get_by_label("sign against it: why").fill("read on the other bench")
    button.click()
    expect(page.locator("#hold-H10 h3")).to_contain_text("signed against")
    assert next(h for h in workshop.view(JOB).holds if h.hold == "H10").override == "read on the other bench"


def test_work_is_written_down_with_its_caution_beside_it(tablet: Tablet, workshop: Workbench) -> None:
    page = tablet.go(f"/job/{JOB}/build")
    page.get_by_text("turn, set, warm", exact=True).click()
    form = page.locator("form.doing", has_text="turn forwards by hand")
    expect(form).to_contain_text("come first")
    form.get_by_label("turns").fill("2")
    form.get_by_role("button").click()
    expect(page.locator("#ledger-cell")).to_contain_text(re.compile(r"^\d+"))
    empty_queue(page)
    done = workshop.worked(JOB).given.state.did("turn_forwards")
    assert [d.detail["turns"] for d in done] == ["2"]


def test_a_stage_is_drawn_up_with_the_wrench_that_is_proved_there(tablet: Tablet, workshop: Workbench) -> None:
    page = tablet.go(f"/job/{JOB}/build")
    joint = page.locator("details.joint", has_text=re.compile("^head ?open"))
    if joint.get_attribute("open") is None:
        joint.locator("summary").click()
    joint.get_by_role("button").first.click()
    expect(page.locator("details.joint button", has_text="✓").first).to_be_attached()
    fact = workshop.loaded(JOB).entries[-1].typed.body
    assert (fact.__class__.__name__, fact.joint, fact.stage) == ("TorqueApplied", "head head#head nuts", 1)  # type: ignore[union-attr]


def test_a_disposition_needs_its_reason_and_lands(tablet: Tablet, workshop: Workbench) -> None:
    page = tablet.go(f"/job/{JOB}/decide")
    part = page.locator("[id='part-c1.in.left/valve']")
    part.get_by_role("button", name="renew").click()
    assert workshop.view(JOB).parts and part.get_by_label("reason").evaluate("e => e.validity.valueMissing")
    part.get_by_label("reason").fill("face grooved")
    part.get_by_role("button", name="renew").click()
    expect(part.locator("summary").first).to_contain_text("renew")
    found = next(p for p in workshop.view(JOB).parts if p.slot == "c1.in.left/valve")
    assert (found.what, found.reason) == ("renew", "face grooved")


def test_a_whole_plan_of_dispositions_in_one_tap(tablet: Tablet, workshop: Workbench) -> None:
    page = tablet.go(f"/job/{JOB}/decide")
    button = page.get_by_role("button", name=re.compile("decide all"))
    before, count = workshop.ledgers.head(JOB).seq, int(re.findall(r"\d+", button.inner_text())[0])
    button.click()
    expect(button).to_be_hidden(timeout=20_000)
    landed = [e.typed.body for e in workshop.loaded(JOB).entries if e.seq > before]
    assert len(landed) == count > 1
    assert all(isinstance(body, Disposition) and body.reason for body in landed)
    assert len({body.part for body in landed if isinstance(body, Disposition)}) == count


def test_a_decision_on_an_old_head_steps_aside_and_is_said(tablet: Tablet, workshop: Workbench) -> None:
    page = tablet.go(f"/job/{JOB}/decide")
    page.get_by_label("up to").fill("700")  # half typed: the page does not load itself again
    workshop.record(JOB, [Note(words="from another bench")], HAND)
    expect(page.locator("#moved")).to_be_visible(timeout=5000)
    page.get_by_label("said by").fill("owner")
    page.get_by_role("button", name="approved").click()
    expect(page.locator("#aside .item")).to_be_visible()
    assert workshop.worked(JOB).given.state.approvals[-1][1].amount == "640.00"
    tablet.wrong[:] = [w for w in tablet.wrong if "409" not in w]


def test_what_another_bench_wrote_is_seen(tablet: Tablet, workshop: Workbench) -> None:
    page = tablet.go(f"/job/{JOB}/build")
    expect(page.get_by_text("1 rag in")).to_be_visible()
    workshop.record(JOB, [OperationDone(operation="rag_in", where="engine", detail={"count": "1"})], HAND)
    expect(page.get_by_text("2 rags in")).to_be_visible(timeout=5000)


def test_taking_back_shows_what_changes_asks_why_and_does_it(tablet: Tablet, workshop: Workbench) -> None:
    seq = next(e.seq for e in workshop.view(JOB).entries if e.fact == "disposition")
    page = tablet.go(f"/job/{JOB}/papers")
    page.get_by_role("link", name=re.compile(f"take back {seq}$")).click()
    expect(page.locator(".changes li")).not_to_have_count(0)
    asked = page.get_by_role("region", name="Take back entry")
    asked.get_by_label("reason").fill("wrong side")
    asked.get_by_role("button", name="take it back").click()
    expect(page).to_have_url(re.compile("/papers$"))
    expect(page.locator("tr.retracted")).to_have_count(1)
    assert next(e for e in workshop.view(JOB).entries if e.seq == seq).retracted


def test_what_is_folded_away_is_fetched_when_it_is_wanted(tablet: Tablet, workshop: Workbench) -> None:
    good = next(c for c in workshop.view(SMALL).characteristics if c.verdict == "in setting")
    page = tablet.go(f"/job/{SMALL}/decide")
    expect(page.locator(f"[id='{good.address}']")).to_have_count(0)
    page.locator("details.folded summary", has_text="good").click()
    expect(page.locator(f"[id='{good.address}'] .strip svg")).to_be_visible()
    page.goto("about:blank")
    page = tablet.go(f"/job/{SMALL}/decide#{good.address}")
    expect(page.locator(f"[id='{good.address}']")).to_be_in_viewport()


def test_by_keyboard_alone_from_the_jobs_to_the_blue_thing(tablet: Tablet) -> None:
    page = tablet.go("/")
    page.keyboard.press("Tab")
    expect(page.locator(":focus")).to_have_text("to the work")
    page.keyboard.press("Enter")
    for _ in range(12):
        page.keyboard.press("Tab")
        if page.locator(":focus").get_attribute("href") == f"/job/{SMALL}/":
            break
    page.keyboard.press("Enter")
    expect(page).to_have_url(re.compile(f"/job/{SMALL}/$"))
    outline = page.locator(".next .key").evaluate(
        "e => { e.focus({focusVisible: true}); return getComputedStyle(e).outlineWidth; }"
    )
    assert outline == "3px"


def test_work_remembered_late_names_the_entry_it_came_before(tablet: Tablet, workshop: Workbench) -> None:
    target = workshop.view(JOB).entries[-1]
    page = tablet.go(f"/job/{JOB}/build")
    page.locator("#late summary").click()
    page.get_by_label("it was done before").select_option(target.id)
    page.get_by_label("how that is known").fill("the other hand said so")
    page.get_by_text("turn, set, warm", exact=True).click()
    page.locator("form.doing", has_text="turn forwards by hand").get_by_role("button").click()
    expect(page.locator("#late-before")).to_have_value("")  # the page has followed
    fact = workshop.loaded(JOB).entries[-1].typed.body
    assert isinstance(fact, OperationDone)
    assert (fact.operation, fact.before, fact.because) == ("turn_forwards", target.id, "the other hand said so")


def test_a_job_with_open_things_is_closed_only_with_a_reason(tablet: Tablet, workshop: Workbench) -> None:
    page = tablet.go(f"/job/{JOB}/papers")
    page.get_by_role("button", name="close it").click()
    assert workshop.view(JOB).job.state == "open"
    page.get_by_label("reason").fill("owner takes it as it is")
    page.get_by_role("button", name="close it").click()
    expect(page.get_by_role("button", name="close it")).to_have_count(0)
    assert workshop.view(JOB).job.state == "closed"


def test_the_next_step_of_the_route_is_done_by_one_button(tablet: Tablet, workshop: Workbench) -> None:
    def asked() -> tuple[object, object, object]:
        plan = workshop.view(JOB).plan("route")
        assert plan is not None
        first = next(line for line in plan.lines if line.numbers.get("operation") and line.numbers["state"] != "done")
        return first.numbers["operation"], first.numbers["place"], first.what.partition(": ")[0]

    operation, place, words = asked()
    page = tablet.go(f"/job/{JOB}/build")
    step = page.locator(".step", has_text=words).first
    if step.get_attribute("open") is None:
        step.locator("summary").click()
    step.get_by_role("button").click()
    empty_queue(page)
    fact = workshop.loaded(JOB).entries[-1].typed.body
    assert isinstance(fact, OperationDone)
    assert (fact.operation, fact.where) == (operation, place)
    assert asked() != (operation, place, words)
