"""A measurand and an operation that share one feature go stale together, with no other line of code."""

from __future__ import annotations

import pytest
from story import BUCKETS, Ledger, fresh, why

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.measurands.shape import Measurand
from gudgeon.operations.catalogue import OPERATIONS
from gudgeon.operations.shape import Detail, Operation


def _gloss(_anatomy: Anatomy, where: str) -> tuple[Feature, ...]:
    return (Surface(slot=f"{where}/cam", name="gloss"), Joint(place=where, name="daylight"))


def _dull(_anatomy: Anatomy, where: str, _detail: Detail) -> tuple[Feature, ...]:
    return (Surface(slot=f"{where}/cam", name="gloss"),)


def _shade(_anatomy: Anatomy, where: str, _detail: Detail) -> tuple[Feature, ...]:
    return (Joint(place=where, name="daylight"),)


@pytest.fixture(autouse=True)
def toys(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two catalogues with one more kind each."""
    gloss = Measurand(
        key="gloss",
        name="gloss",
        dimension="percent",
        unit="%",
        gauges=("eye",),
        where=lambda a: a.cams,
        observes=_gloss,
        example="80 %",
    )
    monkeypatch.setitem(MEASURANDS, "gloss", gloss)  # type: ignore[arg-type]
    for key, disturbs in (("dull", _dull), ("shade", _shade)):
        kind = Operation(key=key, name=key, did=f"cam made {key}", where=lambda a: a.cams, disturbs=disturbs)
        monkeypatch.setitem(OPERATIONS, key, kind)  # type: ignore[arg-type]


def test_a_shared_feature_is_all_it_takes() -> None:
    ledger = Ledger(BUCKETS)
    intake, exhaust = ledger.read("gloss", "cam.in"), ledger.read("gloss", "cam.ex")
    lobe = ledger.read("lobe_height", "cam.in")
    ledger.do("dull", "cam.in")
    state = ledger.state()
    assert not state.problems
    assert (fresh(state, intake), fresh(state, exhaust), fresh(state, lobe)) == (False, True, True)
    assert why(state, intake) == {"cam made dull"}


def test_a_joint_made_up_here_leaves_a_prediction() -> None:
    ledger = Ledger(BUCKETS)
    ledger.read("gloss", "cam.in")
    ledger.do("shade", "cam.in")
    (taken,) = ledger.state().readings
    assert (taken.fresh, taken.predicts) == (False, True)


def test_a_part_that_goes_takes_the_surface_along() -> None:
    ledger = Ledger(BUCKETS)
    before = ledger.read("gloss", "cam.in")
    ledger.renew("cam.in/cam")
    after = ledger.read("gloss", "cam.in")
    state = ledger.state()
    assert (fresh(state, before), fresh(state, after)) == (False, True)
