"""Where the air goes: a leak-down percentage says how large a hole is only beside the tester's orifice and supply.

Pressures are absolute in the flow functions, above ambient (gauge) where a tester shows them; each name says which.
"""

from __future__ import annotations

from math import pi, sqrt

from gudgeon.mechanics._given import above, between, positive
from gudgeon.problem import refuse

GAMMA = 1.4
GAS_CONSTANT = 287.05


def critical_ratio(gamma: float = GAMMA) -> float:
    """Pressure ratio below which an orifice is choked.

    r* = (2/(γ + 1))^(γ/(γ − 1))

    Parameters
    ----------
    gamma : γ, ratio of specific heats

    Notes
    -----
    Valid for 1.01 ≤ γ ≤ 5/3; ideal gas.

    Source
    ------
    Balmer, Modern Engineering Thermodynamics, ch. 16; Heywood, Internal Combustion Engine Fundamentals, app. C (both
    from memory).

    Examples
    --------
    >>> round(critical_ratio(), 7)
    0.5282818
    """
    gas = between("gamma", gamma, 1.01, 5 / 3)
    return float((2 / (gas + 1)) ** (gas / (gas - 1)))


def flow_function(pressure_ratio: float, gamma: float = GAMMA) -> float:
    """Flow through an orifice, made dimensionless; constant once choked.

    Ψ(r) = √(2γ/(γ − 1)·(r^(2/γ) − r^((γ+1)/γ))), r limited below by r*

    Parameters
    ----------
    pressure_ratio : r, absolute pressure behind over before the orifice
    gamma : γ

    Notes
    -----
    Isentropic, quasi-steady, ideal gas; valid for 0 ≤ r ≤ 1 and 1.01 ≤ γ ≤ 5/3.

    Source
    ------
    Heywood, app. C, eq. C.8 and C.9 (from memory).

    Examples
    --------
    >>> round(flow_function(0.3), 7)
    0.6847315
    """
    ratio = max(between("pressure ratio", pressure_ratio, 0.0, 1.0), critical_ratio(gamma))
    return sqrt(2 * gamma / (gamma - 1) * max(0.0, ratio ** (2 / gamma) - ratio ** ((gamma + 1) / gamma)))


def orifice_flow_kg_s(
    *,
    diameter_mm: float,
    before_kpa: float,
    behind_kpa: float,
    temperature_c: float,
    discharge: float = 1.0,
    gamma: float = GAMMA,
    gas_constant: float = GAS_CONSTANT,
) -> float:
    """Mass flow through an orifice.

    ṁ = Cd·A·p₀/√(R·T₀)·Ψ(p/p₀)

    Parameters
    ----------
    diameter_mm : of the orifice, A = π·D²/4
    before_kpa, behind_kpa : p₀, p, absolute
    temperature_c : before the orifice, T₀ in kelvin
    discharge : Cd, above 0 to 1
    gamma, gas_constant : γ, R in J/(kg·K)

    Notes
    -----
    Isentropic, quasi-steady, ideal gas; valid for p ≤ p₀.

    Source
    ------
    Heywood, app. C (from memory); Balmer, Modern Engineering Thermodynamics, Ex. 16.12 as a check.

    Examples
    --------
    >>> round(orifice_flow_kg_s(diameter_mm=20, before_kpa=7000, behind_kpa=101, temperature_c=2000), 2)
    1.86
    """
    before = positive("pressure before", before_kpa, unit="kPa absolute")
    behind = between("pressure behind", behind_kpa, 0.0, before, unit="kPa absolute")
    kelvin = above("temperature", temperature_c, -273.15, unit="°C") + 273.15
    area = pi / 4 * (positive("diameter", diameter_mm, unit="mm") / 1000) ** 2
    opening = between("discharge", discharge, 0.0, 1.0, ends="(]") * area
    constant = positive("gas constant", gas_constant, unit="J/(kg·K)")
    return opening * before * 1000 / sqrt(constant * kelvin) * flow_function(behind / before, gamma)


def loss_percent(supply_kpa: float, cylinder_kpa: float) -> float:
    """What a leak tester shows.

    loss = 100·(p_s − p_c)/p_s

    Parameters
    ----------
    supply_kpa, cylinder_kpa : p_s, p_c, both gauge

    Notes
    -----
    Valid for 0 ≤ p_c ≤ p_s.

    Source
    ------
    Definition; common practice.

    Examples
    --------
    >>> loss_percent(80, 60)
    25.0
    """
    supply = positive("supply", supply_kpa, unit="kPa gauge")
    cylinder = between("cylinder", cylinder_kpa, 0.0, supply, unit="kPa gauge")
    return 100 * (supply - cylinder) / supply


