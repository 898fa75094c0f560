"""No formula returns a silent NaN: what is outside its validity is refused, with the argument and what is allowed."""

from __future__ import annotations

from collections.abc import Callable
from math import inf, isfinite, nan
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.mechanics import (
    air,
    bolts,
    chamber,
    crank,
    cranking,
    leak,
    rings,
    thermal,
    tightening,
    volumes,
    wrench,
)
from gudgeon.mechanics.threads import grade, thread
from gudgeon.problem import Refused

CRANK = {"stroke_mm": 50.0, "rod_mm": 100.0, "offset_mm": 1.0}
M8, STRONG = thread("M8"), grade("8.8")
TESTER = {"supply_kpa": 550.0, "orifice_mm": 1.016, "ambient_kpa": 100.0}
GOOD: list[tuple[Callable[..., Any], dict[str, Any]]] = [
    (crank.piston_travel_mm, {"angle_deg": 30.0, **CRANK}),
    (crank.angle_at_travel_deg, {"travel_mm": 20.0, **CRANK}),
    (crank.top_centre_deg, CRANK),
    (crank.bottom_centre_deg, CRANK),
    (crank.true_stroke_mm, CRANK),
    (crank.piston_speed_m_s, {"angle_deg": 30.0, "speed_rpm": 3000.0, **CRANK}),
    (crank.mean_piston_speed_m_s, {"stroke_mm": 50.0, "speed_rpm": 3000.0}),
    (crank.volume_ratio, {"angle_deg": 30.0, "ratio": 9.0, **CRANK}),
    (volumes.disc_volume_cm3, {"diameter_mm": 60.0, "height_mm": 0.5}),
    (volumes.displacement_cm3, {"bore_mm": 60.0, "stroke_mm": 50.0, "cylinders": 1}),
    (volumes.clearance_volume_cm3, {"bore_mm": 60.0, "chamber_cm3": 15.0, "gasket_bore_mm": 61.0,
                                    "gasket_thickness_mm": 0.5, "deck_mm": 0.2, "dome_cm3": 1.2}),
    (volumes.compression_ratio, {"swept_cm3": 141.0, "clearance_cm3": 16.0}),
    (volumes.clearance_for_ratio_cm3, {"swept_cm3": 141.0, "ratio": 9.0}),
    (volumes.effective_ratio, {"bore_mm": 60.0, "clearance_cm3": 16.0, "intake_closes_deg": 50.0, **CRANK}),
    (volumes.squish_mm, {"deck_mm": 0.2, "gasket_thickness_mm": 0.5, "recess_mm": 0.1}),
    (volumes.squish_after_head_milled_mm, {"squish_before_mm": 1.0, "milled_mm": 0.2, "recess_mm": 0.1}),
    (volumes.squish_after_cylinder_milled_mm, {"squish_before_mm": 1.0, "milled_mm": 0.2}),
    (chamber.face_area_loss_cm3, {"opening_mm": 56.0, "milled_mm": 0.3}),
    (chamber.spherical_cap_cm3, {"opening_mm": 56.0, "depth_mm": 12.0}),
    (chamber.spherical_cap_loss_cm3, {"opening_mm": 56.0, "depth_mm": 12.0, "milled_mm": 0.3}),
    (chamber.depth_to_mill_mm, {"opening_mm": 56.0, "loss_cm3": 0.7}),
    (air.geopotential_m, {"height_m": 1000.0}),
    (air.geometric_m, {"geopotential_height_m": 1000.0}),
    (air.standard_temperature_c, {"geopotential_height_m": 1000.0}),
    (air.standard_pressure_kpa, {"geopotential_height_m": 1000.0}),
    (air.standard_density_kg_m3, {"geopotential_height_m": 1000.0}),
    (air.ambient_kpa, {"height_m": 1000.0}),
    (air.pressure_altitude_m, {"pressure_kpa": 90.0}),
    (air.gauge_at_sea_level_kpa, {"gauge_kpa": 900.0, "ambient_kpa": 90.0}),
    (air.gauge_at_ambient_kpa, {"sea_level_gauge_kpa": 900.0, "ambient_kpa": 90.0}),
    (leak.critical_ratio, {"gamma": 1.4}),
    (leak.flow_function, {"pressure_ratio": 0.7, "gamma": 1.4}),
    (leak.orifice_flow_kg_s, {"diameter_mm": 1.0, "before_kpa": 600.0, "behind_kpa": 100.0, "temperature_c": 20.0,
                              "discharge": 0.8, "gamma": 1.4, "gas_constant": 287.05}),
    (leak.loss_percent, {"supply_kpa": 550.0, "cylinder_kpa": 500.0}),
    (leak.leak_area_ratio, {"supply_kpa": 550.0, "cylinder_kpa": 500.0, "ambient_kpa": 100.0}),
    (leak.leak_diameter_mm, {"cylinder_kpa": 500.0, **TESTER}),
    (leak.leak_down_percent, {"leak_mm": 0.5, **TESTER}),
    (leak.percent_on_another_tester, {"percent": 20.0, "to_supply_kpa": 690.0, "to_orifice_mm": 1.5, **TESTER}),
    (cranking.compressed_kpa, {"ratio": 9.0, "exponent": 1.3, "ambient_kpa": 100.0}),
    (cranking.compressed_c, {"ratio": 9.0, "exponent": 1.3, "start_c": 20.0}),
    (cranking.exponent_from_pressures, {"ratio": 9.0, "peak_kpa": 1500.0, "ambient_kpa": 100.0}),
    (cranking.ratio_from_pressures, {"exponent": 1.3, "peak_kpa": 1500.0, "ambient_kpa": 100.0}),
    (bolts.torque_short_nm, {"preload_kn": 20.0, "diameter_mm": 8.0, "factor": 0.2}),
    (bolts.preload_short_kn, {"torque_nm": 20.0, "diameter_mm": 8.0, "factor": 0.2}),
    (bolts.torque_nm, {"preload_kn": 18.0, "thread": M8, "thread_friction": 0.12, "head_friction": 0.12}),
    (bolts.preload_kn, {"torque_nm": 24.0, "thread": M8, "thread_friction": 0.12, "head_friction": 0.12}),
    (bolts.total_friction, {"torque_nm": 24.0, "preload_kn": 18.0, "thread": M8}),
    (bolts.assembly_preload_kn, {"thread": M8, "grade": STRONG, "thread_friction": 0.12, "utilisation": 0.9}),
    (bolts.proof_fraction, {"preload_kn": 18.0, "thread": M8, "grade": STRONG}),
    (bolts.yield_fraction, {"preload_kn": 18.0, "thread": M8, "grade": STRONG}),
    (bolts.bolt_stiffness_kn_mm, {"length_mm": 60.0, "area_mm2": 58.0, "modulus_mpa": 205000.0}),
    (bolts.angle_preload_kn, {"angle_deg": 30.0, "thread": M8, "grade": STRONG, "bolt_kn_mm": 200.0,
                              "joint_kn_mm": 600.0, "snug_kn": 5.0}),
    (bolts.with_prevailing_nm, {"torque_nm": 24.0, "prevailing_nm": 3.0}),
    (wrench.setting_nm, {"torque_nm": 50.0, "length_mm": 400.0, "extension_mm": 50.0, "angle_deg": 0.0}),
    (wrench.at_bolt_nm, {"setting_nm": 50.0, "length_mm": 400.0, "extension_mm": 50.0, "angle_deg": 0.0}),
    (wrench.permissible_error, {"highest_nm": 60.0}),
    (wrench.least_setting_nm, {"lowest_nm": 5.0, "highest_nm": 60.0}),
    (wrench.fits, {"setting_nm": 30.0, "lowest_nm": 5.0, "highest_nm": 60.0}),
    (tightening.star_order, {"bolts": 8}),
    (tightening.stages_nm, {"torque_nm": 60.0}),
    (rings.gap_change_mm, {"bore_change_mm": 0.05, "face_wear_mm": 0.01}),
    (rings.bore_change_mm, {"gap_change_mm": 0.15, "face_wear_mm": 0.01}),
    (rings.usual_gap_mm, {"bore_mm": 60.0, "share": 0.004}),
    (rings.hot_gap_mm, {"gap_mm": 0.24, "bore_mm": 60.0, "ring_per_k": 11e-6, "ring_c": 200.0, "bore_per_k": 10e-6,
                        "bore_c": 120.0}),
    (rings.side_clearance_mm, {"groove_mm": 1.2, "ring_mm": 1.17}),
    (rings.piston_clearance_mm, {"bore_mm": 60.04, "skirt_mm": 60.0}),
    (thermal.growth_mm, {"length_mm": 52.0, "expansion_per_k": 23e-6, "from_c": 20.0, "to_c": 28.0}),
    (thermal.hot_clearance_mm, {"hole_mm": 60.04, "hole_per_k": 1e-5, "hole_c": 120.0, "shaft_mm": 60.0,
                                "shaft_per_k": 2e-5, "shaft_c": 180.0}),
    (thermal.temperature_to_fit_c, {"hole_mm": 10.0, "hole_per_k": 2e-5, "shaft_mm": 10.03, "shaft_c": 20.0,
                                    "shaft_per_k": 1e-5, "room_mm": 0.01}),
]  # fmt: skip
BAD = (nan, inf, -inf, "abc", None, True)
CASES = [
    pytest.param(work, good, name, id=f"{work.__module__.rpartition('.')[2]}.{work.__name__}-{name}")
    for work, good in GOOD
    for name, value in good.items()
    if isinstance(value, float | int)
]
LEAKY = {"bore_mm": 60.0, "stroke_mm": 50.0, "rod_mm": 100.0, "ratio": 9.0, "speed_rpm": 400.0, "leak_mm": 0.5}


