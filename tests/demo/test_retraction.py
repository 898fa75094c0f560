"""The seat cut and the shims fitted after it never happened: what comes back, what stays, what is no longer believed.

The expectations are those of the trade's freshness table, worked out by hand from what each reading looks at.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from telling import EL, ER, IL, IR, VALVES, Retyped, tell, whole

from gudgeon.demo.story import HAND, NUMBER
from gudgeon.job.state import Taken
from gudgeon.workbench.build import Worked
from gudgeon.workbench.view import JobView

RETRACTED = ("cut", "fitted IL", "fitted IR", "really fitted ER", "really fitted EL", "put right")
OF_THE_SEAT = ("seat_width", "contact", "tip_height", "seal_test")


@dataclass(kw_only=True)
class Both:
    """The finished job, and the same with those entries retracted."""

    before: Worked
    after: Worked
    last_before_the_shop: int
    cut: int

    def readings(self, measurand: str, where: str, *, after: int = 0, until: int = 10_000) -> list[Taken]:
        """What was read, with its state after the retraction."""
        return [t for t in self.after.given.state.readings if t.fact.measurand == measurand
                and t.fact.where == where and after < t.entry.seq <= until]  # fmt: skip


@pytest.fixture(scope="module")
def both() -> Both:
    told = tell(Retyped())
    bench, named = told.bench, told.teller.named
    seqs = {e.typed.id: e.seq for e in bench.loaded(NUMBER).entries}
    before = bench.worked(NUMBER)
    for name in RETRACTED:
        bench.retract(NUMBER, seqs[named[name]], "typed in error", HAND)
    sent = told.after["sent to the shop"].given.state.entries[-1].seq
    return Both(before=before, after=bench.worked(NUMBER), last_before_the_shop=sent, cut=seqs[named["cut"]])


def text(taken: Taken) -> str:
    return taken.fact.text  # type: ignore[union-attr]


def test_fresh_again_is_the_tip_read_between_guide_and_cut(both: Both) -> None:
    (between,) = both.readings("tip_height", IL, after=both.last_before_the_shop, until=both.cut)
    assert (text(between), between.fresh) == ("37.62", True)
    was = next(t for t in both.before.given.state.readings if t.entry.seq == between.entry.seq)
    assert {str(r.words) for r in was.reasons} == {"seat cut"}


@pytest.mark.parametrize("measurand", OF_THE_SEAT)
def test_what_was_read_before_the_shop_is_stale_by_guide_and_valve(both: Both, measurand: str) -> None:
    for taken in both.readings(measurand, IL, until=both.last_before_the_shop):
        reasons = {str(r.words) for r in taken.reasons}
        assert "guide fitted" in reasons
        assert "seat cut" not in reasons
    assert "valve exchanged" in {str(r.words) for r in both.readings(measurand, IL)[0].reasons}


def test_the_first_exhaust_lash_is_stale_by_the_later_opening(both: Both) -> None:
    for valve in (EL, ER):
        first, second = both.readings("lash", valve)[-2:]
        assert {str(r.words) for r in first.reasons} >= {"cam holder opened"}
        assert not first.fresh
        assert second.fresh


def test_everything_read_after_the_cut_is_still_fresh(both: Both) -> None:
    before = {t.entry.seq: t.fresh for t in both.before.given.state.readings}
    lost = [t.entry.seq for t in both.after.given.state.readings if before[t.entry.seq] and not t.fresh]
    assert lost == []
    last = {
        (m, text(t)) for m in ("tip_height", "seat_width", "contact", "lash") if (t := both.readings(m, IL)[-1]).fresh
    }
    assert last == {("tip_height", "37.91"), ("seat_width", "1.04"), ("contact", "centre"), ("lash", "0.12/0.13")}
    (leak,) = [t for t in both.readings("leak_down", "c1") if t.fresh]
    assert text(leak) == "6"


def test_contradictions_are_said_and_the_holds_that_rest_on_them_no_longer_pass(both: Both) -> None:
    view = both.after.view
    said = [f"{p.where}: {p.what}" for p in view.problems]
    assert any("tip height" in p and "contradict" in p for p in said)
    assert any(p.startswith("intake left: ") and "lash 0.125 read, 0.095 expected" in p for p in said)
    tip = view.at(f"tip_height@{IL}")
    assert tip is not None and len(tip.contradicts) == 2
    holds = {h.hold: h for h in view.holds}
    assert (holds["H6"].state, holds["H10"].state) == ("undone", "undone")
    assert f"tip_height@{IL}" in holds["H6"].needs
    assert f"lash@{IL}" in holds["H10"].needs
    assert {h.hold for h in view.holds if h.state not in ("passed", "not needed")} == {"H6", "H10"}


def test_the_incoming_check_is_missing_for_nothing_was_cut(both: Both) -> None:
    def came_back(view: JobView) -> bool:
        plan = view.plan("machining")
        assert plan is not None
        return any("came back" in line.what and line.where == IL for line in plan.lines)

    assert came_back(both.before.view)
    assert not came_back(both.after.view)
    assert both.after.given.state.did("cut_seat", IL) == ()


def test_the_shims_fall_back_to_those_that_were_there(both: Both) -> None:
    state = both.after.given.state
    assert {v: state.slots[f"{v}/shim"] for v in VALVES} == {v: f"orig:{v}/shim" for v in VALVES}
    sizes = [next(text(t) for t in both.readings("shim_thickness", v) if t.fresh) for v in VALVES]
    assert sizes == ["1.845", "1.797", "1.698", "1.752"]
    plan = both.after.view.plan("shims")
    assert plan is not None
    assert {line.where: line.numbers["thickness_mm"] for line in plan.lines} == {
        IL: 1.845, IR: 1.797, EL: 1.698, ER: 1.752,
    }  # fmt: skip


def test_the_fit_and_the_exhaust_side_are_untouched(both: Both) -> None:
    before, after = both.before.view, both.after.view
    fit = after.at(f"stem_guide_clearance@{IL}")
    assert fit is not None and (fit.said, fit.verdict, fit.fresh) == ("0.023", "as new", True)
    for one in before.characteristics:
        if one.place in (EL, ER):
            now = after.at(one.address)
            assert now is not None
            assert (one.said, one.verdict, one.fresh, one.reasons) == (now.said, now.verdict, now.fresh, now.reasons)
    of_exhaust = {t.entry.seq for t in both.after.given.state.readings if t.fact.where in (EL, ER)}
    flagged = [t for t in both.after.given.state.readings if t.entry.seq in of_exhaust and t.other_belief]
    assert {t.fact.measurand for t in flagged} <= {"lash"}


def test_what_looked_at_the_cut_is_flagged_as_read_under_another_belief(both: Both) -> None:
    counts = {e.seq: e.counts for e in both.after.view.entries}
    after_cut = [t for m in ("tip_height", "seat_width", "contact", "seal_test", "lash")
                 for t in both.readings(m, IL, after=both.cut) if t.fresh]  # fmt: skip
    assert {counts[t.entry.seq] for t in after_cut} == {"read under another belief"}


def test_shown_beforehand_nothing_is_written() -> None:
    told = whole()
    head = told.bench.ledgers.head(NUMBER)
    seq = next(e.seq for e in told.bench.loaded(NUMBER).entries if e.typed.id == told.teller.named["cut"])
    words = told.bench.if_retracted(NUMBER, seq)
    assert any(w.startswith("hold H6") and w.endswith("passed → undone") for w in words)
    assert any("tip height" in w and "stale → fresh" in w for w in words)
    assert told.bench.ledgers.head(NUMBER) == head
