"""Seat geometry: the cutter table from the intersection of cones, the sink trap, and inverses."""

from __future__ import annotations

from math import cos, radians, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics.seat import (
    Angles,
    Feeds,
    Ring,
    after_cuts,
    feeds_for,
    interference_gap_mm,
    removed_mm,
    ring_of,
    sink_mm,
    sink_moves,
    width_mm,
)
from gudgeon.problem import Refused

FOUND = Ring(outer_mm=27.0, inner_mm=24.6)
ANGLES = Angles(seat_deg=45, top_deg=30, throat_deg=60)


@pytest.mark.parametrize(("angle", "factor"), [(30, 1.154701), (44, 1.390164), (45, 1.414214), (46, 1.439557)])
def test_sink_is_over_cosine_not_sine(angle: float, factor: float) -> None:
    """A test at 45° alone could not see the mistake t/sin α."""
    assert sink_mm(0.1, angle) / 0.1 == pytest.approx(factor, abs=5e-7)
    assert removed_mm(sink_mm(0.1, angle), angle) == pytest.approx(0.1, abs=1e-15)


@pytest.mark.parametrize(
    ("angles", "top", "throat", "seat_w"),
    [
        ((45, 30, 60), (-4.7321, -3.3461), (2.7321, -1.9319), 5.2779),
        ((45, 15, 60), (-2.7321, -1.9319), (2.7321, -1.9319), 3.8637),
        ((45, 15, 75), (-2.7321, -1.9319), (0.7321, -0.5176), 2.4495),
    ],
)
def test_cutter_table(
    angles: tuple[float, float, float], top: tuple[float, float], throat: tuple[float, float], seat_w: float
) -> None:
    a = Angles(seat_deg=angles[0], top_deg=angles[1], throat_deg=angles[2])
    z = 0.1
    w0 = width_mm(FOUND, a.seat_deg)
    after_top = after_cuts(FOUND, a, Feeds(top_mm=z))
    after_throat = after_cuts(FOUND, a, Feeds(throat_mm=z))
    after_seat = after_cuts(FOUND, a, Feeds(seat_mm=z))
    assert (after_top.outer_mm - FOUND.outer_mm) / z == pytest.approx(top[0], abs=5e-5)
    assert (width_mm(after_top, a.seat_deg) - w0) / z == pytest.approx(top[1], abs=5.1e-5)
    assert after_top.inner_mm == FOUND.inner_mm
    assert (after_throat.inner_mm - FOUND.inner_mm) / z == pytest.approx(throat[0], abs=5e-5)
    assert (width_mm(after_throat, a.seat_deg) - w0) / z == pytest.approx(throat[1], abs=5.1e-5)
    assert (width_mm(after_seat, a.seat_deg) - w0) / z == pytest.approx(seat_w, abs=5.1e-5)


def meet(slope_1: float, at_1: tuple[float, float], slope_2: float, at_2: tuple[float, float]) -> float:
    """Radius where two cone lines through given points (radius, height) meet."""
    matrix = [[-slope_1, 1.0], [-slope_2, 1.0]]
    return float(np.linalg.solve(matrix, [at_1[1] - slope_1 * at_1[0], at_2[1] - slope_2 * at_2[0]])[0])


def test_edges_are_where_the_moved_cones_meet() -> None:
    """Profile of the seat as three straight lines; each cutter lowers its own line by its feed."""
    seat, top, throat = tan(radians(45)), tan(radians(30)), tan(radians(60))
    outer, inner = (13.5, 13.5 * seat), (12.3, 12.3 * seat)
    z_seat, z_top, z_throat = 0.05, 0.12, 0.08
    seat_point = (13.5, 13.5 * seat - z_seat)
    expected = (
        2 * meet(seat, seat_point, top, (outer[0], outer[1] - z_top)),
        2 * meet(seat, seat_point, throat, (inner[0], inner[1] - z_throat)),
    )
    after = after_cuts(FOUND, ANGLES, Feeds(seat_mm=z_seat, top_mm=z_top, throat_mm=z_throat))
    assert (after.outer_mm, after.inner_mm) == pytest.approx(expected, abs=1e-12)


