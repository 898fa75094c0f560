"""Tightening orders: the star patterns of ASME PCC-1 (8 bolts grade B, groups for others read in a summary); rows by
what makes an order good."""

from __future__ import annotations

from itertools import pairwise
from math import atan2, cos, hypot, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics import tightening
from gudgeon.problem import Refused

STARS = {
    4: "1 3 2 4",
    8: "1 5 3 7 2 6 4 8",
    12: "1 7 4 10 2 8 5 11 3 9 6 12",
    16: "1 9 5 13 3 11 7 15 2 10 6 14 4 12 8 16",
    20: "1 11 6 16 3 13 8 18 5 15 10 20 2 12 7 17 4 14 9 19",
    24: "1 13 7 19 4 16 10 22 2 14 8 20 5 17 11 23 3 15 9 21 6 18 12 24",
}
Points = list[tuple[float, float]]


def circle(count: int, radius: float = 50, turned: float = 0.3) -> Points:
    return [
        (radius * cos(turned + 2 * pi * n / count), radius * sin(turned + 2 * pi * n / count)) for n in range(count)
    ]


def rows(columns: int, pitch: float = 45, width: float = 80) -> Points:
    return [(n * pitch, side * width) for n in range(columns) for side in (0, 1)]


@pytest.mark.authority
@pytest.mark.parametrize(("count", "order"), STARS.items())
def test_published_stars(count: int, order: str) -> None:
    assert tightening.star_order(count) == tuple(int(n) for n in order.split())


def test_six_bolts_are_common_practice() -> None:
    assert tightening.star_order(6) == (1, 4, 2, 5, 3, 6)
    assert tightening.star_order(5) == (1, 3, 5, 2, 4)


@given(st.integers(2, 64))
def test_each_bolt_once_and_across(count: int) -> None:
    order = tightening.star_order(count)
    assert sorted(order) == list(range(1, count + 1))
    across = [abs(a - b) for a, b in zip(order[::2], order[1::2], strict=False)]
    assert all(step in (count // 2, count - count // 2) for step in across)


@pytest.mark.parametrize("count", [4, 6, 8, 12])
def test_positions_on_a_circle_give_the_star_both_ways_round(count: int) -> None:
    assert tightening.order_from_positions(circle(count)) == tightening.star_order(count)
    mirrored = [(x, -y) for x, y in circle(count)]
    assert tightening.order_from_positions(mirrored) == tightening.star_order(count)


@given(st.integers(2, 8), st.floats(20, 70), st.floats(40, 120))
def test_rows_go_from_the_centre_outwards_and_across(columns: int, pitch: float, width: float) -> None:
    points = rows(columns, pitch, width)
    order = tightening.order_from_positions(points)
    assert sorted(order) == list(range(1, len(points) + 1))
    middle = ((columns - 1) * pitch / 2, width / 2)
    away = [hypot(points[n - 1][0] - middle[0], points[n - 1][1] - middle[1]) for n in order]
    least = 0.03 * max(away)
    assert all(later >= earlier - least - 1e-9 for earlier, later in pairwise(away))
    angles = [atan2(points[n - 1][1] - middle[1], points[n - 1][0] - middle[0]) for n in order]
    for one, other in zip(angles[::2], angles[1::2], strict=True):
        assert cos(one - other) < 1e-9


def test_ten_studs_of_a_head() -> None:
    assert tightening.order_from_positions(rows(5)) == (5, 6, 3, 8, 4, 7, 2, 9, 1, 10)


def test_a_line_of_bolts() -> None:
    assert tightening.order_from_positions([(0, 0), (10, 0), (20, 0), (30, 0)]) == (2, 3, 1, 4)
    assert tightening.order_from_positions([(0, 0), (10, 0), (20, 0)]) == (2, 1, 3)


@given(st.lists(st.tuples(st.integers(-80, 80), st.integers(-80, 80)), min_size=2, max_size=20, unique=True))
def test_any_pattern_has_each_bolt_once(points: list[tuple[int, int]]) -> None:
    order = tightening.order_from_positions([(float(x), float(y)) for x, y in points])
    assert sorted(order) == list(range(1, len(points) + 1))


def test_loosening_is_the_reverse() -> None:
    assert tightening.loosening(tightening.star_order(8)) == (8, 4, 6, 2, 7, 3, 5, 1)


@pytest.mark.authority
def test_stages() -> None:
    assert tightening.stages_nm(60) == pytest.approx((18, 36, 60))
    assert tightening.stages_nm(62, (20 / 62, 40 / 62, 1)) == pytest.approx((20, 40, 62))
    for wrong in ((), (0.5,), (0.6, 0.3, 1), (0.5, 0.5, 1)):
        with pytest.raises(Refused, match="rise to 1"):
            tightening.stages_nm(60, wrong)


def test_two_bolts_in_one_hole() -> None:
    with pytest.raises(Refused, match="bolt 3"):
        tightening.order_from_positions([(0, 0), (1, 0), (0, 0)])
    with pytest.raises(Refused, match="bolts"):
        tightening.order_from_positions([(0, 0)])
