"""Slider-crank and volumes: J. B. Heywood, *Internal Combustion Engine Fundamentals*, eq. 2.1 to 2.11.

Grade: formulas from memory; every pinned number was computed by two independent routes (closed form, and a linkage
program), which agreed to all digits shown. Tolerance: half of the last digit.
"""

from __future__ import annotations

from math import cos, hypot, pi, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq, minimize_scalar

from gudgeon.mechanics import chamber, crank, volumes
from gudgeon.problem import Refused

STRAIGHT = {
    1: 0.00475946,
    30: 4.13369,
    45: 8.89723,
    60: 14.87188,
    90: 28.17542,
    120: 39.87188,
    150: 47.43496,
    180: 50.0,
}
ASIDE = {1: 0.00139630, 45: 8.71886, 90: 27.91871, 135: 44.07420, 179: 49.99378, 270: 28.43514}


@pytest.mark.authority
@pytest.mark.parametrize(("angle", "travel"), STRAIGHT.items())
def test_travel(angle: float, travel: float) -> None:
    assert crank.piston_travel_mm(angle, 50, 100) == pytest.approx(travel, abs=5e-6)


@pytest.mark.authority
@pytest.mark.parametrize(("angle", "travel"), ASIDE.items())
def test_travel_with_offset(angle: float, travel: float) -> None:
    assert crank.piston_travel_mm(angle, 50, 100, 1.0) == pytest.approx(travel, abs=5e-6)


@pytest.mark.authority
def test_ends_of_the_stroke_with_offset() -> None:
    top, bottom = crank.top_centre_deg(50, 100, 1.0), crank.bottom_centre_deg(50, 100, 1.0)
    assert (top, bottom) == (pytest.approx(0.458371, abs=5e-7), pytest.approx(180.763966, abs=5e-7))
    assert bottom - top == pytest.approx(180.305595, abs=1e-6)
    assert crank.true_stroke_mm(50, 100, 1.0) == pytest.approx(50.002667, abs=5e-7)
    assert crank.piston_travel_mm(top, 50, 100, 1.0) == pytest.approx(0, abs=1e-12)
    assert crank.piston_travel_mm(bottom, 50, 100, 1.0) == pytest.approx(50.002667, abs=5e-7)


@pytest.mark.authority
@pytest.mark.parametrize(
    ("slender", "peak", "angle"), [(3, 1.65662, 73.18), (3.5, 1.63401, 75.14), (4, 1.61931, 76.72)]
)
def test_greatest_piston_speed(slender: float, peak: float, angle: float) -> None:
    mean = crank.mean_piston_speed_m_s(50, 6000)
    found = minimize_scalar(
        lambda t: -crank.piston_speed_m_s(t, 50, 25 * slender, 6000) / mean,
        bounds=(40, 120),
        method="bounded",
        options={"xatol": 1e-6},
    )
    assert -found.fun == pytest.approx(peak, abs=5e-6)
    assert found.x == pytest.approx(angle, abs=0.005)


@pytest.mark.authority
def test_mean_speed_and_volume_ratio() -> None:
    assert crank.mean_piston_speed_m_s(50, 6000) == 10.0
    assert crank.volume_ratio(60, 8.5, 50, 100) == pytest.approx(3.230782, abs=5e-7)


def test_two_terms_are_an_approximation_and_not_what_is_used() -> None:
    assert crank.piston_travel_mm(45, 50, 100) - 8.88483 == pytest.approx(0.0124, abs=1e-5)


@pytest.mark.authority
@pytest.mark.parametrize("offset", [0.0, 1.0, -2.5])
def test_against_a_linkage_program(offset: float) -> None:
    """`mechanism` solves the loop of vectors by iteration; ours is closed form."""
    import numpy as np
    from mechanism import Mechanism, Vector, get_joints

    o, pin, piston, foot = get_joints("O A B C")
    throw, rod = Vector((o, pin), r=25.0), Vector((pin, piston), r=100.0)
    height = Vector((o, foot), theta=pi / 2)
    # Seen in the program the crank turns anticlockwise, so that its pin moves to -x, and so does a positive offset.
    aside = Vector((foot, piston), r=abs(offset), theta=pi if offset > 0 else 0.0)

    def loops(x: tuple[float, float], turned: float) -> object:
        return np.asarray(throw(pi / 2 + turned) + rod(x[0]) - height(x[1]) - aside()).flatten()

    for angle in (20.0, 75.0, 140.0, 200.0, 300.0):
        guess = (np.array([pi / 2, 100 + 25 * cos(radians(angle))]),)
        vectors = (throw, rod, height, aside)
        Mechanism(vectors=vectors, origin=o, loops=loops, pos=radians(angle), guess=guess).calculate()
        travel = (125.0**2 - offset**2) ** 0.5 - height.pos.r
        assert crank.piston_travel_mm(angle, 50, 100, offset) == pytest.approx(travel, abs=1e-7)