@pytest.mark.parametrize(("work", "good", "name"), CASES)
def test_what_is_no_number(work: Callable[..., Any], good: dict[str, Any], name: str) -> None:
    assert isfinite(sum(x for x in [work(**good)] if isinstance(x, float)))
    for bad in BAD:
        with pytest.raises(Refused):
            work(**{**good, name: bad})


@pytest.mark.parametrize(("work", "good", "name"), CASES)
@settings(max_examples=25, deadline=None)
@given(value=st.floats(allow_nan=False, allow_infinity=False))
def test_any_number_gives_a_number_or_a_refusal(
    work: Callable[..., Any], good: dict[str, Any], name: str, value: float
) -> None:
    try:
        found = work(**{**good, name: value})
    except Refused as refused:
        assert refused.problems[0].where
        return
    assert all(isfinite(one) for one in (found if isinstance(found, tuple) else (found,)))


@pytest.mark.parametrize(
    ("work", "bad", "word"),
    [
        (crank.piston_travel_mm, {"angle_deg": 10, "stroke_mm": 50, "rod_mm": 25}, "longer than 25.0 mm"),
        (crank.piston_travel_mm, {"angle_deg": 10, "stroke_mm": 50, "rod_mm": 26, "offset_mm": 1}, "rod"),
        (volumes.clearance_volume_cm3, {"bore_mm": 60, "chamber_cm3": 1, "gasket_bore_mm": 61, "gasket_thickness_mm": 0.5,
                                        "dome_cm3": 9}, "leave"),
        (volumes.effective_ratio, {"bore_mm": 60, "clearance_cm3": 16, "intake_closes_deg": 180, "stroke_mm": 50,
                                   "rod_mm": 100}, "less than 180"),
        (volumes.squish_mm, {"deck_mm": -0.6, "gasket_thickness_mm": 0.5}, "contact"),
        (leak.leak_area_ratio, {"supply_kpa": 550, "cylinder_kpa": -1, "ambient_kpa": 100}, "cylinder"),
        (leak.leak_area_ratio, {"supply_kpa": 550, "cylinder_kpa": 551, "ambient_kpa": 100}, "550 kPa gauge or less"),
        (cranking.exponent_from_pressures, {"ratio": 9, "peak_kpa": 90, "ambient_kpa": 100}, "100 kPa absolute or more"),
        (chamber.spherical_cap_loss_cm3, {"opening_mm": 56, "depth_mm": 12, "milled_mm": 12}, "less than 12 mm"),
        (bolts.total_friction, {"torque_nm": 1, "preload_kn": 18, "thread": M8}, "torque"),
        (air.standard_pressure_kpa, {"geopotential_height_m": 12000}, "11000 m or less"),
        (crank.angle_at_travel_deg, {"travel_mm": 51, "stroke_mm": 50, "rod_mm": 100}, "50 mm or less"),
    ],
)  # fmt: skip
def test_outside_validity(work: Callable[..., Any], bad: dict[str, Any], word: str) -> None:
    with pytest.raises(Refused) as refused:
        work(**bad)
    assert word in str(refused.value)


@pytest.mark.parametrize("name", LEAKY)
def test_the_leaking_cylinder_too(name: str) -> None:
    for bad in (*BAD, -1.0):
        with pytest.raises(Refused):
            cranking.leaking_compression(**{**LEAKY, name: bad})
