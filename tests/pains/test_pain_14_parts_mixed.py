"""Pain 14: valves, keepers and buckets laid in one tray: what was lapped or measured as a pair is one no longer."""

from __future__ import annotations

import pytest
from tests.pains.engines import EX, IN, LAYOUTS, SHIMMED, VALVES, Job

from gudgeon.job.entries import HoldPassed, PartFitted, PartsSwapped


def read(layout: str) -> Job:
    """Both valves lapped, and all read that a mix-up would spoil."""
    job = Job(layout)
    job.do("lap_valve", *VALVES)
    for valve, lash in ((IN, "0.13/0.14"), (EX, "0.23/0.24")):
        job.read("seal_test", valve, "holds")
        job.read("contact", valve, "centre")
        job.read("guide_bore", valve, "5.505")
        job.read("lash", valve, lash)
    job.read("stem_diameter", IN, "5.470")
    job.read("stem_diameter", EX, "5.430")
    return job


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_valves_exchanged_are_no_longer_seated_and_their_holds_wait(layout: str) -> None:
    job = read(layout)
    assert job.at(f"seal_test@{IN}").verdict == "holds"
    job.write(PartsSwapped(slot=f"{IN}/valve", other=f"{EX}/valve"))
    for key in ("seal_test", "contact", "lash"):
        for valve in VALVES:
            assert job.at(f"{key}@{valve}").verdict == "stale"
            assert any("exchanged" in r.words for r in job.at(f"{key}@{valve}").reasons)
    assert f"seal_test@{IN}" in job.refuses(HoldPassed(hold="H8"))


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_pair_that_was_lapped_and_parted_is_worked_again(layout: str) -> None:
    job = read(layout)
    job.write(PartsSwapped(slot=f"{IN}/valve", other=f"{EX}/valve"))
    parted = {line.where for line in job.plan("dispositions").lines if line.what in ("machine", "measure again")}
    assert parted & {f"{v}/{part}" for v in VALVES for part in ("valve", "seat")}


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_measured_stem_goes_where_its_valve_goes(layout: str) -> None:
    job = read(layout)
    assert job.at(f"stem_diameter@{EX}").verdict == "past limit"
    job.write(PartsSwapped(slot=f"{IN}/valve", other=f"{EX}/valve"))
    assert job.at(f"stem_diameter@{IN}").value == pytest.approx(5.430)
    assert job.at(f"stem_diameter@{IN}").verdict == "past limit"
    assert job.at(f"stem_guide_clearance@{IN}").value == pytest.approx(0.075)


@pytest.mark.parametrize("part", ["keepers", "follower"])
@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_keepers_and_followers_exchanged_make_the_lash_stale(layout: str, part: str) -> None:
    job = read(layout)
    job.write(PartsSwapped(slot=f"{IN}/{part}", other=f"{EX}/{part}"))
    for valve in VALVES:
        assert job.at(f"lash@{valve}").verdict == "stale"


@pytest.mark.parametrize("layout", SHIMMED)
def test_a_shim_takes_its_thickness_along(layout: str) -> None:
    job = Job(layout)
    job.read("lash", IN, "0.08/0.09")
    job.read("lash", EX, "0.18/0.19")
    job.cams_out()
    job.read("shim_thickness", IN, "1.900")
    job.read("shim_thickness", EX, "2.100")
    job.write(PartsSwapped(slot=f"{IN}/shim", other=f"{EX}/shim"))
    lash = {v: job.line("shims", v).numbers["present_lash_mm"] for v in VALVES}
    assert lash == {IN: pytest.approx(0.085 + -0.2 / job.factor), EX: pytest.approx(0.185 + 0.2 / job.factor)}


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_part_of_another_kind_does_not_go_there(layout: str) -> None:
    job = Job(layout)
    assert "does not go there" in job.refuses(PartFitted(part=f"orig:{IN}/valve", slot=f"{IN}/spring"))
    assert "two kinds" in job.refuses(PartsSwapped(slot=f"{IN}/keepers", other=f"{EX}/retainer"))