@pytest.mark.parametrize("offset", [0.0, 1.0, -3.0])
@pytest.mark.parametrize("angle", [7, 88, 179, 233])
def test_rod_length_is_kept(angle: float, offset: float) -> None:
    """An independent route: find the height at which pin and piston stand one rod apart."""
    pin = (25 * sin(radians(angle)), 25 * cos(radians(angle)))
    height = brentq(lambda y: hypot(pin[0] - offset, y - pin[1]) - 100, pin[1], pin[1] + 100, xtol=1e-12)
    top = (125.0**2 - offset**2) ** 0.5
    assert crank.piston_travel_mm(angle, 50, 100, offset) == pytest.approx(top - height, abs=1e-10)


@given(st.floats(6, 165), st.floats(30, 90), st.floats(1.2, 4), st.floats(-4, 4))
def test_angle_and_travel_are_inverse(angle: float, stroke: float, slender: float, offset: float) -> None:
    rod = slender * stroke
    travel = crank.piston_travel_mm(crank.top_centre_deg(stroke, rod, offset) + angle, stroke, rod, offset)
    back = crank.angle_at_travel_deg(travel, stroke, rod, offset)
    assert crank.piston_travel_mm(back, stroke, rod, offset) == pytest.approx(travel, abs=1e-9)
    assert back == pytest.approx(crank.top_centre_deg(stroke, rod, offset) + angle, abs=2e-4)


def test_the_ends_of_the_travel() -> None:
    assert crank.angle_at_travel_deg(0, 50, 100, 1) == pytest.approx(crank.top_centre_deg(50, 100, 1), abs=1e-4)
    most = crank.true_stroke_mm(50, 100, 1)
    assert crank.angle_at_travel_deg(most, 50, 100, 1) == pytest.approx(crank.bottom_centre_deg(50, 100, 1), abs=1e-4)


def test_a_rod_of_crank_and_offset_is_just_too_short() -> None:
    with pytest.raises(Refused):
        crank.true_stroke_mm(50, 27.0, 2.0)
    assert crank.true_stroke_mm(50, 27.01, 2.0) > 50


@pytest.mark.authority
def test_speed_is_the_derivative_of_travel() -> None:
    for angle in (10, 100, 200, 333):
        ahead, behind = (crank.piston_travel_mm(angle + d, 50, 100, 1.5) for d in (1e-4, -1e-4))
        slope = (ahead - behind) / 2e-4 * 6 * 3000 / 1000
        assert crank.piston_speed_m_s(angle, 50, 100, 3000, 1.5) == pytest.approx(slope, abs=1e-6)


SET = {
    "bore_mm": 60.0,
    "chamber_cm3": 15.0,
    "gasket_bore_mm": 61.0,
    "gasket_thickness_mm": 0.5,
    "deck_mm": 0.2,
    "dome_cm3": 1.2,
}


@pytest.mark.authority
def test_compression_ratio() -> None:
    swept, clearance = volumes.displacement_cm3(60, 50), volumes.clearance_volume_cm3(**SET)
    assert swept == pytest.approx(141.371669, abs=5e-7)
    assert volumes.disc_volume_cm3(61, 0.5) == pytest.approx(1.461233, abs=5e-7)
    assert volumes.disc_volume_cm3(60, 0.2) == pytest.approx(0.565487, abs=5e-7)
    assert clearance == pytest.approx(15.826720, abs=5e-7)
    assert volumes.compression_ratio(swept, clearance) == pytest.approx(9.932468, abs=5e-7)
    wanted = volumes.clearance_for_ratio_cm3(swept, 9.5)
    assert wanted == pytest.approx(16.631961, abs=5e-7)
    assert wanted - clearance == pytest.approx(0.805241, abs=1e-6)


