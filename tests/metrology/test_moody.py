"""J. C. Moody, How to calibrate surface plates in the plant, The Tool Engineer, October 1955, table 1 (scan read).

The height map and 0.00018 in are published; minimum zone and least squares of the same heights are from a linear program here.
"""

import math

import numpy as np
import pytest
from scipy.optimize import linprog

from gudgeon.metrology import flatness, straightness

pytestmark = pytest.mark.authority

READINGS = {
    "NW-SE": "6.5 6.0 5.0 5.2 5.5 5.6 5.5 5.0 5.5 4.8 5.0 5.2 5.3 4.9 4.6 4.2 5.3 4.9 4.5 3.5",
    "NE-SW": "6.6 5.4 5.4 5.2 5.5 5.7 5.0 5.0 5.4 4.5 4.4 4.5 4.5 4.8 4.2 4.2 4.2 4.8 4.3 3.2",
    "north": "20.5 19.7 20.5 20.3 20.2 19.9 19.0 19.5 18.8 18.6 18.7 18.6 18.4 18.5 19.0 17.9",
    "east": "3.5 2.1 2.5 2.8 3.4 3.2 3.5 4.0 4.2 3.5",
    "south": "16.4 15.0 15.6 15.5 15.1 15.3 15.1 14.6 14.0 13.5 13.5 13.3 13.3 13.4 14.0 13.9",
    "west": "6.0 4.6 4.5 4.7 5.0 4.5 5.9 6.0 6.0 4.9",
    "centre E-W": "11.7 12.4 12.1 12.5 12.0 11.5 11.5 11.3 11.3 10.3 10.8 10.3 10.0 10.7 10.4 10.4",
    "centre N-S": "6.6 6.4 6.3 6.5 6.6 6.9 7.5 7.4 7.1 7.0",
}
NW, NE, SE, SW = (4.0, 44.0), (68.0, 44.0), (68.0, 4.0), (4.0, 4.0)
ENDS = {
    "NW-SE": (NW, SE),
    "NE-SW": (NE, SW),
    "north": (NE, NW),
    "east": (NE, SE),
    "south": (SE, SW),
    "west": (NW, SW),
    "centre E-W": ((68.0, 24.0), (4.0, 24.0)),
    "centre N-S": ((36.0, 44.0), (36.0, 4.0)),
}
ARCSEC_4_IN = 4.0 * math.pi / 180 / 3600 * 1e6
"""Height in µin of one arc second over a foot spacing of 4 in."""


def raw(name):
    readings = np.array([float(r) for r in READINGS[name].split()])
    return np.concatenate([[0.0], np.cumsum(readings - readings[0])])


def tied(name, start, end):
    heights = raw(name)
    share = np.linspace(0.0, 1.0, len(heights))
    return heights + start + (end - start - heights[-1]) * share


def centred(heights):
    return heights - heights[len(heights) // 2]


def plate():
    """Heights in arc seconds times 4 in, line by line."""
    lines = {name: centred(tied(name, 0.0, 0.0)) for name in ("NW-SE", "NE-SW")}
    nw, ne = lines["NW-SE"][0], lines["NE-SW"][0]
    corner = {NW: nw, SE: nw, NE: ne, SW: ne}
    for name in ("north", "east", "south", "west"):
        lines[name] = tied(name, corner[ENDS[name][0]], corner[ENDS[name][1]])
    middle = {name: line[len(line) // 2] for name, line in lines.items()}
    lines["centre E-W"] = centred(tied("centre E-W", middle["east"], middle["west"]))
    lines["centre N-S"] = centred(tied("centre N-S", middle["north"], middle["south"]))
    return lines


def points_in():
    rows = []
    for name, heights in plate().items():
        (x0, y0), (x1, y1) = ENDS[name]
        for share, h in zip(np.linspace(0.0, 1.0, len(heights)), heights, strict=True):
            rows.append((x0 + share * (x1 - x0), y0 + share * (y1 - y0), h * ARCSEC_4_IN * 1e-6))
    return np.array(rows)


def test_published_map():
    lines = plate()
    assert (round(lines["NW-SE"][0], 1), round(lines["NE-SW"][0], 1)) == (-3.6, -5.3)
    middles = {name: round(float(lines[name][len(lines[name]) // 2]), 1) for name in ("north", "east", "south", "west")}
    assert middles == {"north": 1.1, "east": -6.5, "south": 2.4, "west": -5.7}
    every = np.concatenate(list(lines.values()))
    assert (round(every.min(), 1), round(every.max(), 1)) == (-6.8, 2.4)
    assert np.ptp(every) * ARCSEC_4_IN == pytest.approx(178.411, abs=0.06)  # printed 0.000 18 in


def test_flatness_of_the_plate_in_micro_inches():
    points = points_in()
    assert len(points) == 126
    zone, squares = flatness.minimum_zone(points), flatness.least_squares(points)
    assert 1e6 * zone.width == pytest.approx(163.673, abs=5e-4)
    assert 1e6 * squares.width == pytest.approx(175.371, abs=5e-4)
    assert 1e6 * squares.rms == pytest.approx(46.241, abs=5e-4)
    touching = {(side, tuple(np.round(points[row, :2], 6))) for row, side in zone.contacts}
    assert touching == {
        ("high", (36.0, 44.0)),
        ("high", (36.0, 4.0)),
        ("low", (68.0, 28.0)),
        ("low", (4.0, 20.0)),
    }


LINES = {"NW-SE": (75.631, 77.238, 75.631), "NE-SW": (109.374, 113.386, 109.374), "north": (107.871, 111.830, 107.871)}


@pytest.mark.parametrize("name", LINES)
def test_straightness_of_single_lines(name):
    heights = plate()[name] * ARCSEC_4_IN * 1e-6
    line = np.column_stack([np.linspace(0.0, 4.0 * (len(heights) - 1), len(heights)), heights])
    got = (straightness.minimum_zone(line).width, straightness.least_squares(line).width, straightness.end_points(line))
    assert [1e6 * width for width in got] == pytest.approx(LINES[name], abs=6e-4)


def test_linear_program_agrees():
    points = points_in()
    x, y, z = (points - points.mean(axis=0)).T * np.array([[1.0], [1.0], [1e6]])
    plane = np.column_stack([x, y, np.ones_like(x)])
    one = np.ones((len(x), 1))
    rows = np.block([[plane, -one], [-plane, -one]])
    best = linprog([0, 0, 0, 1], rows, np.concatenate([z, -z]), bounds=[(None, None)] * 3 + [(0, None)], method="highs")
    assert 1e6 * flatness.minimum_zone(points).width == pytest.approx(2 * best.fun, rel=1e-9)
