"""What the table says beside freshness: findings, pairs, counts, needs, and the order of things on two benches."""

from __future__ import annotations

from dataclasses import replace

from freshness_rows import EX, slackened_and_retightened
from story import BUCKETS, FINGER, PUSHROD, VEE, Ledger, fresh, standing, why

from gudgeon.job.entries import HoldPassed, OperationDone, PartFitted, PartsSwapped
from gudgeon.job.state import JobState, Taken


def taken(state: JobState, entry: str) -> Taken:
    return next(t for t in state.readings if t.entry.typed.id == entry)


def test_row_3_lapping_writes_a_pair() -> None:
    ledger = Ledger()
    ledger.do("lap_valve", "c1.ex.left")
    (pair,) = ledger.state().pairs
    assert pair.parts == ("orig:c1.ex.left/valve", "orig:c1.ex.left/seat")
    assert not pair.broken


def test_row_3b_a_coated_valve_lapped_is_no_longer_usable_whatever_its_readings() -> None:
    ledger = Ledger()
    stem = ledger.read("stem_diameter", "c1.in.left")
    lapped = ledger.do("lap_valve", "c1.in.left")
    state = ledger.state()
    assert state.unusable == {"orig:c1.in.left/valve": int(lapped[1:])}
    assert fresh(state, stem)
    ledger.retract(lapped)
    assert ledger.state().unusable == {}


def test_row_3b_a_plated_bore_honed_likewise_and_an_iron_one_not() -> None:
    plated, iron = Ledger(FINGER), Ledger(PUSHROD)
    for ledger in (plated, iron):
        ledger.do("hone", "c1")
    assert set(plated.state().unusable) == {"orig:c1/barrel"}
    assert iron.state().unusable == {}


def test_row_8b_a_gasket_counts_by_number_at_its_own_place() -> None:
    ledger = Ledger(BUCKETS, numbers={f"c{n}/base gasket": "B-04" for n in range(1, 5)})
    squish = {n: ledger.read("squish", f"c{n}") for n in (1, 2)}
    ledger.do("came_back", "c1/base gasket")
    state = ledger.state()
    assert not fresh(state, squish[1])
    assert fresh(state, squish[2])


def test_row_9_lash_with_the_tensioner_out_plans_and_never_releases() -> None:
    ledger = Ledger()
    ledger.do("remove_tensioner", "engine")
    ledger.do("turn_forwards", "engine", turns="2")
    early = ledger.read("lash", "c1.in.left")
    ledger.do("release_tensioner", "engine")
    ledger.do("turn_forwards", "engine", turns="2")
    proof = ledger.read("lash", "c1.in.left")
    state = ledger.state()
    assert fresh(state, early)
    assert [str(t) for t in taken(state, early).trial] == ["engine tensioner not at final torque"]
    assert not taken(state, early).counts
    assert taken(state, proof).counts


def test_row_10_turning_backwards_starts_the_two_turns_again() -> None:
    ledger = Ledger()
    ledger.do("open_cam_holder", "cam.in")
    ledger.do("tighten_cam_holder", "cam.in")
    ledger.do("turn_forwards", "engine", turns="2")
    ledger.do("turn_backwards", "engine")
    one = ledger.do("turn_forwards", "engine", turns="1,5")
    short = ledger.read("lash", "c1.in.left")
    ledger.do("turn_forwards", "engine", turns="0.5")
    enough = ledger.read("lash", "c1.in.left")
    state = ledger.state()
    assert one and not state.problems
    assert [str(t) for t in taken(state, short).trial] == ["not turned two turns since"]
    assert taken(state, enough).counts


def test_row_11_a_gasket_is_used_at_the_final_stage_and_not_by_retightening() -> None:
    ledger = Ledger()
    ledger.do("retighten_head", "head")
    assert ledger.state().used["orig:head/head gasket"] == 1
    assert ledger.state().used_twice == ()
    slackened_and_retightened(ledger)
    assert ledger.state().used["orig:head/head gasket"] == 2
    assert ledger.state().used_twice == ("head/head gasket",)


