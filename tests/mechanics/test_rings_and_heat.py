"""Growth and end gaps: Callister (table B.6), D. A. Swyt (J. Res. NIST 99, 1994), NIST's temperature tutorial.

Grade: table values read (A); gaps and hot clearances are geometry, pinned.
"""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics import rings, thermal
from gudgeon.problem import Refused

CALLISTER = {
    "grey iron": 11.4, "ductile iron 60-40-18": 11.2, "ductile iron 80-55-06": 10.6, "1020": 11.7, "1040": 11.3, "4140": 12.3,
    "4340": 12.3, "304": 17.2, "316": 15.9, "440A": 10.2, "356.0 cast": 21.5, "2024": 22.9, "6061": 23.6, "7075": 23.4,
    "titanium grade 1": 8.6, "titanium 6Al-4V": 8.6, "titanium 5Al-2.5Sn": 9.4, "C93200": 18.0, "C26000": 19.9,
}  # fmt: skip
SWYT = {"aluminium": 23.1, "Steel": 11.5, "silicon": 2.6, "aluminum": 23.1}


@pytest.mark.authority
@pytest.mark.parametrize(("name", "millionths"), [*CALLISTER.items(), *SWYT.items(), ("Cast_Iron", 11.4)])
def test_table(name: str, millionths: float) -> None:
    assert thermal.material(name).expansion_per_k * 1e6 == pytest.approx(millionths)
    assert thermal.material(name).source


@pytest.mark.parametrize("name", ["", "cheese", "40"])
def test_no_material(name: str) -> None:
    with pytest.raises(Refused, match="brass C26000"):
        thermal.material(name)


@pytest.mark.authority
def test_other_tables_agree_with_the_metals() -> None:
    """Inch per inch and 100 °F, a handbook: wrought aluminium .00128, grey iron .00059, mild steel .00065."""
    for name, printed, apart in (
        ("aluminium 6061", 0.00128, 0.03),
        ("grey iron", 0.00059, 0.08),
        ("steel 1020", 0.00065, 0.01),
    ):
        assert thermal.material(name).expansion_per_k == pytest.approx(printed / (100 / 1.8), rel=apart)


@pytest.mark.authority
def test_warm_aluminium_and_a_steel_scale() -> None:
    assert thermal.growth_mm(52, 23.1e-6, 20, 28) * 1000 == pytest.approx(9.6096, abs=5e-5)
    scale = thermal.growth_mm(52, 11.5e-6, 20, 28)
    assert (thermal.growth_mm(52, 23.1e-6, 20, 28) - scale) * 1000 == pytest.approx(4.8256, abs=5e-5)


@pytest.mark.authority
def test_published_exercise_of_a_piston_in_a_bore() -> None:
    """Ø80 aluminium 19e-6 in iron 10e-6, radial 0.75 at 15 °C, at 120 °C: inputs read, result computed by hand."""
    piston, bore = thermal.growth_mm(80, 19e-6, 15, 120), thermal.growth_mm(81.5, 10e-6, 15, 120)
    assert (piston, bore) == (pytest.approx(0.15960, abs=5e-6), pytest.approx(0.085575, abs=5e-7))
    assert 1.5 + bore - piston == pytest.approx(1.425975, abs=5e-7)
    assert pi / 4 * ((80 + piston) ** 2 - 80**2) == pytest.approx(20.076, abs=5e-4)


def test_a_uniform_hot_piston_is_too_crude() -> None:
    assert thermal.hot_clearance_mm(60.040, 10.5e-6, 120, 60, 20.5e-6, 180) == pytest.approx(-0.0938, abs=2e-4)


@pytest.mark.authority
@pytest.mark.parametrize(("bore", "gap"), [(0.05, 0.157080), (0.10, 0.314159)])
def test_end_gap(bore: float, gap: float) -> None:
    assert rings.gap_change_mm(bore) == pytest.approx(gap, abs=5e-7)
    assert rings.gap_change_mm(0, face_wear_mm=bore / 2) == pytest.approx(gap, abs=5e-7)


def test_hot_gap() -> None:
    assert rings.hot_gap_mm(0.24, 60, 11e-6, 200, 10.5e-6, 120) == pytest.approx(0.24 - 0.1753, abs=5e-5)
    assert rings.hot_gap_mm(0.24, 60, 11e-6, 200, 21e-6, 120) == pytest.approx(0.24 + 0.0226, abs=5e-5)
    assert rings.usual_gap_mm(60) == pytest.approx(0.24)


def test_clearances_may_be_negative() -> None:
    assert rings.side_clearance_mm(1.20, 1.22) == pytest.approx(-0.02)
    assert rings.piston_clearance_mm(87.99, 88.0) == pytest.approx(-0.01)


@given(st.floats(-1, 1), st.floats(0, 0.5))
def test_gap_and_bore_are_inverse(change: float, worn: float) -> None:
    assert rings.bore_change_mm(rings.gap_change_mm(change, worn), worn) == pytest.approx(change, abs=1e-12)


@given(st.floats(1, 200), st.floats(5e-6, 25e-6), st.floats(-0.05, 0.05), st.floats(0.001, 0.05))
def test_the_warm_housing_takes_its_part(hole: float, rate: float, fit: float, room: float) -> None:
    warm = thermal.temperature_to_fit_c(hole, rate, hole + fit, 5.0, 12e-6, room)
    if warm > -250:
        assert thermal.hot_clearance_mm(hole, rate, warm, hole + fit, 12e-6, 5.0) == pytest.approx(room, abs=1e-9)