def test_width_mean_and_inverse_feeds() -> None:
    assert width_mm(FOUND, 45) == pytest.approx(1.697056, abs=5e-7)
    assert FOUND.mean_mm == pytest.approx(25.8)
    wanted = ring_of(1.2, 25.6, 45)
    assert (wanted.outer_mm, wanted.inner_mm) == pytest.approx((26.448528, 24.751472), abs=5e-7)
    feeds = feeds_for(FOUND, ANGLES, wanted)
    assert (feeds.seat_mm, feeds.top_mm, feeds.throat_mm) == pytest.approx((0, 0.116540, 0.055443), abs=5e-7)


edges = st.tuples(st.floats(15, 40), st.floats(0.8, 3.0)).map(lambda t: Ring(outer_mm=t[0] + t[1], inner_mm=t[0]))


@given(found=edges, wanted=edges, seat=st.floats(30, 46), top=st.floats(10, 25), throat=st.floats(55, 75))
def test_feeds_bring_the_wanted_ring(found: Ring, wanted: Ring, seat: float, top: float, throat: float) -> None:
    angles = Angles(seat_deg=seat, top_deg=top, throat_deg=throat)
    feeds = feeds_for(found, angles, wanted)
    assert min(feeds.seat_mm, feeds.top_mm, feeds.throat_mm) == pytest.approx(0, abs=1e-12)
    after = after_cuts(found, angles, feeds)
    assert (after.outer_mm, after.inner_mm) == pytest.approx((wanted.outer_mm, wanted.inner_mm), abs=1e-9)


@given(width=st.floats(0.5, 3), mean=st.floats(15, 40), seat=st.floats(20, 60))
def test_ring_of_is_inverse(width: float, mean: float, seat: float) -> None:
    ring = ring_of(width, mean, seat)
    assert width_mm(ring, seat) == pytest.approx(width, abs=1e-12)
    assert ring.mean_mm == pytest.approx(mean, abs=1e-12)
    assert (ring.outer_mm - ring.inner_mm) / 2 == pytest.approx(width * cos(radians(seat)), abs=1e-12)


def test_sink_moves_with_their_signs() -> None:
    moves = sink_moves(0.4, ratio=1.5, spring_rate_n_per_mm=18.240503, valve_diameter_mm=30)
    assert moves.lash_at_valve_mm == -0.4
    assert moves.lash_at_cam_mm == pytest.approx(-0.4 / 1.5)
    assert moves.tip_height_mm == moves.installed_height_mm == moves.recession_mm == 0.4
    assert moves.bind_margin_mm == moves.valve_to_piston_mm == 0.4
    assert moves.spring_load_n == pytest.approx(-7.2962, abs=5e-5)
    assert moves.chamber_cm3 == pytest.approx(0.282743, abs=5e-7)
    assert moves.squish_mm == 0.0


def test_interference_angle() -> None:
    """1° over 1.2 mm along the seat opens 0.02095 mm square to the seat."""
    assert interference_gap_mm(1.2, 1.0) == pytest.approx(0.02095, abs=5e-6)


@pytest.mark.parametrize(
    "call",
    [
        lambda: sink_mm(0.1, 90),
        lambda: sink_mm(-0.1, 45),
        lambda: width_mm(Ring(outer_mm=24, inner_mm=25), 45),
        lambda: after_cuts(FOUND, Angles(seat_deg=45, top_deg=30, throat_deg=40), Feeds()),
        lambda: after_cuts(FOUND, Angles(seat_deg=45, top_deg=50, throat_deg=60), Feeds()),
        lambda: after_cuts(FOUND, ANGLES, Feeds(top_mm=2.0)),
        lambda: after_cuts(FOUND, ANGLES, Feeds(top_mm=-0.1)),
        lambda: ring_of(1.2, float("inf"), 45),
    ],
)
def test_refused(call) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(Refused):
        call()
