"""Pain 10: seats cut, and shims, springs, contact and seal as if nothing had been done."""

from __future__ import annotations

import pytest
from tests.pains.engines import EX, IN, LAYOUTS, SHIMMED, VALVES, Job

from gudgeon.job.entries import HoldPassed


def read(layout: str) -> Job:
    """Everything that a seat takes part in, read and good."""
    job = Job(layout)
    job.do("clean", *(f"{v}/{part}" for v in VALVES for part in ("valve", "seat", "guide")))
    for valve in VALVES:
        job.read("seat_width", valve, "1.00")
        job.read("contact", valve, "centre")
        job.read("tip_height", valve, "40.000")
        job.read("installed_height", valve, "28.00")
        job.read("seal_test", valve, "holds")
        job.read("stem_diameter", valve, "5.470")
        job.read("spring_load", valve, "95")
        job.read("valve_to_piston", valve, "1.90")
    job.read("squish", "c1", "0.95")
    job.read("lash", IN, "0.13/0.14")
    job.read("lash", EX, "0.23/0.24")
    job.read("leak_down", "c1", "5")
    return job


MOVED = ("seat_width", "contact", "tip_height", "installed_height", "seal_test", "lash")
STAYS = ("stem_diameter", "spring_load")


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_what_the_cut_moved_is_stale_and_nothing_else(layout: str) -> None:
    job = read(layout)
    job.do("cut_seat", IN)
    assert {k: job.at(f"{k}@{IN}").verdict for k in MOVED} == dict.fromkeys(MOVED, "stale")
    assert job.at("leak_down@c1").verdict == "stale"
    for key in STAYS:
        assert job.at(f"{key}@{IN}").fresh
    for key in (*MOVED, *STAYS, "valve_to_piston"):
        assert job.at(f"{key}@{EX}").fresh, "the other valve was not cut"
    assert job.at("squish@c1").fresh


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_the_holds_wait_for_every_one_of_them(layout: str) -> None:
    job = read(layout)
    job.sign("H8")
    job.do("cut_seat", IN)
    assert job.hold("H8").state == "undone"
    words = job.refuses(HoldPassed(hold="H6"))
    for key in ("seat_width", "contact", "tip_height"):
        assert f"{key}@{IN}" in words
    assert f"lash@{IN}" in job.refuses(HoldPassed(hold="H10"))
    assert "leak_down@c1" in job.refuses(HoldPassed(hold="H12"))


@pytest.mark.parametrize("layout", SHIMMED)
def test_the_shims_are_planned_anew_from_the_new_tip(layout: str) -> None:
    """Sunk 0.10: the shim that gives the aim is 0.10 thinner than before the cut."""
    job = read(layout)
    job.cams_out()
    for valve in VALVES:
        job.read("shim_thickness", valve, "2.000")
    before = float(job.line("shims", IN).numbers["wanted_mm"])
    job.do("cut_seat", IN)
    assert job.plan("shims").state == "waits"
    assert f"tip_height@{IN}" in job.plan("shims").needs
    job.read("tip_height", IN, "40.100")
    assert job.line("shims", IN).numbers["wanted_mm"] == pytest.approx(before - 0.10)


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_spring_that_stands_longer_is_given_its_spacer(layout: str) -> None:
    job = read(layout)
    job.do("cut_seat", IN)
    job.read("installed_height", IN, "28.95")
    assert job.at(f"installed_height@{IN}").verdict == "past limit"
    way = job.line("machining", IN)
    assert way.numbers["way"] == "spacer"
    assert way.numbers["height_mm"] == pytest.approx(28.95 - 0.25)


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_seat_cut_before_its_guide_is_read_again(layout: str) -> None:
    job = read(layout)
    job.do("cut_seat", IN)
    job.read("seat_width", IN, "1.00")
    job.do("fit_guide", IN)
    assert job.at(f"seat_width@{IN}").verdict == "stale"


@pytest.mark.parametrize("layout", tuple(LAYOUTS))
def test_a_skimmed_head_asks_for_squish_and_valve_to_piston(layout: str) -> None:
    job = read(layout)
    job.do("skim_head", "head")
    assert job.at("squish@c1").verdict == "stale"
    assert job.at(f"valve_to_piston@{IN}").verdict == "stale"
    assert "squish@c1" in job.refuses(HoldPassed(hold="H7"))