@pytest.mark.authority
@pytest.mark.parametrize(
    ("closes", "left", "ratio"),
    [
        (0, 50, 9.932468),
        (40, 45.450731, 9.119744),
        (50, 42.920646, 8.667746),
        (60, 39.871879, 8.123085),
        (70, 36.349109, 7.493745),
    ],
)
def test_effective_ratio(closes: float, left: float, ratio: float) -> None:
    assert crank.piston_travel_mm(180 + closes, 50, 100) == pytest.approx(left, abs=5e-7)
    found = volumes.effective_ratio(
        bore_mm=60,
        stroke_mm=50,
        rod_mm=100,
        clearance_cm3=volumes.clearance_volume_cm3(**SET),
        intake_closes_deg=closes,
    )
    assert found == pytest.approx(ratio, abs=1e-6)


def test_effective_ratio_with_offset_is_on_the_way_up() -> None:
    """The way up differs from the way down: at 50° after the bottom the stroke left is x(230°), not x(130°)."""
    found = volumes.effective_ratio(
        bore_mm=60, stroke_mm=50, rod_mm=100, clearance_cm3=16, intake_closes_deg=50, offset_mm=3
    )
    left = crank.piston_travel_mm(230, 50, 100, 3)
    assert abs(left - crank.piston_travel_mm(130, 50, 100, 3)) > 0.5
    assert found == pytest.approx(1 + pi / 4 * 3.6 * left / 16)


def test_milling_the_head_leaves_a_flush_squish_band_where_it_was() -> None:
    assert volumes.squish_after_head_milled_mm(0.9, 0.3) == 0.9
    assert volumes.squish_after_head_milled_mm(0.9, 0.3, recess_mm=0.5) == pytest.approx(0.6)
    assert volumes.squish_after_head_milled_mm(0.9, 0.3, recess_mm=0.1) == pytest.approx(0.8)
    assert volumes.squish_after_cylinder_milled_mm(0.9, 0.3) == pytest.approx(0.6)
    assert volumes.squish_after_cylinder_milled_mm(0.9, -0.2) == pytest.approx(1.1)


@pytest.mark.authority
def test_milling_a_chamber_that_is_a_spherical_cap() -> None:
    whole = chamber.spherical_cap_cm3(56, 12)
    assert whole == pytest.approx(15.682831, abs=5e-7)
    exact, rule = chamber.spherical_cap_loss_cm3(56, 12, 0.3), chamber.face_area_loss_cm3(56, 0.3)
    assert whole - exact == pytest.approx(14.951496, abs=5e-7)
    assert exact == pytest.approx(0.731335, abs=1e-6)
    assert rule == pytest.approx(0.738903, abs=5e-7)
    assert rule / exact - 1 == pytest.approx(0.0103, abs=1e-4)
    assert chamber.face_area_loss_cm3(60, 0.3) == pytest.approx(0.848230, abs=5e-7)


@given(st.floats(20, 100), st.floats(0, 3))
def test_depth_and_loss_are_inverse(opening: float, milled: float) -> None:
    assert chamber.depth_to_mill_mm(opening, chamber.face_area_loss_cm3(opening, milled)) == pytest.approx(milled)


def test_squish_and_what_is_left_out() -> None:
    assert volumes.squish_mm(0.2, 0.5, 0.1) == pytest.approx(0.8)
    assert volumes.squish_mm(-0.2, 0.5) == pytest.approx(0.3)
    for work in (lambda: volumes.squish_mm(-0.5, 0.5), lambda: volumes.squish_after_cylinder_milled_mm(0.5, 0.5)):
        with pytest.raises(Refused, match="contact"):
            work()
    plain = volumes.clearance_volume_cm3(bore_mm=60, chamber_cm3=15, gasket_bore_mm=60, gasket_thickness_mm=0)
    assert plain == 15
    with pytest.raises(Refused, match="clearance volume"):
        volumes.clearance_volume_cm3(bore_mm=60, chamber_cm3=1, gasket_bore_mm=60, gasket_thickness_mm=0, dome_cm3=1)