def test_row_11_each_head_of_a_vee_settles_for_itself() -> None:
    ledger = Ledger(VEE)
    front, rear = ledger.read("lash", "c1.in"), ledger.read("lash", "c2.in")
    ledger.do("retighten_head", "head.front")
    assert not fresh(ledger.state(), front)
    assert fresh(ledger.state(), rear)
    ledger.do("heat_cycle", "engine")
    assert not fresh(ledger.state(), rear)


def test_row_12_a_new_part_is_new_and_not_stale() -> None:
    ledger = Ledger(BUCKETS)
    old = ledger.read("bucket_diameter", "c2.in.left")
    part = ledger.renew("c2.in.left/follower")
    state = ledger.state()
    assert fresh(state, old)
    assert state.slots["c2.in.left/follower"] == part
    assert "bucket_diameter c2.in.left" not in standing(state)


def test_row_13b_what_fell_in_is_counted_until_it_is_found() -> None:
    ledger = Ledger()
    ledger.do("dropped_in", "engine", what="keeper")
    assert ledger.state().dropped_in == 1
    ledger.do("found", "engine", what="keeper")
    assert ledger.state().dropped_in == 0


def test_row_19_only_the_new_gasket_is_used_once() -> None:
    ledger = Ledger(numbers={"head/head gasket": "H-04"})
    squish = ledger.read("squish", "c1")
    ledger.do("loosen_head", "head")
    new = ledger.renew("head/head gasket", "H-04")
    ledger.do("tighten_head", "head")
    ledger.torque("head head")
    state = ledger.state()
    assert (state.used[new], state.used_twice) == (1, ())
    ledger.do("loosen_head", "head")
    ledger.add(PartFitted(part="orig:head/head gasket", slot="head/head gasket"))
    ledger.do("tighten_head", "head")
    state = ledger.state()
    assert state.used_twice == ("head/head gasket",)
    assert fresh(state, squish)


def test_row_21_a_valve_in_another_port_breaks_both_its_pairs_until_they_are_lapped_again() -> None:
    ledger = Ledger()
    for valve in EX:
        ledger.do("lap_valve", valve)
    ledger.add(PartsSwapped(slot="c1.ex.left/valve", other="c1.ex.right/valve"))
    assert [p.broken for p in ledger.state().pairs] == [True, True]
    for valve in EX:
        ledger.do("lap_valve", valve)
    assert [p for p in ledger.state().pairs if p.broken] == []


def test_row_21_swapped_back_everything_but_what_looks_across_the_keepers_is_fresh_again() -> None:
    ledger = Ledger()
    ledger.read_everything()
    before = standing(ledger.state())
    for _ in range(2):
        ledger.add(PartsSwapped(slot="c1.ex.left/valve", other="c1.ex.right/valve"))
    gone = {one.split(" ")[0] for one in before - standing(ledger.state())}
    assert gone == {"LASH", "SEAL", "LEAK", "COMP"}


def test_row_24_washing_makes_oil_due() -> None:
    ledger = Ledger()
    assert not ledger.state().oil_due
    ledger.do("wash", "engine")
    assert ledger.state().oil_due
    ledger.do("oil_before_fitting", "engine")
    assert not ledger.state().oil_due


def test_row_25_a_warm_lash_is_not_usable_and_leaves_the_cold_one_alone() -> None:
    ledger = Ledger()
    cold = ledger.read("lash", "c1.ex.left", temperature="19 °C")
    warm = ledger.read("lash", "c1.ex.left", temperature="55 °C")
    state = ledger.state()
    assert (taken(state, warm).warm, taken(state, warm).fresh, taken(state, warm).counts) == (True, True, False)
    assert taken(state, cold).counts


def test_row_25b_a_heat_cycle_undoes_the_lash_hold_and_not_the_start() -> None:
    ledger = Ledger()
    lash, start = (ledger.add(HoldPassed(hold=hold)) for hold in ("H10", "H12"))
    ledger.do("heat_cycle", "engine")
    state = ledger.state()
    assert not fresh(state, lash)
    assert fresh(state, start)
    assert len(state.did("heat_cycle")) == 1


