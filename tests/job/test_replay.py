"""Replay never raises: an entry it cannot use is a problem at its number, and the rest of the job still shows."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from nonsense import KINDS, ledgers
from story import BUCKETS, FINGER, PUSHROD, VEE, Ledger, fresh

from gudgeon.anatomy import Layout
from gudgeon.job.entries import (
    Body,
    GoNoGo,
    JobOpened,
    OperationDone,
    PartFitted,
    PartRemoved,
    PartsSwapped,
    Reading,
    Retraction,
    Typed,
)


def written(typed: tuple[Typed, ...], layout: Layout) -> Ledger:
    ledger = Ledger(layout)
    for one in typed:
        ledger.add(one.body, bench=one.bench, seen=one.seen)
    return ledger


@pytest.mark.parametrize("layout", [FINGER, BUCKETS, PUSHROD, VEE], ids=["finger", "buckets", "push-rod", "vee"])
@settings(max_examples=30, deadline=None, suppress_health_check=list(HealthCheck))
@given(typed=ledgers())
def test_replay_never_raises(layout: Layout, typed: tuple[Typed, ...]) -> None:
    ledger = written(typed, layout)
    state = ledger.state()
    for aging in (*state.readings, *state.evidence):
        assert bool(aging.reasons) is not aging.fresh
        assert aging.predicts in (True, False)
    assert {p.where for p in state.problems} <= {f"entry {n}" for n in range(1, len(typed) + 1)}
    assert all(str(p) for p in state.problems)
    assert state.used_twice is not None and state.oil_due in (True, False)
    live = [e for e in ledger.entries if e.typed.id not in state.retracted]
    told = {t.entry.seq for t in state.readings} | {int(p.where[6:]) for p in state.problems}
    assert {e.seq for e in live if isinstance(e.typed.body, Reading | GoNoGo)} <= told


BAD: tuple[Body, ...] = (
    Reading(measurand="gloss", where="c1", text="1", unit="mm", gauge="G1"),
    Reading(measurand="lash", where="c9.in", text="1", unit="mm", gauge="G1"),
    Reading(measurand="stem_diameter", where="part:e999", text="1", unit="mm", gauge="G1"),
    Reading(measurand="wobble", where="part:orig:c1.ex.left/valve", text="1", unit="mm", gauge="G1"),
    OperationDone(operation="polish", where="head"),
    OperationDone(operation="cut_seat", where="head"),
    OperationDone(operation="turn_forwards", where="engine", detail={"turns": "nan"}),
    OperationDone(operation="turn_forwards", where="engine", detail={"turns": "-2"}),
    OperationDone(operation="rag_in", where="engine", detail={"count": "many"}),
    PartFitted(part="e999", slot="c1.ex.left/valve"),
    PartFitted(part="orig:c1.ex.left/shim", slot="c1.ex.left/valve"),
    PartFitted(part="orig:c1.ex.left/shim", slot="c1.ex.left/pocket"),
    PartRemoved(slot="c9/piston"),
    PartsSwapped(slot="c1.ex.left/shim", other="c9/shim"),
    PartsSwapped(slot="c1.ex.left/shim", other="c1.ex.left/valve"),
    Retraction(entry="e999", reason="slip"),
    Retraction(entry="e1", reason="a job that was opened stays opened"),
)


@pytest.mark.parametrize("body", BAD, ids=lambda body: f"{type(body).__name__} {body}"[:60])
def test_a_bad_entry_is_a_problem_at_its_number_and_changes_nothing_else(body: Body) -> None:
    ledger = Ledger()
    ledger.add(JobOpened(number="7", engine_number="K-1"))
    ledger.read_everything()
    before = ledger.state()
    bad = ledger.add(body)
    after = ledger.state()
    last = ledger.read("lash", "c1.ex.left")
    whole = ledger.state()
    assert [p.where for p in whole.problems] == [f"entry {bad[1:]}"]
    assert [t.fresh for t in after.readings] == [t.fresh for t in before.readings]
    assert [e.fresh for e in after.evidence] == [e.fresh for e in before.evidence]
    assert (after.slots, after.open_joints, after.done) == (before.slots, before.open_joints, before.done)
    assert fresh(whole, last)
    assert whole.opened == JobOpened(number="7", engine_number="K-1")


def test_a_fitting_orphaned_by_a_retraction_is_a_problem_and_no_more() -> None:
    ledger = Ledger()
    part = ledger.renew("c1.ex.left/valve")
    tip = ledger.read("tip_height", "c1.ex.left")
    ledger.retract(part)
    state = ledger.state()
    assert [p.where for p in state.problems] == ["entry 2"]
    assert state.slots["c1.ex.left/valve"] == "orig:c1.ex.left/valve"
    assert fresh(state, tip)


def test_a_retraction_of_what_comes_later_retracts_nothing() -> None:
    ledger = Ledger()
    ledger.retract("e3")
    ledger.retract("e2")
    later = ledger.read("tip_height", "c1.ex.left")
    state = ledger.state()
    assert fresh(state, later)
    assert [p.where for p in state.problems] == ["entry 1", "entry 2"]


def test_empty_slots_share_nothing() -> None:
    ledger = Ledger()
    ledger.add(PartFitted(part="orig:c1.ex.left/shim", slot="c1.ex.right/shim"))
    ledger.add(PartFitted(part="orig:c1.in.left/valve", slot="c1.in.right/valve"))
    lash = ledger.read("lash", "c1.ex.left")
    other = ledger.read("stem_diameter", "c1.in.left")
    ledger.do("clean", "c1.in.left/valve")
    state = ledger.state()
    assert (fresh(state, lash), fresh(state, other)) == (True, False)
    assert state.slots["c1.ex.left/shim"] is None


def test_a_guide_taken_from_a_head_on_the_bench_does_not_come_back_with_it() -> None:
    ledger = Ledger(VEE)
    new = ledger.renew("head.front/head")
    ledger.add(PartFitted(part="orig:c1.in/guide", slot="c1.in/guide"))
    again = ledger.renew("head.front/head")
    ledger.add(PartFitted(part="orig:head.front/head", slot="head.front/head"))
    state = ledger.state()
    assert again
    assert (state.slots["c1.in/guide"], state.slots["c1.ex/guide"]) == (None, "orig:c1.ex/guide")
    ledger.add(PartFitted(part=new, slot="head.front/head"))
    assert ledger.state().slots["c1.in/guide"] == "orig:c1.in/guide"


def test_the_same_ledger_gives_the_same_state() -> None:
    ledger = Ledger()
    ledger.read_everything()
    ledger.do("cut_seat", "c1.ex.left")
    assert ledger.state() == ledger.state()


def test_every_kind_of_fact_has_a_place() -> None:
    assert len(KINDS) == 27
