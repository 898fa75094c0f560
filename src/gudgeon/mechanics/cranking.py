"""What a compression gauge should show: by one exponent where a guess will do, by a cycle with a leak where it is asked.

The gauge shows the peak of a slowly turned cylinder. It depends on the *effective* ratio (intake closing), on the ambient
pressure, and on how much air and heat are lost before the top, more of both the slower it turns.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import log, pi, sqrt

from gudgeon.mechanics._given import above, at_least, between, positive
from gudgeon.mechanics.crank import top_centre_deg, true_stroke_mm, volume_ratio
from gudgeon.mechanics.leak import GAMMA, GAS_CONSTANT, flow_function
from gudgeon.mechanics.volumes import displacement_cm3

STEPS = 1440


@dataclass(frozen=True, slots=True, kw_only=True)
class Peak:
    """The highest pressure of a cranked cylinder, where it stood, and the share of the air still there at the top."""

    pressure_kpa: float
    before_top_deg: float
    mass_left: float


def compressed_kpa(ratio: float, exponent: float, ambient_kpa: float) -> float:
    """Pressure after compression without a leak, absolute.

    p₂ = p₁·rⁿ

    Parameters
    ----------
    ratio : r, effective volume ratio
    exponent : n, γ where no heat is lost; 1.2 to 1.35 measured while cranking (common practice, no source)
    ambient_kpa : p₁, absolute

    Notes
    -----
    Valid for r ≥ 1 and 1 ≤ n ≤ 1.67. The gauge shows p₂ − p₁.

    Source
    ------
    Polytropic change, any textbook of thermodynamics; Balmer, Modern Engineering Thermodynamics, Ex. 11.12 as a check.

    Examples
    --------
    >>> round(compressed_kpa(8.66774587, exponent=1.3, ambient_kpa=101.325) - 101.325, 1)
    1577.5
    """
    volumes, power = _ratio(ratio), _exponent(exponent)
    return float(positive("ambient", ambient_kpa, unit="kPa absolute") * volumes**power)


def compressed_c(ratio: float, exponent: float, start_c: float) -> float:
    """Temperature after compression without a leak.

    T₂ = T₁·r^(n − 1), in kelvin

    Parameters
    ----------
    ratio, exponent : r, n as for `compressed_kpa`
    start_c : T₁

    Notes
    -----
    Valid for r ≥ 1 and 1 ≤ n ≤ 1.67.

    Source
    ------
    As `compressed_kpa`.

    Examples
    --------
    >>> round(compressed_c(18, exponent=1.4, start_c=27) + 273.15, 1)
    953.8
    """
    kelvin = above("temperature", start_c, -273.15, unit="°C") + 273.15
    return float(kelvin * _ratio(ratio) ** (_exponent(exponent) - 1) - 273.15)


def exponent_from_pressures(ratio: float, peak_kpa: float, ambient_kpa: float) -> float:
    """Exponent that a measured compression amounts to: the inverse of `compressed_kpa`.

    n = ln(p₂/p₁)/ln r

    Parameters
    ----------
    ratio : r > 1
    peak_kpa, ambient_kpa : p₂ ≥ p₁, absolute

    Notes
    -----
    It gathers heat, leaks and the gauge's own volume in one number.

    Source
    ------
    `compressed_kpa` solved for n.

    Examples
    --------
    >>> round(exponent_from_pressures(9.0, peak_kpa=1762.917, ambient_kpa=101.325), 4)
    1.3
    """
    return log(_rise(peak_kpa, ambient_kpa)) / log(above("ratio", ratio, 1.0))


def ratio_from_pressures(exponent: float, peak_kpa: float, ambient_kpa: float) -> float:
    """Effective ratio that a measured compression amounts to: the inverse of `compressed_kpa`.

    r = (p₂/p₁)^(1/n)

    Parameters
    ----------
    exponent : n > 1
    peak_kpa, ambient_kpa : p₂ ≥ p₁, absolute

    Notes
    -----
    As good as n, which is seldom known to 0.05: good to 10 %, no better.

    Source
    ------
    `compressed_kpa` solved for r.

    Examples
    --------
    >>> round(ratio_from_pressures(1.3, peak_kpa=1762.917, ambient_kpa=101.325), 3)
    9.0
    """
    return float(_rise(peak_kpa, ambient_kpa) ** (1 / _exponent(exponent)))


def leaking_compression(
    *,
    bore_mm: float,
    stroke_mm: float,
    rod_mm: float,
    ratio: float,
    speed_rpm: float,
    leak_mm: float,
    discharge: float = 0.8,
    ambient_kpa: float = 101.325,
    start_c: float = 20.0,
    exponent: float = GAMMA,
    intake_closes_deg: float = 0.0,
    offset_mm: float = 0.0,
) -> Peak:
    """Peak of one compression stroke of a cylinder with a hole in it.

    dm/dθ = −Cd·A·p/√(R·T)·Ψ(p_a/p)/ω; the air that stays follows p = p_a·(ρ/ρ_a)ⁿ

    Parameters
    ----------
    bore_mm, stroke_mm, rod_mm, offset_mm : B, S, L, e
    ratio : r, the geometric one
    speed_rpm : crank, steady
    leak_mm : diameter of the hole, A = π·D²/4
    discharge : Cd
    ambient_kpa, start_c : absolute pressure and temperature at the moment of closing
    exponent : n, γ where no heat is lost
    intake_closes_deg : after the bottom

    Notes
    -----
    Ideal gas, one uniform cylinder, outflow only, so that the remaining air is compressed as if alone. Depends on
    Cd·A/N only. With a leak the peak comes before the top. Valid for r > 1, L > S/2 + |e|, 0° ≤ closing < 180°.

    Source
    ------
    First law for an open system, d(mu) = −p·dV + h·dm; Heywood, app. C for Ψ (from memory). Compared with a full
    two-equation solution and with a reactor network of variable specific heat.

    Examples
    --------
    >>> peak = leaking_compression(bore_mm=60, stroke_mm=50, rod_mm=100, ratio=9, speed_rpm=500, leak_mm=1.0)
    >>> round(peak.pressure_kpa / 100, 2), round(peak.mass_left, 3)
    (17.56, 0.849)
    """
    closes = between("intake-closes", intake_closes_deg, 0.0, 180.0, unit="°", ends="[)")
    bore = positive("bore", bore_mm, unit="mm")
    area = pi / 4 * between("leak", leak_mm, 0.0, bore, unit="mm") ** 2 * 1e-6
    opening = area * between("discharge", discharge, 0.0, 1.0, ends="(]")
    ambient, power = positive("ambient", ambient_kpa, unit="kPa absolute"), _exponent(exponent)
    sonic = sqrt(GAS_CONSTANT * (above("temperature", start_c, -273.15, unit="°C") + 273.15))
    swept = displacement_cm3(bore, true_stroke_mm(stroke_mm, rod_mm, offset_mm)) * 1e-6
    start, stop = 180.0 + closes, 360.0 + top_centre_deg(stroke_mm, rod_mm, offset_mm)
    at_closing = volume_ratio(start, ratio, stroke_mm, rod_mm, offset_mm)
    volume = swept / (above("ratio", ratio, 1.0) - 1) * at_closing
    per_degree = opening * sonic / (volume * positive("speed", speed_rpm, unit="/min") * 6)

    def squeeze(angle_deg: float) -> float:
        return at_closing / volume_ratio(angle_deg, ratio, stroke_mm, rod_mm, offset_mm)

    rise, angle, left = _peak(squeeze, per_degree, power, start, stop)
    return Peak(pressure_kpa=ambient * rise, before_top_deg=stop - angle, mass_left=left)


def _peak(
    squeeze: Callable[[float], float], per_degree: float, power: float, start: float, stop: float
) -> tuple[float, float, float]:
    """Highest p/p_a, its angle, and the share of air left at the end: one equation, fourth-order Runge-Kutta."""

    def slope(density: float) -> float:
        rise = max(1.0, density**power)
        return -per_degree * sqrt(rise * max(1.0, density)) * flow_function(1 / rise)

    step, share, best, here = (stop - start) / STEPS, 1.0, (1.0, start), squeeze(start)
    for nth in range(STEPS):
        middle, there = squeeze(start + (nth + 0.5) * step), squeeze(start + (nth + 1) * step)
        first = slope(share * here)
        second = slope((share + step / 2 * first) * middle)
        third = slope((share + step / 2 * second) * middle)
        last = slope((share + step * third) * there)
        share, here = share + step / 6 * (first + 2 * second + 2 * third + last), there
        best = max(best, ((share * here) ** power, start + (nth + 1) * step))
    return best[0], best[1], share


def _ratio(ratio: float) -> float:
    return at_least("ratio", ratio, 1.0)


def _exponent(exponent: float) -> float:
    return between("exponent", exponent, 1.0, 5 / 3)


def _rise(peak_kpa: float, ambient_kpa: float) -> float:
    start = positive("ambient", ambient_kpa, unit="kPa absolute")
    return at_least("peak", peak_kpa, start, unit="kPa absolute") / start
