"""Pain 16: a leak test off top dead centre, cold or on a bit of dirt: a needless teardown, or a fault not seen."""

from __future__ import annotations

import pytest
from tests.pains.engines import IN, LAYOUTS, Job

from gudgeon.job.entries import Finding


def at_rest(layout: str, percent: str, *heard: str) -> Job:
    job = Job(layout, "leak test")
    job.do("open_cover", "head")
    job.do("plug_out", "c1")
    job.read("leak_down", "c1", percent, point="cold")
    for kind in heard:
        job.write(Finding(kind=kind, where="c1"))
    return job


def causes(job: Job) -> list[str]:
    return [str(x.numbers["cause"]) for x in job.plan("proof").lines if x.numbers.get("of") == "leak path"]


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_air_at_both_ports_is_first_of_all_a_wrong_top_dead_centre(layout: str) -> None:
    job = at_rest(layout, "60", "leak heard at the intake", "leak heard at the exhaust")
    assert causes(job)[0] == "not at top dead centre"


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_tight_valve_is_named_before_the_head_comes_off(layout: str) -> None:
    """What leaks because its lash is gone is set, not ground: lash speaks for the valve, and both are said."""
    job = at_rest(layout, "40", "leak heard at the intake")
    job.read("lash", IN, "no gap")
    assert causes(job)[0] == "intake valve"
    line = next(x for x in job.plan("proof").lines if x.numbers.get("cause") == "intake valve")
    assert any("lash" in why or "tight" in why for why in line.because)


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_better_warm_or_with_oil_is_weighed(layout: str) -> None:
    plain, wet = at_rest(layout, "30"), at_rest(layout, "30")
    wet.read("leak_down", "c1", "14", point="wet")
    weight = {n: x.numbers["weight"] for n, job in (("plain", plain), ("wet", wet))
              for x in job.plan("proof").lines if x.numbers.get("cause") == "rings, piston or bore"}  # fmt: skip
    assert float(str(weight["wet"])) > float(str(weight.get("plain", 0.0)))


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_good_engine_is_not_taken_apart(layout: str) -> None:
    job = at_rest(layout, "5")
    assert job.at("leak_down@c1").verdict != "past limit"
    assert causes(job) == []


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_test_before_the_work_does_not_pass_the_engine_after_it(layout: str) -> None:
    job = Job(layout)
    job.read("leak_down", "c1", "5")
    job.do("lap_valve", IN)
    assert job.at("leak_down@c1").verdict == "stale"
    assert "leak_down@c1" in job.hold("H12").needs


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_wet_test_alone_passes_nothing(layout: str) -> None:
    job = Job(layout, "leak test")
    job.read("leak_down", "c1", "5", point="wet")
    assert "leak_down@c1" in job.hold("H12").needs
