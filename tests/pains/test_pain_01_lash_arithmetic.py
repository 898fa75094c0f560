"""Pain 1: lash and shim arithmetic, its sign, its rounding, and units that slip."""

from __future__ import annotations

import pytest
from tests.pains.engines import EX, IN, LAYOUTS, SHIMMED, Job

from gudgeon.job.entries import Reading


def tight(layout: str, old: str = "2.000") -> Job:
    """Intake 0.055 over a known shim, everything of the cam in reach."""
    job = Job(layout, "valves")
    job.read("lash", IN, "0.05/0.06")
    job.read("lash", EX, "0.23/0.24")
    job.cams_out()
    for valve in (IN, EX):
        job.read("shim_thickness", valve, old)
    return job


@pytest.mark.parametrize("layout", SHIMMED)
def test_new_is_old_plus_ratio_times_measured_less_aim(layout: str) -> None:
    """New = old + i·(measured − aim): 2.000 + (0.055 − 0.13) under a bucket, 1.5 times that read at a finger's cam."""
    numbers = tight(layout).line("shims", IN).numbers
    ratio = LAYOUTS[layout][3]
    assert numbers["wanted_mm"] == pytest.approx(2.000 + ratio * (0.055 - 0.13))
    assert numbers["thickness_mm"] < 2.000, "a tight valve gets a thinner shim"
    assert numbers["lash_mm"] == pytest.approx(0.055 + (2.000 - numbers["thickness_mm"]) / ratio)
    assert 0.10 <= numbers["lash_mm"] <= 0.16


@pytest.mark.parametrize("layout", SHIMMED)
def test_only_sizes_that_exist_are_planned(layout: str) -> None:
    for line in tight(layout, "1.987").plan("shims").lines:
        if line.numbers["from"] == "buy":
            assert round(float(line.numbers["thickness_mm"]) / 0.05, 6) % 1 == 0


@pytest.mark.parametrize("layout", ["rocker", "pushrod"])
def test_a_screw_is_turned_the_right_way_and_buys_nothing(layout: str) -> None:
    job = Job(layout, "valves")
    job.read("lash", IN, "0.05/0.06")
    job.read("lash", EX, "0.23/0.24")
    plan = job.plan("shims")
    assert [line.where for line in plan.lines] == [IN]
    assert plan.buys == ()
    assert job.at(f"lash@{IN}").verdict == "tight"
    job.do("adjust_screw", IN)
    assert job.at(f"lash@{IN}").verdict == "stale", "read again after locking"


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_an_inch_leaf_is_converted_and_an_inch_typed_as_millimetres_is_not_taken(layout: str) -> None:
    job = Job(layout, "valves")
    job.read("lash", IN, "0.005/0.006", unit="in")
    assert job.at(f"lash@{IN}").value == pytest.approx(0.0055 * 25.4)
    slip = Reading(measurand="lash", where=EX, text="0.009", unit="mm", gauge="feel")
    assert "Did you mean 0.2286 mm?" in job.refuses(slip)
