"""How much a face may lose: squish, both valves with the timing that follows, compression; signs and arithmetic."""

from __future__ import annotations

from math import pi

import pytest
from invented import EL, ER, IL, IR, SHELF, VALVES, book

from gudgeon.job.entries import Disposition
from gudgeon.mechanics.cam_timing import shift_by_milling_exact_deg
from gudgeon.plans.faces import RATIO_MORE, late_deg, lost_mm, most_off
from gudgeon.plans.shape import Cut
from plan_bench import PlanBench

GEOMETRY = """
[geometry]
bore = "88.0 mm"
stroke = "61.0 mm"
rod = "108 mm"
compression_ratio = "11.3"
{recess}
{chain}
[[cam]]
side = "in"
opens = "15 °"
closes = "60 °"
{lift}
[[cam]]
side = "ex"
opens = "55 °"
closes = "20 °"
{lift}
[[limit]]
of = "squish"
new = ["0.90 mm", "1.15 mm"]
least = "0.75 mm"
[[limit]]
of = "valve_to_piston"
side = "in"
least = "1.20 mm"
[[limit]]
of = "valve_to_piston"
side = "ex"
least = "1.50 mm"
"""
CHAIN = 'chain_pitch = "6.35 mm"\ncam_teeth = 34'
LIFT = 'lift = "8.5 mm"'


def worn(*, chain: str = "", lift: str = "", recess: str = "", drive: str = "chain", slot: str = "head/head",
         squish: str = "1.20", gaps: str = "2.90 2.90 3.00 3.00") -> PlanBench:  # fmt: skip
    text = book().replace('cam_drive = "chain"', f'cam_drive = "{drive}"') + GEOMETRY.format(
        chain=chain, lift=lift, recess=recess
    )
    shelf = SHELF + SHELF[: SHELF.index("[[gauge]]", 5)].replace('"F"', '"C"').replace("feeler", "clay and caliper")
    job = PlanBench(text, shelf, "whole top end")
    for spot in ("front", "rear", "left", "right"):
        job.read("squish", "c1", squish, "C", spot)
    for valve, gap in zip(VALVES, gaps.split(), strict=True):
        job.read("valve_to_piston", valve, gap, "C")
    job.record(Disposition(part=f"orig:{slot}", what="machine", reason="not flat"))
    return job


def cut(job: PlanBench) -> Cut:
    return job.plan("machining").machines[0]


def most(job: PlanBench) -> float:
    found = cut(job).high_mm
    assert found is not None
    return found


def test_compression_ends_it_where_everything_else_has_room() -> None:
    """Vs = π/4·88²·61 = 371.0 cm³; room 371.0/10.3 − 371.0/10.6 = 1.0195 cm³ over π/4·88² = 60.82 cm²: 0.167 mm."""
    swept = pi / 4 * 88.0**2 * 61.0 / 1000
    area = pi / 4 * 88.0**2 / 100
    by_hand = 10 * (swept / 10.3 - swept / (10.3 + RATIO_MORE)) / area
    assert by_hand == pytest.approx(0.1676, abs=1e-3)
    assert most(worn()) == pytest.approx(0.16)
    assert "compression ratio" in str(cut(worn()).bound_because[0])


def test_a_chain_driven_exhaust_counts_twice_and_a_gear_driven_one_once() -> None:
    tight = {"gaps": "2.90 2.90 1.70 3.00"}
    assert most(worn(**tight)) == pytest.approx(0.09)
    assert most(worn(**tight, drive="gear")) == pytest.approx(0.16)
    assert "exhaust valve to piston 1.70" in str(cut(worn(**tight)).bound_because[0])
    assert "counted twice" in str(cut(worn(**tight)).bound_because[0])


def test_the_intake_counts_once() -> None:
    assert most(worn(gaps="1.30 2.90 3.00 3.00")) == pytest.approx(0.09)


def test_with_lift_and_chain_known_the_later_timing_is_worked_out() -> None:
    """The exhaust loses more than the metal and less than twice it, the intake less: late cams give it back."""
    given = worn(chain=CHAIN, lift=LIFT).given
    metal = 0.10
    assert metal < lost_mm(given, "ex", metal) < 2 * metal
    assert lost_mm(given, "in", metal) < metal
    assert lost_mm(given, "in", metal) + lost_mm(given, "ex", metal) == pytest.approx(2 * metal, abs=0.02)
    assert lost_mm(given, "ex", most_off(given, "ex", 0.15)) == pytest.approx(0.15, abs=1e-4)
    assert lost_mm(given, "ex", 0.0) == pytest.approx(0.0, abs=1e-9)


def test_the_shift_is_never_less_than_the_exact_one() -> None:
    given = worn(chain=CHAIN, lift=LIFT).given
    shift = late_deg(given, 0.3)
    assert shift is not None
    for centres in (150.0, 250.0, 400.0):
        assert shift_by_milling_exact_deg(0.3, 6.35, 34, 17, centres) <= shift + 1e-9
    assert shift == pytest.approx(shift_by_milling_exact_deg(0.3, 6.35, 34, 17, 400.0), rel=0.01)


def test_squish_ends_a_barrel_and_not_a_flush_head() -> None:
    assert most(worn(squish="0.85")) == pytest.approx(0.16)
    assert most(worn(squish="0.85", slot="c1/barrel")) == pytest.approx(0.09)
    assert most(worn(squish="0.80", recess='recess = "0.20 mm"')) == pytest.approx(0.04)


def test_nothing_is_bounded_that_was_not_measured() -> None:
    text = book() + GEOMETRY.format(chain="", lift="", recess="")
    job = PlanBench(text, SHELF, "whole top end")
    job.record(Disposition(part="orig:head/head", what="machine", reason="not flat"))
    plan = job.plan("machining")
    assert (plan.state, plan.machines[0].high_mm) == ("waits", None)
    assert set(plan.needs) == {"squish@c1", *(f"valve_to_piston@{v}" for v in (IL, IR, EL, ER))}


def test_a_face_without_room_may_lose_nothing() -> None:
    assert most(worn(squish="0.75", slot="c1/barrel")) == 0.0
