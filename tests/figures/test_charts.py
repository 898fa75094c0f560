"""Charts, the lash set and the timing circle: places must be exact, and print without colour must say the same."""

from __future__ import annotations

import re
from itertools import pairwise
from math import atan2, degrees
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.figures import timing as timing_module
from gudgeon.figures.chart import ChartSpec, Series, axis, chart
from gudgeon.figures.lash_set import LashRow, lash_set
from gudgeon.figures.timing import TimingSpec, timing
from gudgeon.figures.wear import WearSpec, wear
from gudgeon.problem import Refused

SVG = "{http://www.w3.org/2000/svg}"
ROWS = (
    LashRow(name="intake", low=0.10, high=0.15, found=0.03, left=0.13, shim="1.70"),
    LashRow(name="exhaust", low=0.20, high=0.25, left=0.22),
)


def paths(svg: str) -> list[tuple[str, str]]:
    return [(p.get("d", ""), p.get("fill", "")) for p in ElementTree.fromstring(svg).iter(f"{SVG}path")]


@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=8), st.integers(2, 8))
def test_an_axis_holds_its_values_and_its_figures_are_round(values: list[float], marks: int) -> None:
    made = axis(tuple(values), 0, 100, marks)
    assert made.least <= min(values) and max(values) <= made.most
    assert 1 <= len(made.ticks()) <= 3 * marks
    assert float(f"{made.step:e}".split("e")[0]) in (1.0, 2.0, 5.0)
    assert all(-1e-6 <= made.at(v) <= 100 + 1e-6 for v in made.ticks())


def test_points_are_placed_in_proportion() -> None:
    spec = ChartSpec(title="t", across="h", up="mm", series=(Series(name="s", points=((0, 1), (100, 2), (400, 5))),))
    solid = [d for d, fill in paths(chart(spec)) if fill == "currentColor"]
    xs = sorted({float(m[1]) for d in solid if (m := re.match(r"M([\d.]+) ", d))})
    assert (xs[-1] - xs[-3]) / (xs[-2] - xs[-3]) == pytest.approx(4.0, abs=0.01)


def test_the_wall_is_hatched_beyond_the_limit() -> None:
    spec = ChartSpec(title="t", across="h", up="mm", high=6.0, series=(Series(name="s", points=((0, 1), (9, 5))),))
    hatched = [p for p in ElementTree.fromstring(chart(spec)).iter(f"{SVG}path") if p.get("stroke-width") == "1.1"]
    (wall,) = [p for p in ElementTree.fromstring(chart(spec)).iter(f"{SVG}path") if p.get("stroke-width") == "3"]
    at = float(wall.get("d", "").split()[-1])
    assert hatched
    ends = [float(y) for y in re.findall(r"[ML][\d.]+ ([\d.]+)", hatched[0].get("d", ""))]
    assert max(ends) <= at + 0.02
    assert "limit 6.000" in (ElementTree.fromstring(chart(spec)).findtext(f"{SVG}desc") or "")


@pytest.mark.parametrize("points", [(), ((0.0, 1.0),), ((0.0, 0.0), (0.0, 0.0))])
def test_few_points_are_no_trouble(points: tuple[tuple[float, float], ...]) -> None:
    ElementTree.fromstring(chart(ChartSpec(title="t", across="h", up="mm", series=(Series(name="s", points=points),))))


def test_whiskers_must_match() -> None:
    with pytest.raises(Refused, match="2 points and 1 whiskers"):
        ChartSpec(title="t", across="h", up="mm", series=(Series(name="s", points=((0, 1), (1, 2)), whiskers=(0.1,)),))


def test_lash_stands_in_its_window_and_found_differs_by_shape() -> None:
    drawn = lash_set(ROWS, "Lash")
    root = ElementTree.fromstring(drawn)
    walls = [float(p.get("d", "").split()[0][1:]) for p in root.iter(f"{SVG}path") if p.get("stroke-width") == "3"]
    low, high = walls[0], walls[1]
    diamonds = [p for p in root.iter(f"{SVG}path") if p.get("d", "").endswith("Z") and p.get("class") == "ink"]
    solid = [float(p.get("d", "")[1:].split()[0]) for p in diamonds if p.get("fill") == "currentColor"]
    hollow = [float(p.get("d", "")[1:].split()[0]) for p in diamonds if p.get("fill") == "none"]
    assert low < solid[1] < high
    assert (solid[1] - low) / (high - low) == pytest.approx(0.6, abs=0.01)
    assert hollow[1] < low
    assert root.findtext(f"{SVG}desc") == (
        "intake: found 0.03, left 0.13, window 0.10 – 0.15 mm; exhaust: found –, left 0.22, window 0.20 – 0.25 mm"
    )
    ElementTree.fromstring(lash_set((), "none"))
    with pytest.raises(Refused):
        LashRow(name="x", low=0.2, high=0.1)


def test_timing_runs_clockwise_and_lasts_as_long_as_the_events_say() -> None:
    spec = TimingSpec(
        title="t",
        intake_opens_btdc_deg=15,
        intake_closes_abdc_deg=60,
        exhaust_opens_bbdc_deg=55,
        exhaust_closes_atdc_deg=20,
    )
    root = ElementTree.fromstring(timing(spec))
    arcs = [p.get("d", "") for p in root.iter(f"{SVG}path") if p.get("stroke-width") == "5"]
    turned = []
    for d in arcs:
        points = [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", d)]
        angles = [degrees(atan2(y - timing_module.Y, x - timing_module.X)) for x, y in points]
        steps = [(b - a + 180) % 360 - 180 for a, b in pairwise(angles)]
        assert all(step > 0 for step in steps)
        turned.append(sum(steps))
    assert turned[0] == pytest.approx(15 + 180 + 60, abs=0.1)
    assert turned[1] == pytest.approx(55 + 180 + 20, abs=0.1)
    with pytest.raises(Refused, match="200"):
        TimingSpec(
            title="t",
            intake_opens_btdc_deg=200,
            intake_closes_abdc_deg=1,
            exhaust_opens_bbdc_deg=1,
            exhaust_closes_atdc_deg=1,
        )


def test_wear_tells_this_part_the_others_the_line_and_the_edge_apart_by_form() -> None:
    spec = WearSpec(title="ring gap, top", unit="mm", places=2, now=((100, 0.25), (300, 0.35)), reach=(0.02, 0.02),
                    others=(((0, 0.2), (100, 0.24)),), line=((100, 0.25), (500, 0.45)), edge=((300, 0.37), (500, 0.5)),
                    low=None, high=0.55, due=500.0)  # fmt: skip
    svg = wear(spec)
    for words in ("this part", "other parts", "as it wears", "may be read"):
        assert words in svg
    assert "limit 0.55" in svg and "ring gap, top" in svg and svg.count("500 h") == 2  # drawn, and said in words
    assert len({fill for _, fill in paths(svg)}) > 1
