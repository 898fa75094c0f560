"""Tables of points: headers carry units, and what is wrong is named with its line."""

from __future__ import annotations

import pytest

from gudgeon.calculators import points
from gudgeon.problem import Refused

XYZ = ("x", "y", "z")


@pytest.mark.parametrize(
    "text",
    [
        "x_mm,y_mm,z_um\n10,20,3\n-1.5,0,-4\n",
        "x_mm;y_mm;z_um\n10;20;3\n-1,5;0;-4\n",
        "\nx_mm\ty_mm\tz_um\n\n10\t20\t3\n−1.5\t0\t−4\n",
        '"note","X_cm","z_µm","y_mm"\n"a","1","3","20"\n"b","-0.15","-4","0"',
        f"x_mm,y_mm,z_in\n10,20,{0.003 / 25.4}\n-1.5,0,{-0.004 / 25.4}",
    ],
)
def test_lengths(text: str) -> None:
    first, second = points.lengths(text, XYZ)
    assert first == pytest.approx((10, 20, 0.003))
    assert second == pytest.approx((-1.5, 0, -0.004))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "x_mm,y_mm,z_mm"),
        ("x_mm,y_mm,z_um\n", "no row"),
        ("x,y,z\n1,2,3", "names with their units"),
        ("x_mm,y_mm\n1,2", "line 1"),
        ("x_mm,y_mm,z_kg\n1,2,3", "kg is no unit of length"),
        ("x_mm,y_mm,z_um\n1,2,3\n4,5\n", "line 3"),
        ("x_mm,y_mm,z_um\n1,2,three\n", "“three” is not a number"),
        ("x_mm,y_mm,z_um\n1,nan,3\n", "column 2"),
        ("x_mm,y_mm,z_um\n1,2,1e400\n", "1e400"),
        ("x_mm,y_mm,z_um\n1,,3\n", "line 2"),
        ("x_mm,y_mm,z_um\n1,5,2,3\n", "4 cells under 3 columns"),
        ('x_mm,y_mm,z_um\n"1,5",2,3\n', "1,5"),
        ("x_mm,y_mm,z_um\n1,2," + "3" * 200_000, "line 2"),
        ("x_mm,y_mm,z_um\n" + "1,2,3\n" * 200_002, "200000"),
    ],
)
def test_what_is_wrong(text: str, said: str) -> None:
    with pytest.raises(Refused) as refused:
        points.lengths(text, XYZ)
    assert said in str(refused.value)


def test_several_problems_come_at_once() -> None:
    with pytest.raises(Refused) as refused:
        points.lengths("x_mm,y_mm,z_um\n" + "a,b,c\n" * 50, XYZ)
    assert len(refused.value.problems) == points.MOST_PROBLEMS
