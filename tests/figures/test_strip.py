"""The strip is read like a rule: a value's place on it must be exact, and it must say the same without being seen."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.figures.strip import StripSpec, limit_strip, scale, sentence
from gudgeon.problem import Refused

BORE = {"new_low": 88.0, "new_high": 88.015, "high": 88.05, "whisker": 0.006}
SVG = "{http://www.w3.org/2000/svg}"


def bore(value: float | None, **more: object) -> StripSpec:
    return StripSpec(value=value, **{**BORE, **more})  # type: ignore[arg-type]


def paths(svg: str, pen: str) -> list[tuple[str, str]]:
    root = ElementTree.fromstring(svg)
    return [(p.get("d", ""), p.get("fill", "")) for p in root.iter(f"{SVG}path") if p.get("class") == pen]


def diamond_x(svg: str) -> float:
    solid = [d for d, fill in paths(svg, "ink") if fill == "currentColor"]
    assert len(solid) == 1
    return float(re.match(r"M([\d.]+) ", solid[0])[1])  # type: ignore[index]


def test_diamond_is_linear_in_the_value() -> None:
    places = [diamond_x(limit_strip(bore(v))) for v in (88.0, 88.01, 88.02, 88.04)]
    step = places[1] - places[0]
    assert step > 40
    assert places[2] - places[1] == pytest.approx(step, abs=0.02)
    assert places[3] - places[2] == pytest.approx(2 * step, abs=0.02)


def test_diamond_at_the_limit_stands_on_the_wall_and_hatching_starts_there() -> None:
    svg = limit_strip(bore(88.05))
    wall = diamond_x(svg)
    ((lines, _),) = paths(svg, "hatch")
    xs = [float(x) for x in re.findall(r"[ML]([\d.]+) ", lines)]
    assert min(xs) == pytest.approx(wall, abs=0.02)
    assert max(xs) <= 480 - 8 + 0.01


def test_two_walls_hatch_both_ends() -> None:
    svg = limit_strip(StripSpec(value=0.22, low=0.20, high=0.25, places=2))
    assert len(paths(svg, "hatch")) == 2


def test_no_value_no_diamond() -> None:
    assert not [d for d, fill in paths(limit_strip(bore(None)), "ink") if fill == "currentColor"]


def test_says_the_distance_in_the_parts_unit() -> None:
    words = sentence(bore(88.026, caption="largest so far", verdict="serviceable"))
    assert words == (
        "largest so far 88.026 ± 0.006 mm; new 88.000 – 88.015; limit 88.050; 0.024 mm to the limit; serviceable"
    )
    assert "0.010 mm past the limit" in sentence(bore(88.06))
    assert "%" not in words


def test_the_nearer_of_two_walls_counts() -> None:
    assert "0.01 mm to the limit" in sentence(StripSpec(value=0.21, low=0.20, high=0.25, places=2))


def test_a_small_whisker_is_never_rounded_to_nothing() -> None:
    assert "± 0.003 mm" in sentence(StripSpec(value=0.16, whisker=0.003, places=2))


def test_a_value_far_off_keeps_the_books_figures_readable() -> None:
    far = scale(bore(880.0))
    assert not far.shows(880.0)
    assert far.x(88.05) - far.x(88.0) > 60


def test_words_can_be_translated() -> None:
    words = {"limit {limit}": "Grenzmaß {limit}", "{gap} {unit} to the limit": "{gap} {unit} bis zum Grenzmaß"}
    assert "0.024 mm bis zum Grenzmaß" in sentence(bore(88.026), words)
    assert "Grenzmaß 88.050" in limit_strip(bore(88.026), words)


@pytest.mark.parametrize(
    "spec",
    [{"low": 2.0, "high": 1.0}, {"new_low": 1.0, "new_high": 1.0}, {"places": 12}, {"width": 3.0}, {"whisker": -1.0}],
)
def test_impossible_strips_are_refused(spec: dict[str, float]) -> None:
    with pytest.raises(Refused, match="limit strip"):
        StripSpec(**spec)  # type: ignore[arg-type]


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_no_number_is_refused(value: float) -> None:
    with pytest.raises(Refused):
        limit_strip(StripSpec(value=value, high=1.0))


numbers = st.none() | st.floats(-1e4, 1e4, allow_nan=False)


@given(value=numbers, low=numbers, high=numbers, new_low=numbers, new_high=numbers, words=st.text(max_size=40))
def test_every_strip_is_well_formed_and_on_its_sheet(
    value: float | None,
    low: float | None,
    high: float | None,
    new_low: float | None,
    new_high: float | None,
    words: str,
) -> None:
    try:
        spec = StripSpec(value=value, low=low, high=high, new_low=new_low, new_high=new_high, caption=words)
    except Refused:
        return
    svg = limit_strip(spec)
    ElementTree.fromstring(svg)
    assert "style=" not in svg
    for x in re.findall(r"[ML](-?[\d.]+) ", svg):
        assert -40 <= float(x) <= spec.width + 40
