"""Fates of parts, cuts, what came back, and the route, on an invented engine."""

from __future__ import annotations

import pytest
from invented import EL, ER, IL, IR, SHELF, bench, book, finger

from gudgeon.job.entries import Disposition, Finding, Ordered, PartFitted, PartReceived, PartsSwapped
from gudgeon.plans.holds import standing
from gudgeon.plans.incoming import agreed_on
from plan_bench import PlanBench

GOOD = "0.12/0.13 0.13/0.14 0.23/0.24 0.22/0.23"


def fate(job: PlanBench, slot: str) -> dict[str, float | str | bool | None]:
    return dict(job.line("dispositions", slot).numbers)


def springs(loads: str, shelf: str = "") -> PlanBench:
    job = bench("head out", shelf=shelf)
    job.each("spring_load", loads, "S", unit="N")
    return job


def test_a_weak_spring_takes_its_side_with_it() -> None:
    job = springs("120.0 155.0 156.0 157.0")
    assert [fate(job, f"{v}/spring")["what"] for v in (IL, IR, EL, ER)] == ["renew", "renew", "reuse", "reuse"]
    assert [(b.number, b.count) for b in job.plan("order").buys if b.number == "V-1"] == [("V-1", 2)]


def test_unless_the_workshop_says_one() -> None:
    job = springs("120.0 155.0 156.0 157.0", shelf='[rules]\nsprings = "one"\n')
    assert [fate(job, f"{v}/spring")["what"] for v in (IL, IR)] == ["renew", "reuse"]


def test_what_was_decided_is_kept_unless_a_measured_breach_stands_against_it() -> None:
    job = springs("120.0 155.0 156.0 157.0", shelf='[rules]\nsprings = "one"\n')
    job.record(Disposition(part=f"orig:{IL}/spring", what="reuse", reason="it looks well"))
    job.record(Disposition(part=f"orig:{ER}/spring", what="renew", reason="rust"))
    assert (fate(job, f"{IL}/spring")["what"], fate(job, f"{IL}/spring")["decided"]) == ("renew", "reuse")
    assert (fate(job, f"{ER}/spring")["what"], fate(job, f"{ER}/spring")["sure"]) == ("renew", True)


def test_a_renewed_part_is_not_bought_again() -> None:
    job = springs("120.0 155.0 156.0 157.0", shelf='[rules]\nsprings = "one"\n')
    job.fit("spring", f"{IL}/spring", "V-1")
    row = dict(next(x for x in job.plan("order").lines if dict(x.numbers)["number"] == "V-1").numbers)
    assert (row["count"], row["status"], row["to_order"]) == (1.0, "fitted", 0.0)


@pytest.mark.parametrize(
    ("coated", "what"), [("true", "renew"), ("false", "machine")], ids=["coated", "steel"]
)  # fmt: skip
def test_a_grooved_face_is_ground_only_where_the_material_lets_it(coated: str, what: str) -> None:
    job = bench("head out", coated=coated)
    job.record(Finding(kind="face grooved", where=f"{IL}/valve"))
    assert fate(job, f"{IL}/valve")["what"] == what


def test_a_crack_condemns_and_carbon_is_cleaned() -> None:
    job = bench("head out")
    job.record(Finding(kind="cracked", where=f"{IL}/retainer"), Finding(kind="carbon", where=f"{EL}/valve"))
    assert fate(job, f"{IL}/retainer")["what"] == "renew"
    assert fate(job, f"{EL}/valve")["what"] == "clean"


def test_a_coated_valve_that_was_lapped_is_done_for() -> None:
    job = bench("head out", coated="true")
    job.do("lap_valve", IL, already="done")
    assert fate(job, f"{IL}/valve")["what"] == "renew"


def test_a_pair_that_was_parted_is_worked_again() -> None:
    job = bench("head out")
    job.do("open_keepers", EL)
    job.do("open_keepers", ER)
    job.do("lap_valve", EL)
    job.record(PartsSwapped(slot=f"{EL}/valve", other=f"{ER}/valve"))
    assert fate(job, f"{EL}/seat")["what"] == "machine"
    assert any(cut.where == EL for cut in job.plan("machining").machines)


def test_the_shims_wait_for_a_part_that_is_still_to_come() -> None:
    job = bench("head out")
    job.each("lash", GOOD, "F")
    assert job.plan("shims").state == "nothing to do"
    job.record(Disposition(part=f"orig:{IL}/valve", what="renew", reason="bent"))
    assert job.plan("shims").state == "waits"


