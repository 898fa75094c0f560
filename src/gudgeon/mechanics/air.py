"""The air an engine breathes: compression read on a mountain cannot be compared with a book written at the sea.

The standard atmosphere counts in *geopotential* height; a map gives geometric height, a little more. Pressures from a
gauge are above ambient: they are made absolute before anything is multiplied.
"""

from __future__ import annotations

from math import exp, log

from gudgeon.mechanics._given import above, between, positive

SEA_LEVEL_KPA = 101.325
SEA_LEVEL_K = 288.15
LAPSE_K_M = 0.0065
GAS_CONSTANT = 287.05287
GRAVITY_M_S2 = 9.80665
EARTH_RADIUS_M = 6_356_766.0
TROPOPAUSE_M = 11_000.0
LOWEST_M = -2_000.0
EXPONENT = GRAVITY_M_S2 / (GAS_CONSTANT * LAPSE_K_M)


def geopotential_m(height_m: float) -> float:
    """Geopotential height of a geometric one (a map's).

    H = r·h/(r + h), r = 6 356 766 m

    Parameters
    ----------
    height_m : h, above mean sea level

    Notes
    -----
    Valid from −2,000 m to 80,000 m.

    Source
    ------
    ISO 2533:1975, 2.3 (from memory); compared with two independent programs of the atmosphere.

    Examples
    --------
    >>> round(geopotential_m(1000), 3)
    999.843
    """
    height = between("altitude", height_m, LOWEST_M, 80_000.0, unit="m")
    return EARTH_RADIUS_M * height / (EARTH_RADIUS_M + height)


def geometric_m(geopotential_height_m: float) -> float:
    """Geometric height of a geopotential one: the inverse of `geopotential_m`.

    h = r·H/(r − H)

    Parameters
    ----------
    geopotential_height_m : H

    Notes
    -----
    Valid from −2,000 m to 80,000 m.

    Source
    ------
    ISO 2533:1975, 2.3 (from memory).

    Examples
    --------
    >>> round(geometric_m(999.843), 2)
    1000.0
    """
    height = between("altitude", geopotential_height_m, LOWEST_M, 80_000.0, unit="m")
    return EARTH_RADIUS_M * height / (EARTH_RADIUS_M - height)


def standard_temperature_c(geopotential_height_m: float) -> float:
    """Temperature of the standard atmosphere.

    T = 288.15 − 0.0065·H, in kelvin

    Parameters
    ----------
    geopotential_height_m : H

    Notes
    -----
    Valid from −2,000 m to 11,000 m.

    Source
    ------
    ISO 2533:1975, table 4 (from memory); the same in the U.S. Standard Atmosphere 1976.

    Examples
    --------
    >>> round(standard_temperature_c(1000), 3)
    8.5
    """
    return SEA_LEVEL_K - LAPSE_K_M * _troposphere(geopotential_height_m) - 273.15


def standard_pressure_kpa(geopotential_height_m: float) -> float:
    """Pressure of the standard atmosphere, absolute.

    p = 101.325·(1 − 0.0065·H/288.15)^(g/(R·0.0065)), exponent 5.25588

    Parameters
    ----------
    geopotential_height_m : H

    Notes
    -----
    Valid from −2,000 m to 11,000 m. The weather moves the real pressure by some 3 %: read a barometer where it matters.

    Source
    ------
    ISO 2533:1975, eq. 12 (from memory); the same in the U.S. Standard Atmosphere 1976.

    Examples
    --------
    >>> round(standard_pressure_kpa(2000), 5)
    79.4952
    """
    share: float = (1 - LAPSE_K_M * _troposphere(geopotential_height_m) / SEA_LEVEL_K) ** EXPONENT
    return SEA_LEVEL_KPA * share


def standard_density_kg_m3(geopotential_height_m: float) -> float:
    """Density of the standard atmosphere.

    ρ = p/(R·T), R = 287.05287 J/(kg·K)

    Parameters
    ----------
    geopotential_height_m : H

    Notes
    -----
    Dry air; valid from −2,000 m to 11,000 m.

    Source
    ------
    ISO 2533:1975, 2.6 (from memory).

    Examples
    --------
    >>> round(standard_density_kg_m3(0), 4)
    1.225
    """
    kelvin = standard_temperature_c(geopotential_height_m) + 273.15
    return 1000 * standard_pressure_kpa(geopotential_height_m) / (GAS_CONSTANT * kelvin)


