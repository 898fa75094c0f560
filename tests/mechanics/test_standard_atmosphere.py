"""The standard atmosphere, ISO 2533:1975 (the same in the U.S. Standard Atmosphere 1976 up to 11 km).

Published table in psia against feet (grade A; one circulated entry, 4000 ft = 12.682, is a misprint: formula and two
programs give 12.692). Programs `ambiance` (geometric height) and `fluids` as independent routes.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics import air

PSI, FOOT = 6.894757293168361, 0.3048
PRINTED_PSIA = {1000: 14.175, 2000: 13.664, 3000: 13.173, 6000: 11.778, 8000: 10.914, 10000: 10.108}
GEOMETRIC_PA = {500: 95461.29, 1000: 89876.28, 1500: 84559.67, 2000: 79501.4, 3000: 70121.1}


@pytest.mark.authority
@pytest.mark.parametrize(("feet", "psia"), PRINTED_PSIA.items())
def test_printed_in_psia(feet: float, psia: float) -> None:
    assert air.standard_pressure_kpa(feet * FOOT) / PSI == pytest.approx(psia, abs=0.003)


def test_the_circulated_4000_ft_is_a_misprint() -> None:
    found = air.standard_pressure_kpa(4000 * FOOT) / PSI
    assert found == pytest.approx(12.692, abs=0.002)
    assert abs(found - 12.682) > 0.008


def test_the_circulated_temperature_at_4572_m_is_a_misprint() -> None:
    assert air.standard_temperature_c(4572) == pytest.approx(-14.7, abs=0.05)


@pytest.mark.authority
@pytest.mark.parametrize(("metres", "pascal"), GEOMETRIC_PA.items())
def test_from_a_map(metres: float, pascal: float) -> None:
    assert air.ambient_kpa(metres) * 1000 == pytest.approx(pascal, abs=0.06)


@pytest.mark.authority
def test_geopotential() -> None:
    assert air.standard_pressure_kpa(1000) * 1000 == pytest.approx(89874.56, abs=0.02)
    assert air.standard_pressure_kpa(2000) * 1000 == pytest.approx(79495.20, abs=0.02)
    assert air.standard_temperature_c(air.geopotential_m(1000)) + 273.15 == pytest.approx(281.651, abs=5e-4)
    assert air.standard_density_kg_m3(air.geopotential_m(1000)) == pytest.approx(1.11166, abs=5e-5)


@pytest.mark.authority
@pytest.mark.parametrize("metres", [-1000, 0, 350, 1120, 2650, 5000, 10500])
def test_against_two_programs(metres: float) -> None:
    import ambiance
    import fluids

    theirs, other = ambiance.Atmosphere(metres), fluids.ATMOSPHERE_1976(metres)
    assert air.ambient_kpa(metres) * 1000 == pytest.approx(float(theirs.pressure[0]), rel=2e-6)
    assert air.ambient_kpa(metres) * 1000 == pytest.approx(other.P, rel=2e-6)
    assert air.geopotential_m(metres) == pytest.approx(float(theirs.H[0]), abs=0.01)
    assert air.standard_temperature_c(air.geopotential_m(metres)) + 273.15 == pytest.approx(other.T, abs=1e-3)
    assert air.standard_density_kg_m3(air.geopotential_m(metres)) == pytest.approx(other.rho, rel=1e-4)


def test_gauge_readings_at_sea_level() -> None:
    """Pinned: 9.0 bar at 1500 m is 10.784396 bar at sea level; adding the missing ambient would give only 9.168."""
    assert air.gauge_at_sea_level_kpa(900, air.ambient_kpa(1500)) / 100 == pytest.approx(10.784396, abs=5e-6)


@pytest.mark.parametrize(("book", "here"), [(1300, 1136), (1500, 1311), (1200, 1049)])
def test_book_values_at_1120_m(book: float, here: float) -> None:
    assert air.gauge_at_ambient_kpa(book, air.ambient_kpa(1120)) == pytest.approx(here, abs=0.6)


@given(st.floats(-1900, 10900))
def test_heights_come_back(metres: float) -> None:
    assert air.pressure_altitude_m(air.standard_pressure_kpa(metres)) == pytest.approx(metres, abs=1e-6)
    assert air.geometric_m(air.geopotential_m(metres)) == pytest.approx(metres, abs=1e-6)


@given(st.floats(0, 3000), st.floats(30, 120))
def test_gauge_readings_come_back(gauge: float, ambient: float) -> None:
    sea = air.gauge_at_sea_level_kpa(gauge, ambient)
    assert air.gauge_at_ambient_kpa(sea, ambient) == pytest.approx(gauge, abs=1e-8)
    assert (sea + 101.325) / 101.325 == pytest.approx((gauge + ambient) / ambient, rel=1e-12)