def bounded() -> PlanBench:
    job = finger()
    job.each("lash", GOOD, "F")
    job.do("open_cam_holder", "cam.in")
    job.each("shim_thickness", "2.000 2.010 - -", "M")
    job.each("tip_height", "40.000 40.000 - -", "D")
    job.record(Disposition(part=f"orig:{IL}/seat", what="machine", reason="wide"))
    return job


def test_bounds_are_the_thinnest_and_the_thickest_shim() -> None:
    """H = 1.6·0.125 + 40 + 2 = 42.2; thickest 2.60 at 0.16: 39.344; thinnest 1.50 at 0.10: 40.54 less the doubt."""
    cut = bounded().plan("machining").machines[0]
    assert cut.low_mm == pytest.approx(39.34)
    assert cut.never_over_mm is not None
    assert 40.50 <= cut.never_over_mm < 40.54


def test_a_thicker_shim_that_stood_there_moves_the_bounds_with_it() -> None:
    """Sign law: 0.1 more in shim or tip is 0.1 more room, 0.1 more in lash is 0.16 more."""
    base = bounded().plan("machining").machines[0].low_mm
    assert base is not None
    job = finger()
    job.each("lash", "0.22/0.23 0.13/0.14 0.23/0.24 0.22/0.23", "F")
    job.do("open_cam_holder", "cam.in")
    job.each("shim_thickness", "2.100 2.010 - -", "M")
    job.each("tip_height", "40.000 40.000 - -", "D")
    job.record(Disposition(part=f"orig:{IL}/seat", what="machine", reason="wide"))
    moved = job.plan("machining").machines[0].low_mm
    assert moved == pytest.approx(base + 0.1 + 0.16, abs=0.011)


def test_a_cut_that_was_made_is_no_longer_ordered() -> None:
    job = bounded()
    job.do("cut_seat", IL)
    assert job.plan("machining").machines == ()


@pytest.mark.parametrize(
    ("key", "words", "found"),
    [
        ("intake left", "tip 40.10 to 40.50, never over 40.53", (40.10, 40.50, 40.53)),
        ("c1.in.left", "40,10 – 40,50", (40.10, 40.50, None)),
        ("bounds", "intake left tip 40.10 to 40.50 mm", (40.10, 40.50, None)),
        ("intake right", "tip 40.10 to 40.50", None),
        ("intake left", "as light as cleans up", None),
    ],
)
def test_what_an_order_said_is_read_back(key: str, words: str, found: tuple[float, float, float | None] | None) -> None:
    agreed = agreed_on(Ordered(order="M-1", kind="machining", words={key: words}), IL, 7, single=True)
    assert (None if agreed is None else (agreed.low_mm, agreed.high_mm, agreed.never_over_mm)) == found


def test_the_incoming_check_asks_for_the_tip_first() -> None:
    job = bounded()
    job.record(Ordered(order="M-1", kind="machining", words={"intake left": "40.10 to 40.50, never over 40.53"}))
    job.do("cut_seat", IL)
    plan = job.plan("machining")
    assert (plan.state, plan.needs) == ("waits", (f"tip_height@{IL}",))
    job.read("tip_height", IL, "40.05", "D")
    assert dict(job.plan("machining").lines[0].numbers)["broken"] == "under"


def steps(job: PlanBench) -> dict[str, str]:
    """Operation and place, or hold, and how far it is."""
    found = {}
    for line in job.plan("route").lines:
        n = dict(line.numbers)
        found[str(n.get("hold") or n.get("plan") or f"{n['operation']} {n['place']}")] = str(n["state"])
    return found


def test_a_valves_job_takes_out_only_the_cam_that_it_must() -> None:
    job = bench()
    job.each("lash", GOOD, "F")
    assert "open_cam_holder cam.in" not in steps(job)
    tight = bench()
    tight.each("lash", "0.05/0.06 0.13/0.14 0.23/0.24 0.22/0.23", "F")
    tight.each("shim_thickness", "2.000 2.010 - -", "M")
    assert "open_cam_holder cam.in" in steps(tight)
    assert "open_cam_holder cam.ex" not in steps(tight)
    order = list(steps(tight))
    assert order.index("remove_tensioner engine") < order.index("open_cam_holder cam.in")
    assert order.index("tighten_cam_holder cam.in") < order.index("release_tensioner engine")