def test_row_30_a_reading_that_lands_after_an_unseen_swap_has_no_known_order() -> None:
    ledger = Ledger()
    last = int(ledger.read("stem_diameter", "c1.in.left")[1:])
    ledger.add(PartsSwapped(slot="c1.in.left/shim", other="c1.in.right/shim"), bench="b1")
    offline = ledger.read("shim_thickness", "c1.in.left", bench="b2", seen=last)
    other = ledger.read("shim_thickness", "c1.ex.left", bench="b2", seen=last)
    state = ledger.state()
    assert why(state, offline) == {"shim exchanged on another bench: order not known, read again"}
    assert fresh(state, other)
    assert not taken(state, offline).predicts


def test_row_30_the_bench_that_swapped_knows_its_own_order() -> None:
    ledger = Ledger()
    ledger.add(PartsSwapped(slot="c1.in.left/shim", other="c1.in.right/shim"), bench="b2", seen=0)
    own = ledger.read("shim_thickness", "c1.in.left", bench="b2", seen=0)
    assert fresh(ledger.state(), own)


def test_row_30_the_same_part_put_back_elsewhere_leaves_no_doubt_about_its_size() -> None:
    ledger = Ledger()
    ledger.add(PartFitted(part="orig:c1.in.left/valve", slot="c1.in.left/valve"))
    tip = ledger.read("tip_height", "c1.in.left", bench="b2", seen=0)
    seal = ledger.read("seal_test", "c1.in.left", bench="b2", seen=0)
    state = ledger.state()
    assert fresh(state, tip)
    assert not fresh(state, seal)


def test_row_31_work_remembered_late_counts_from_where_it_was_done() -> None:
    ledger = Ledger()
    tip = ledger.read("tip_height", "c1.ex.left")
    late = OperationDone(operation="lap_valve", where="c1.ex.left", before=tip, because="forgot to write it")
    ledger.add(late)
    assert fresh(ledger.state(), tip)
    ledger.do("lap_valve", "c1.ex.left")
    assert not fresh(ledger.state(), tip)


def test_row_31_work_before_work_that_was_itself_late_stands_before_both() -> None:
    ledger = Ledger()
    width = ledger.read("seat_width", "c1.ex.left")
    between = ledger.read("tip_height", "c1.ex.left")
    lapped = ledger.add(OperationDone(operation="lap_valve", where="c1.ex.left", before=between, because="late"))
    ledger.add(OperationDone(operation="cut_seat", where="c1.ex.left", before=lapped, because="later still"))
    state = ledger.state()
    assert fresh(state, between)
    assert not fresh(state, width)
    assert [d.operation for d in state.done] == ["cut_seat", "lap_valve"]


def test_row_31_a_place_in_time_that_is_not_there_is_a_problem() -> None:
    ledger = Ledger()
    tip = ledger.read("tip_height", "c1.ex.left")
    ledger.add(OperationDone(operation="lap_valve", where="c1.ex.left", before="nowhere"))
    state = ledger.state()
    assert not fresh(state, tip)
    assert [p.where for p in state.problems] == ["entry 2"]


def test_row_32_retracted_work_gives_readings_back_and_flags_those_taken_under_it() -> None:
    ledger = Ledger()
    tip = ledger.read("tip_height", "c1.ex.left")
    cut = ledger.do("cut_seat", "c1.ex.left")
    width, bore = ledger.read("seat_width", "c1.ex.left"), ledger.read("bore_diameter", "c1")
    unaware = ledger.read("seat_width", "c1.ex.left", bench="b2", seen=1)
    assert not fresh(ledger.state(), tip)
    retraction = ledger.retract(cut)
    offline = ledger.read("seat_width", "c1.ex.left", bench="b3", seen=int(cut[1:]))
    state = ledger.state()
    assert all(fresh(state, one) for one in (tip, width, bore, unaware, offline))
    flagged = {t.entry.typed.id: t.other_belief for t in state.readings if t.other_belief}
    assert flagged == dict.fromkeys((width, offline), (int(retraction[1:]),))
    ledger.retract(retraction)
    state = ledger.state()
    assert not fresh(state, tip)
    assert not any(t.other_belief for t in state.readings)


