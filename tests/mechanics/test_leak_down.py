"""Leak-down: two orifices in series, and FAA AC 43.13-1B, ch. 8, §8-14 for the tester (orifice 0.040 in, 80 psi).

Grade: the tester's data and the choking limit of 35.30 psig under 80 psig were read; the table follows from the
isentropic orifice formula and was computed apart from this code. `fluids` for the critical pressure.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics import leak
from gudgeon.problem import Refused

PSI = 6.894757293168361
SEA = 14.696 * PSI
FEET_5000 = 12.228 * PSI
AREAS = [(78, 2.5, 0.30314, 0.5594), (76, 5, 0.43306, 0.6686), (70, 12.5, 0.70669, 0.8541), (61.767, 22.79, 1, 1.0160),
         (60, 25, 1.05856, 1.0453), (20, 75, 2.72931, 1.6785)]  # fmt: skip


@pytest.mark.authority
@pytest.mark.parametrize(("cylinder", "loss", "area", "diameter"), AREAS)
def test_two_orifices(cylinder: float, loss: float, area: float, diameter: float) -> None:
    assert leak.loss_percent(80 * PSI, cylinder * PSI) == pytest.approx(loss, abs=0.005)
    assert leak.leak_area_ratio(80 * PSI, cylinder * PSI, SEA) == pytest.approx(area, abs=2e-5)
    hole = leak.leak_diameter_mm(supply_kpa=80 * PSI, cylinder_kpa=cylinder * PSI, orifice_mm=1.016, ambient_kpa=SEA)
    assert hole == pytest.approx(diameter, abs=1e-4)


@pytest.mark.authority
@pytest.mark.parametrize(
    ("supply", "ambient", "loss"), [(80, SEA, 1.607), (100, SEA, 1.557), (60, SEA, 1.690), (80, FEET_5000, 1.565)]
)
def test_half_a_millimetre(supply: float, ambient: float, loss: float) -> None:
    found = leak.leak_down_percent(leak_mm=0.5, supply_kpa=supply * PSI, orifice_mm=1.016, ambient_kpa=ambient)
    assert found == pytest.approx(loss, abs=6e-4)


def test_sixty_of_eighty_is_not_a_leak_as_large_as_the_orifice() -> None:
    assert leak.leak_down_percent(
        leak_mm=1.016, supply_kpa=80 * PSI, orifice_mm=1.016, ambient_kpa=SEA
    ) == pytest.approx(100 * (80 - 61.767) / 80, abs=0.005)
    incompressible = ((80 - 60) / 60) ** 0.5
    assert incompressible / leak.leak_area_ratio(80 * PSI, 60 * PSI, SEA) == pytest.approx(0.545, abs=0.005)


@pytest.mark.authority
def test_where_an_orifice_chokes() -> None:
    import fluids

    assert leak.critical_ratio() == pytest.approx(0.5282818, abs=5e-8)
    assert leak.flow_function(0.1) == pytest.approx(0.6847315, abs=5e-8)
    limit = leak.critical_ratio() * (80 + 14.696) - 14.696
    assert limit == pytest.approx(35.30, abs=0.05)
    assert limit + 14.696 == pytest.approx(fluids.P_critical_flow(80 + 14.696, 1.4), rel=1e-12)


def test_iso_6358_has_nearly_the_same_shape() -> None:
    """The ellipse of ISO 6358 with b = 0.528 lies 0.02 to 0.3 % below the isentropic curve (from memory, computed)."""
    for ratio in (0.6, 0.7, 0.8, 0.9, 0.95):
        ellipse = (1 - ((ratio - 0.528) / (1 - 0.528)) ** 2) ** 0.5
        assert 1e-4 < 1 - ellipse / (leak.flow_function(ratio) / leak.flow_function(0)) < 4e-3


@given(st.floats(0.02, 8), st.floats(60, 1000), st.floats(0.5, 3), st.floats(50, 110))
def test_percent_and_diameter_are_inverse(hole: float, supply: float, orifice: float, ambient: float) -> None:
    percent = leak.leak_down_percent(leak_mm=hole, supply_kpa=supply, orifice_mm=orifice, ambient_kpa=ambient)
    cylinder = supply * (1 - percent / 100)
    back = leak.leak_diameter_mm(supply_kpa=supply, cylinder_kpa=cylinder, orifice_mm=orifice, ambient_kpa=ambient)
    assert back == pytest.approx(hole, rel=1e-6)


@given(st.floats(0.05, 5), st.floats(0.05, 5))
def test_a_larger_hole_loses_more(one: float, other: float) -> None:
    small, large = sorted((one, other))
    found = [leak.leak_down_percent(leak_mm=d, supply_kpa=550, orifice_mm=1.0, ambient_kpa=100) for d in (small, large)]
    assert found[0] <= found[1]


def test_no_leak_loses_nothing() -> None:
    assert leak.leak_down_percent(leak_mm=0, supply_kpa=690, orifice_mm=1.016, ambient_kpa=100) == pytest.approx(
        0, abs=1e-9
    )


def test_a_percentage_is_not_compared_without_orifice_and_supply() -> None:
    known = {
        "supply_kpa": 690.0,
        "orifice_mm": 1.016,
        "ambient_kpa": 100.0,
        "to_supply_kpa": 550.0,
        "to_orifice_mm": 1.5,
    }
    assert 0 < leak.percent_on_another_tester(20, **known) < 20
    same = {**known, "to_supply_kpa": 690.0, "to_orifice_mm": 1.016}
    assert leak.percent_on_another_tester(20, **same) == pytest.approx(20, abs=1e-6)
    for name in ("supply_kpa", "orifice_mm", "to_supply_kpa", "to_orifice_mm"):
        with pytest.raises(Refused, match="not comparable"):
            leak.percent_on_another_tester(20, **{**known, name: None})  # type: ignore[arg-type]
