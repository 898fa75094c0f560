"""What the pages of decisions and of building show: it follows the ledger."""

from __future__ import annotations

import pytest
from tests.workbench.engine import did, job, read, record

from gudgeon.job.entries import (
    Arrived,
    ArrivedWrong,
    Finding,
    Ordered,
    PartFitted,
    PartReceived,
    PartRemoved,
    PartsSwapped,
    TorqueApplied,
)
from gudgeon.operations.catalogue import OPERATIONS
from gudgeon.problem import CAUTION_END
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.deciding import act_of, decisions
from gudgeon.workbench.doing import DoingView, building
from gudgeon.workbench.view import LineView, PlanView


def doing(wb: Workbench, key: str) -> DoingView:
    groups = building(wb, "T-1").groups
    return next(d for g in groups for d in (*g.now, *g.rest) if d.key == key)


def test_worst_stands_first() -> None:
    wb = job("valves")
    for valve, text in (("c1.in.left", "0.12"), ("c1.in.right", "0.05"), ("c1.ex.left", "0.40")):
        record(wb, read("lash", valve, text, "FEEL"))
    d = decisions(wb, "T-1")
    assert [c.place for c in d.bad] == ["c1.in.right", "c1.ex.left"]
    assert [c.place for c in d.good] == ["c1.in.left"]
    assert "c1.ex.right" in [c.place for c in d.missing]


def test_a_part_with_a_finding_is_asked_about() -> None:
    wb = job()
    record(wb, Finding(kind="groove", where="c1.in.left/valve", words="face grooved"))
    d = decisions(wb, "T-1")
    assert "c1.in.left/valve" in [p.slot for p in d.asked_of]
    assert "c1.in.left/valve" not in [p.slot for p in d.others]


def test_a_received_part_lies_in_hand_and_names_its_slots() -> None:
    wb = job()
    record(wb, PartReceived(kind="shim", thickness="1.80 mm"))
    loose = decisions(wb, "T-1").loose
    assert [part.kind for part in loose] == ["shim"]
    assert "1.80 mm" in loose[0].words
    assert [slot for slot, _words in loose[0].slots] == [
        f"c1.{v}/shim" for v in ("in.left", "in.right", "ex.left", "ex.right")
    ]


def test_an_order_waits_for_what_has_not_come() -> None:
    wb = job()
    record(wb, Ordered(order="P-1", kind="parts", lines={"A-1": 2, "B-2": 1}))
    record(wb, Arrived(order="P-1", lines={"A-1": 1, "B-2": 1}))
    assert [(w.number, w.left) for w in decisions(wb, "T-1").orders[0].waits] == [("A-1", 1)]
    record(wb, ArrivedWrong(order="P-1", number="A-1", count=1, what="broken"))
    assert decisions(wb, "T-1").orders[0].waits == ()


def test_only_wider_scopes_are_offered() -> None:
    assert "head out" in [key for key, _words in decisions(job("valves"), "T-1").wider]
    assert decisions(job("whole top end"), "T-1").wider == ()


def shim_plan(*lines: LineView) -> PlanView:
    return PlanView(key="shims", name="shims", state="ready", lines=lines, needs=(), buys=(), machines=(), rests_on=(),
                    reasons=())  # fmt: skip


def moved(valve: str, shim: str, origin: str, **more: bool) -> LineView:
    numbers: dict[str, float | str | bool | None] = {
        "valve": valve,
        "shim": shim,
        "from": origin,
        "moved": True,
        **more,
    }
    return LineView(where=valve, name=valve, what="", numbers=numbers, because=())


def test_a_shim_of_the_plan_is_exchanged_or_fitted_and_never_invented() -> None:
    view = job().view("T-1")
    left, right = "c1.in.left", "c1.in.right"
    there, back = moved(left, f"orig:{right}/shim", right), moved(right, f"orig:{left}/shim", left)
    both = act_of(view, shim_plan(there, back), there)
    assert both is not None and both[1] == PartsSwapped(slot=f"{left}/shim", other=f"{right}/shim")
    alone = act_of(view, shim_plan(there), there)
    assert alone is not None and alone[1] == PartFitted(part=f"orig:{right}/shim", slot=f"{left}/shim")
    bought = moved(left, "buy 1.85", "buy", buy=True)
    assert act_of(view, shim_plan(bought), bought) is None
    shelf = moved(left, "shelf 1.80", "shelf")
    assert act_of(view, shim_plan(shelf), shelf) is None


def test_every_operation_of_this_engine_is_offered_once_with_its_caution() -> None:
    wb = job()
    anatomy = wb.worked("T-1").given.state.anatomy
    offered = [d.key for g in building(wb, "T-1").groups for d in (*g.now, *g.rest)]
    assert sorted(offered) == sorted(key for key, kind in OPERATIONS.items() if kind.where(anatomy))
    for key in offered:
        if OPERATIONS[key].caution:
            assert doing(wb, key).caution.endswith(str(CAUTION_END))


def test_a_joint_can_be_closed_only_while_it_is_open() -> None:
    wb = job()
    assert [p.place for p in doing(wb, "loosen_head").now] == ["head"]
    assert doing(wb, "tighten_head").now == ()
    record(wb, did("loosen_head", "head"))
    assert doing(wb, "loosen_head").now == ()
    assert [p.place for p in doing(wb, "tighten_head").now] == ["head"]


@pytest.mark.parametrize(("first", "key"), [("rag_in", "rag_out"), ("dropped_in", "found")])
def test_what_went_in_can_come_out(first: str, key: str) -> None:
    wb = job()
    assert doing(wb, key).now == ()
    record(wb, did(first, "engine"))
    assert [p.place for p in doing(wb, key).now] == ["engine"]


def test_each_kind_of_fastener_has_its_own_stages_with_a_proved_wrench() -> None:
    wb = job()
    record(wb, did("loosen_head", "head"))
    head = next(j for j in building(wb, "T-1").joints if j.joint == "head head")
    assert head.open
    assert [(s.joint, s.setting, s.stage, s.of) for s in head.stages] == [
        ("head head#head nuts", "20", 1, 2),
        ("head head#head nuts", "40", 2, 2),
        ("head head#head side bolts", "10", 1, 1),
    ]
    assert [s.wrench for s in head.stages] == ["TW-1", "TW-1", ""]  # proved from a fifth of its scale, 12 N·m


def test_a_stage_is_ticked_until_the_joint_is_opened_again() -> None:
    wb = job()

    def ticked() -> list[bool]:
        head = next(j for j in building(wb, "T-1").joints if j.joint == "head head")
        return [bool(s.entry) for s in head.stages]

    record(wb, did("loosen_head", "head"))
    record(wb, TorqueApplied(joint="head head#head nuts", stage=1, of=2, setting="20", unit="N·m", wrench="TW-1"))
    assert ticked() == [True, False, False]
    record(wb, did("loosen_head", "head"))
    assert ticked() == [False, False, False]


def test_a_part_out_is_offered_back() -> None:
    wb = job()
    record(wb, did("open_keepers", "c1.in.left"), PartRemoved(slot="c1.in.left/spring"))
    b = building(wb, "T-1")
    out = next(o for o in b.out if o.part == "orig:c1.in.left/spring")
    assert out.slots[0] == ("c1.in.left/spring", "intake left spring"), "its own place is offered first"
    assert "c1.in.left/spring" not in [slot for slot, _words in b.fitted]
