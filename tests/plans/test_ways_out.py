"""A head that came back outside its bounds: every way that is left, with numbers and prices, and half a sheet is asked for."""

from __future__ import annotations

import pytest
from invented import EL, IL, IR, SHELF, book

from gudgeon.job.entries import Disposition, Ordered, PartsSwapped
from plan_bench import PlanBench

MORE = """
[[limit]]
of = "installed_height"
new = ["34.30 mm", "34.70 mm"]
most = "34.90 mm"
[[limit]]
of = "tip_projection"
least = "2.00 mm"
[[limit]]
of = "seat_width"
new = ["0.90 mm", "1.10 mm"]
most = "1.40 mm"
[[spring]]
wire = "3.0 mm"
mean_diameter = "19.4 mm"
active = "5.5"
shear_modulus = "81.5 GPa"
at_length = "34.5 mm"
load = "174.7 N"
spacer = "0.25 mm"
[[part]]
number = "SP-25"
name = "spring spacer 0.25"
consumable = true
thickness = "0.25 mm"
price = "1.40"
[[part]]
number = "I-1"
name = "insert"
slots = ["c1.*.*/seat"]
price = "22.00"
delivery = "8 days"
[[part]]
number = "A-1"
name = "valve"
slots = ["c1.*.*/valve"]
price = "48.00"
"""


def back(tip: str, *, projection: str = "", height: str = "34.50") -> PlanBench:
    """Ordered 40.10 to 40.30, never over 40.53; H = 1.6·0.125 + 40 + 2 = 42.2; it came back with this tip."""
    text = book(follower="finger", lever='lash_read = "cam"\nratio = "1.6"') + MORE
    job = PlanBench(text, SHELF, "head out")
    job.each("lash", "0.12/0.13 0.13/0.14 0.23/0.24 0.22/0.23", "F")
    job.do("open_cam_holder", "cam.in")
    job.each("shim_thickness", "2.000 2.010 - -", "M")
    job.each("tip_height", "40.000 40.000 - -", "D")
    job.record(Disposition(part=f"orig:{IL}/seat", what="machine", reason="wide"))
    job.record(Ordered(order="M-1", kind="machining", words={"intake left": "40.10 to 40.30, never over 40.53"}))
    job.do("cut_seat", IL)
    job.read("installed_height", IL, height, "D")
    if projection:
        job.read("tip_projection", IL, projection, "D")
    job.read("tip_height", IL, tip, "D")
    return job


def ways(job: PlanBench) -> dict[str, dict[str, float | str | bool | None]]:
    found = {}
    for line in job.plan("machining").lines:
        numbers = dict(line.numbers)
        if "way" in numbers:
            found[str(numbers["way"])] = numbers
    return found


def test_cut_too_little_is_cut_on_by_what_is_missing() -> None:
    way = ways(back("40.05"))["cut on"]
    assert (way["least_mm"], way["most_mm"]) == (pytest.approx(0.05), pytest.approx(0.25))


def test_cut_too_far_leaves_five_ways_each_with_its_price() -> None:
    found = ways(back("40.40", projection="2.30"))
    assert list(found) == ["spacer", "other shim", "other valve", "new insert", "tip grinding"]
    assert [found[w]["price"] for w in ("spacer", "other shim", "other valve", "new insert")] == pytest.approx(
        [6.4, 5.0, 48.0, 22.0]
    )
    assert found["other shim"]["possible"] is True
    assert found["other shim"]["shim_mm"] == pytest.approx(1.60)
    assert pytest.approx(float(found["other shim"]["lash_mm"] or 0)) == (42.2 - 40.40 - 1.60) / 1.6


def test_a_shim_alone_is_not_enough_where_the_spring_stands_too_high() -> None:
    found = ways(back("40.40", height="34.80"))
    assert found["other shim"]["possible"] is False
    assert found["spacer"]["height_mm"] == pytest.approx(34.55)


@pytest.mark.parametrize(("projection", "possible"), [("2.30", True), ("2.05", False), ("", None)])
def test_a_tip_is_ground_only_where_its_projection_allows_it(projection: str, possible: bool | None) -> None:
    assert ways(back("40.40", projection=projection))["tip grinding"]["possible"] is possible


def test_a_head_that_came_back_with_half_its_numbers_is_asked_for_the_rest() -> None:
    job = back("40.20")
    job.record(Disposition(part=f"orig:{IR}/seat", what="machine", reason="wide"))
    job.record(Ordered(order="M-2", kind="machining", words={"intake right": "40.05 to 40.20"}))
    job.do("cut_seat", IR)
    plan = job.plan("machining")
    assert (plan.state, plan.needs) == ("waits", (f"tip_height@{IR}",))
    assert any("within 40.10 to 40.30" in str(line.what) for line in plan.lines)


def test_a_valve_that_comes_back_in_another_port_parts_its_pair() -> None:
    job = back("40.20")
    job.do("open_keepers", EL)
    job.do("lap_valve", EL)
    job.record(PartsSwapped(slot=f"{EL}/valve", other=f"{IR}/valve"))
    fates = {line.where: dict(line.numbers)["what"] for line in job.plan("dispositions").lines}
    assert fates[f"{EL}/seat"] == "machine"
    assert f"{IR}/seat" not in fates or fates[f"{IR}/seat"] != "reuse"