def leak_area_ratio(supply_kpa: float, cylinder_kpa: float, ambient_kpa: float) -> float:
    """Area of the leak over the area of the tester's orifice.

    A_leak/A_test = (p_s/p_c)·Ψ(p_c/p_s)/Ψ(p_a/p_c), all absolute

    Parameters
    ----------
    supply_kpa, cylinder_kpa : gauge, as the tester shows them
    ambient_kpa : p_a, absolute

    Notes
    -----
    Two orifices in series, steady, same temperature and discharge coefficient. Valid for 0 < p_c ≤ p_s. Equal areas
    read 61.77 psi of 80, not 60; √((p_s − p_c)/p_c), without compressibility, is wrong by 45 % there.

    Source
    ------
    Equal mass flow through both; `flow_function`.

    Examples
    --------
    >>> round(leak_area_ratio(80 * 6.894757, 60 * 6.894757, 101.325), 4)
    1.0586
    """
    ambient = positive("ambient", ambient_kpa, unit="kPa absolute")
    gauge = positive("supply", supply_kpa, unit="kPa gauge")
    supply = gauge + ambient
    cylinder = between("cylinder", cylinder_kpa, 1e-9 * ambient, gauge, unit="kPa gauge") + ambient
    return supply / cylinder * flow_function(cylinder / supply) / flow_function(ambient / cylinder)


def leak_diameter_mm(*, supply_kpa: float, cylinder_kpa: float, orifice_mm: float, ambient_kpa: float) -> float:
    """Diameter of one hole that leaks as much as all leaks of the cylinder.

    D = D_test·√(A_leak/A_test)

    Parameters
    ----------
    supply_kpa, cylinder_kpa : gauge, as the tester shows them
    orifice_mm : D_test, bore of the tester's orifice
    ambient_kpa : absolute

    Notes
    -----
    As `leak_area_ratio`.

    Source
    ------
    `leak_area_ratio`.

    Examples
    --------
    >>> psi = 6.894757
    >>> round(leak_diameter_mm(supply_kpa=80 * psi, cylinder_kpa=60 * psi, orifice_mm=1.016, ambient_kpa=101.325), 4)
    1.0453
    """
    return positive("orifice", orifice_mm, unit="mm") * sqrt(leak_area_ratio(supply_kpa, cylinder_kpa, ambient_kpa))


def leak_down_percent(*, leak_mm: float, supply_kpa: float, orifice_mm: float, ambient_kpa: float) -> float:
    """Percentage that a tester shows for a hole of this diameter: the inverse of `leak_diameter_mm`.

    `leak_area_ratio` solved for p_c by bisection; it falls steadily as p_c rises.

    Parameters
    ----------
    leak_mm : diameter of the leak, zero for none, up to a hundred times the orifice
    supply_kpa : gauge
    orifice_mm : bore of the tester's orifice
    ambient_kpa : absolute

    Notes
    -----
    As `leak_area_ratio`.

    Source
    ------
    `leak_area_ratio`.

    Examples
    --------
    >>> psi = 6.894757
    >>> round(leak_down_percent(leak_mm=0.5, supply_kpa=80 * psi, orifice_mm=1.016, ambient_kpa=101.325), 3)
    1.607
    """
    orifice = positive("orifice", orifice_mm, unit="mm")
    wanted = (between("leak", leak_mm, 0.0, 100 * orifice, unit="mm") / orifice) ** 2
    low, high = 0.0, positive("supply", supply_kpa, unit="kPa gauge")
    while low < (middle := (low + high) / 2) < high:
        low, high = (middle, high) if leak_area_ratio(supply_kpa, middle, ambient_kpa) > wanted else (low, middle)
    return loss_percent(supply_kpa, high)


def percent_on_another_tester(
    percent: float,
    *,
    supply_kpa: float | None,
    orifice_mm: float | None,
    ambient_kpa: float,
    to_supply_kpa: float | None,
    to_orifice_mm: float | None,
) -> float:
    """What another tester would show for the same leak; refused where orifice or supply of either is not known.

    leak diameter from the first tester, then `leak_down_percent` on the second

    Parameters
    ----------
    percent : shown by the first tester
    supply_kpa, orifice_mm : of the first tester, gauge; None where not known
    ambient_kpa : absolute
    to_supply_kpa, to_orifice_mm : of the second tester

    Notes
    -----
    As `leak_area_ratio`. A percentage without orifice and supply is not comparable with any other.

    Source
    ------
    `leak_diameter_mm` and `leak_down_percent`.

    Examples
    --------
    >>> psi = 6.894757
    >>> round(percent_on_another_tester(25, supply_kpa=80 * psi, orifice_mm=1.016, ambient_kpa=101.325,
    ...                                 to_supply_kpa=80 * psi, to_orifice_mm=1.524), 2)
    5.86
    """
    supply, orifice = _known("supply", supply_kpa), _known("orifice", orifice_mm)
    to_supply, to_orifice = _known("to-supply", to_supply_kpa), _known("to-orifice", to_orifice_mm)
    cylinder = supply * (1 - between("percent", percent, 0.0, 100.0, unit="%", ends="[)") / 100)
    leak = leak_diameter_mm(supply_kpa=supply, cylinder_kpa=cylinder, orifice_mm=orifice, ambient_kpa=ambient_kpa)
    return leak_down_percent(leak_mm=leak, supply_kpa=to_supply, orifice_mm=to_orifice, ambient_kpa=ambient_kpa)


def _known(name: str, value: float | None) -> float:
    if value is None:
        raise refuse(
            name,
            "not given, and a leak-down percentage depends on it.",
            "Give supply pressure and orifice diameter of both testers; percentages without them are not comparable.",
        )
    return positive(name, value)