def test_a_head_put_back_has_its_own_seats_and_guides_again() -> None:
    ledger = Ledger()
    ledger.read_everything()
    before = standing(ledger.state())
    ledger.do("lap_valve", "c1.ex.left")
    guide, tip = ledger.read("guide_bore", "c1.ex.left"), ledger.read("tip_height", "c1.ex.left")
    ledger.renew("head/head")
    state = ledger.state()
    assert (fresh(state, guide), fresh(state, tip)) == (True, False)
    assert "GUIDE c1.ex.left" not in standing(state)
    assert [p.broken for p in state.pairs] == [True]
    ledger.add(PartFitted(part="orig:head/head", slot="head/head"))
    state = ledger.state()
    assert (fresh(state, guide), fresh(state, tip)) == (True, True)
    assert [p.broken for p in state.pairs] == [False]
    assert {"GUIDE c1.ex.left", "RUN c1.in.left", "FLAT-H head"} <= standing(state)
    assert {one.split(" ")[0] for one in before - standing(state)} == {
        "LEAK",
        "COMP",
        "LASH",
        "REC",
        "SEAL",
        "WID",
        "CON",
        "RUN",
        "oil_at_cams",
        "TRQ",
    }


def test_the_heads_of_a_vee_exchanged_take_their_seats_along() -> None:
    ledger = Ledger(VEE)
    guide = ledger.read("guide_bore", "c1.ex")
    ledger.add(PartsSwapped(slot="head.front/head", other="head.rear/head"))
    state = ledger.state()
    assert state.slot_of("orig:c1.ex/guide") == "c2.ex/guide"
    assert fresh(state, guide)
    assert standing(state) == {"GUIDE c2.ex"}


def test_a_new_part_is_clean_when_it_comes() -> None:
    ledger = Ledger()
    part = ledger.receive("c1.ex.left/valve")
    stem = ledger.read("stem_diameter", f"part:{part}")
    ledger.add(PartFitted(part=part, slot="c1.ex.left/valve"))
    ledger.do("clean", "c1.ex.left/valve")
    assert fresh(ledger.state(), stem)


def test_a_refaced_valve_sinks() -> None:
    ledger = Ledger()
    ledger.read_everything()
    before = standing(ledger.state())
    ledger.do("reface_valve", "c1.ex.left")
    gone = {one for one in before - standing(ledger.state()) if one.endswith("c1.ex.left")}
    assert {one.split(" ")[0] for one in gone} == {"MARG", "HGT", "VP", "TIP", "WID", "CON", "REC", "SEAL", "LASH"}


def test_a_spacer_ends_the_height_for_planning_too() -> None:
    ledger = Ledger()
    height, lash = ledger.read("installed_height", "c1.ex.left"), ledger.read("lash", "c1.ex.left")
    ledger.do("fit_spacer", "c1.ex.left", thickness="0.25 mm")
    state = ledger.state()
    assert (taken(state, height).fresh, taken(state, height).predicts) == (False, False)
    assert (taken(state, lash).fresh, taken(state, lash).predicts) == (False, True)


def test_one_piece_over_both_cams_opens_every_lash() -> None:
    one_piece = Ledger(replace(FINGER, holders="per engine"))
    one_piece.read_everything()
    before = standing(one_piece.state())
    one_piece.do("open_cam_holder", "cam.in")
    state = one_piece.state()
    gone = before - standing(state)
    assert gone == {*(f"LASH {v}" for v in one_piece.anatomy.valves), "TRQ cam.in holder", "TRQ cam.ex holder"}
    assert set(state.open_joints) == {"cam.in holder", "cam.ex holder"}
    one_piece.do("tighten_cam_holder", "cam.ex")
    assert one_piece.state().open_joints == {}


def test_a_bore_honed_to_a_piston_is_its_pair() -> None:
    ledger = Ledger(PUSHROD)
    piston = ledger.receive("c1/piston")
    ledger.do("hone", "c1", to=piston)
    assert [(p.parts, p.broken) for p in ledger.state().pairs] == [(("orig:c1/barrel", piston), True)]
    ledger.add(PartFitted(part=piston, slot="c1/piston"))
    assert [p.broken for p in ledger.state().pairs] == [False]
    ledger.renew("c1/piston")
    assert [p.broken for p in ledger.state().pairs] == [True]


def test_a_guide_reamed_to_size_is_nobodys_pair() -> None:
    ledger = Ledger()
    ledger.do("ream_guide", "c1.ex.left")
    assert ledger.state().pairs == ()
    ledger.do("ream_guide", "c1.ex.left", to="orig:c1.ex.left/valve")
    assert [p.broken for p in ledger.state().pairs] == [False]