def test_the_shims_are_fitted_before_the_holder_goes_on() -> None:
    job = bench()
    job.each("lash", "0.05/0.06 0.13/0.14 0.23/0.24 0.22/0.23", "F")
    job.do("open_cam_holder", "cam.in")
    job.each("shim_thickness", "2.000 2.010 - -", "M")
    order = list(steps(job))
    assert order.index("open_cam_holder cam.in") < order.index("shims") < order.index("tighten_cam_holder cam.in")
    assert steps(job)["shims"] != "done"
    thin = job.record(PartReceived(kind="shim", mark="190"))
    job.record(PartFitted(part=thin, slot=f"{IL}/shim"))
    assert steps(job)["shims"] == "done"


def test_what_is_opened_again_is_to_be_closed_again() -> None:
    job = bench("head out")
    job.do("open_cam_holder", "cam.in")
    job.do("tighten_cam_holder", "cam.in")
    assert steps(job)["tighten_cam_holder cam.in"] == "done"
    job.do("open_cam_holder", "cam.in")
    assert steps(job)["tighten_cam_holder cam.in"] != "done"
    assert list(steps(job).values()).count("next") == 1


def test_a_cover_nobody_wrote_down_is_off_when_the_head_is() -> None:
    job = bench("head out")
    job.do("loosen_head", "head")
    assert steps(job)["open_cover head"] == "done"
    assert steps(job)["tighten_cover head"] != "done"


@pytest.mark.parametrize("scope", ["valves", "leak test", "cylinder", "head out", "whole top end"])
def test_every_hold_of_a_scope_is_met_on_its_route(scope: str) -> None:
    job = bench(scope)
    wanted = {h.hold.key for h in standing(job.given) if h.state != "not needed"}
    assert wanted <= set(steps(job))


def test_the_incoming_check_comes_after_the_shop_and_before_the_keepers() -> None:
    order = list(steps(bench("whole top end")))
    assert order.index("machining") < order.index("H6") < order.index(f"seat_keepers {IL}")
    assert order.index("H7a") < order.index("tighten_base c1")


def test_turns_before_a_holder_was_opened_prove_nothing() -> None:
    job = bench("head out")
    job.do("turn_forwards", "engine", turns="2")
    assert steps(job)["turn_forwards engine"] == "done"
    job.do("open_cam_holder", "cam.ex")
    job.do("tighten_cam_holder", "cam.ex")
    assert steps(job)["turn_forwards engine"] != "done"


def test_the_caution_stands_at_the_step_and_ends_as_every_caution() -> None:
    line = next(
        x for x in bench("head out").plan("route").lines if dict(x.numbers).get("operation") == "remove_tensioner"
    )
    assert "come first" in str(line.because[0])


def test_screws_are_set_and_nothing_is_bought() -> None:
    text = book(follower="rocker_screw").replace('slots = ["c1.*.*/shim"]', "consumable = true")
    job = PlanBench(text, SHELF, "valves")
    job.each("lash", "0.05/0.06 0.13/0.14 0.23/0.24 0.22/0.23", "F")
    plan = job.plan("shims")
    assert (plan.state, plan.buys, [line.where for line in plan.lines]) == ("ready", (), [IL])


@pytest.mark.parametrize(("gap", "what"), [("0.10/0.11", "machine"), ("0.70/0.71", "renew")], ids=["tight", "wide"])
def test_a_new_ring_too_tight_is_filed_and_one_too_wide_renewed(gap: str, what: str) -> None:
    limit = '[[limit]]\nof = "ring_gap"\nnew = ["0.20 mm", "0.30 mm"]\nmost = "0.60 mm"\n'
    job = PlanBench(book() + limit, SHELF, "cylinder")
    job.fit("ring", "c1.ring.top/ring")
    job.read("ring_gap", "c1.ring.top", gap, "F")
    assert fate(job, "c1.ring.top/ring")["what"] == what


def test_a_seat_that_fails_again_after_its_cut_is_cut_again() -> None:
    limit = '[[limit]]\nof = "seat_width"\nnew = ["0.90 mm", "1.10 mm"]\nmost = "1.40 mm"\n'
    job = PlanBench(book() + limit, SHELF, "head out")
    job.record(Disposition(part=f"orig:{IL}/seat", what="machine", reason="wide"))
    job.do("cut_seat", IL)
    job.read("seat_width", IL, "1.00", "M")
    assert (fate(job, f"{IL}/seat")["what"], fate(job, f"{IL}/seat")["done"]) == ("reuse", True)
    again = PlanBench(book() + limit, SHELF, "head out")
    again.record(Disposition(part=f"orig:{IL}/seat", what="machine", reason="wide"))
    again.do("cut_seat", IL)
    again.read("seat_width", IL, "1.60", "M")
    assert (fate(again, f"{IL}/seat")["what"], fate(again, f"{IL}/seat")["done"]) == ("machine", False)