def ambient_kpa(height_m: float) -> float:
    """Standard ambient pressure at a place, from its height on the map.

    p(H(h)), see `standard_pressure_kpa` and `geopotential_m`

    Parameters
    ----------
    height_m : h, geometric, above mean sea level

    Notes
    -----
    Valid from −2,000 m to 11,000 m.

    Source
    ------
    ISO 2533:1975 (from memory).

    Examples
    --------
    >>> round(ambient_kpa(1120), 2)
    88.58
    """
    return standard_pressure_kpa(geopotential_m(height_m))


def pressure_altitude_m(pressure_kpa: float) -> float:
    """Geopotential height at which the standard atmosphere has this pressure: the inverse of `standard_pressure_kpa`.

    H = (1 − (p/101.325)^(1/5.25588))·288.15/0.0065

    Parameters
    ----------
    pressure_kpa : p, absolute

    Notes
    -----
    Valid from 22.632 kPa (11,000 m) to 127.774 kPa (−2,000 m).

    Source
    ------
    ISO 2533:1975 (from memory), solved for H.

    Examples
    --------
    >>> round(pressure_altitude_m(79.4952), 1)
    2000.0
    """
    lowest, highest = standard_pressure_kpa(TROPOPAUSE_M), standard_pressure_kpa(LOWEST_M)
    pressure = between("pressure", pressure_kpa, lowest, highest, unit="kPa absolute")
    return (1 - exp(log(pressure / SEA_LEVEL_KPA) / EXPONENT)) * SEA_LEVEL_K / LAPSE_K_M


def gauge_at_sea_level_kpa(gauge_kpa: float, ambient_kpa: float) -> float:
    """Compression that the same engine would show at sea level.

    p_g0 = (p_g + p_a)·101.325/p_a − 101.325

    Parameters
    ----------
    gauge_kpa : p_g, read here
    ambient_kpa : p_a, absolute ambient pressure here

    Notes
    -----
    Valid for the same volume ratio, speed and temperature: the ratio of *absolute* pressures is what the engine keeps.
    As p_g = p_a·(rⁿ − 1), the gauge reading grows by the same factor 101.325/p_a.

    Source
    ------
    p₂/p₁ = rⁿ with the same r and n; common practice for the correction.

    Examples
    --------
    >>> round(gauge_at_sea_level_kpa(900.0, ambient_kpa=84.55967), 2)
    1078.44
    """
    return _gauge_elsewhere(gauge_kpa, ambient_kpa, SEA_LEVEL_KPA)


def gauge_at_ambient_kpa(sea_level_gauge_kpa: float, ambient_kpa: float) -> float:
    """Compression to expect here from a value written for sea level: the inverse of `gauge_at_sea_level_kpa`.

    p_g = (p_g0 + 101.325)·p_a/101.325 − p_a

    Parameters
    ----------
    sea_level_gauge_kpa : p_g0, the book's
    ambient_kpa : p_a, absolute ambient pressure here

    Notes
    -----
    Valid for the same volume ratio, speed and temperature.

    Source
    ------
    `gauge_at_sea_level_kpa` solved for p_g.

    Examples
    --------
    >>> round(gauge_at_ambient_kpa(1200.0, ambient_kpa=88.58), 0)
    1049.0
    """
    return _gauge_elsewhere(sea_level_gauge_kpa, SEA_LEVEL_KPA, ambient_kpa)


def _gauge_elsewhere(gauge_kpa: float, from_kpa: float, to_kpa: float) -> float:
    start = positive("ambient", from_kpa, unit="kPa absolute")
    gauge = above("pressure", gauge_kpa, -start, unit="kPa gauge")
    return (gauge + start) * positive("ambient", to_kpa, unit="kPa absolute") / start - to_kpa


def _troposphere(geopotential_height_m: float) -> float:
    return between("altitude", geopotential_height_m, LOWEST_M, TROPOPAUSE_M, unit="m")
