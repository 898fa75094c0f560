"""Where the piston is: squish, effective compression and valve-to-piston room all follow from the slider-crank.

The crank angle is zero where the crank points along the bore, not where the piston is highest; the two differ when the
bore axis (or the pin) is offset. The offset is positive towards the side that the crank pin moves to after the top.
"""

from __future__ import annotations

from math import acos, asin, atan2, cos, degrees, hypot, pi, radians, sin, sqrt

from gudgeon.mechanics._given import above, between, finite, not_negative, positive
from gudgeon.problem import refuse


def piston_travel_mm(angle_deg: float, stroke_mm: float, rod_mm: float, offset_mm: float = 0.0) -> float:
    """Travel of the piston down from its highest place.

    x = √((L + a)² − e²) − a·cos θ − √(L² − (a·sin θ − e)²), a = S/2

    Parameters
    ----------
    angle_deg : θ, crank angle, zero where the crank points along the bore
    stroke_mm : S, twice the crank radius a
    rod_mm : L, centre to centre
    offset_mm : e, bore axis beside the crank axis

    Notes
    -----
    Valid for L > a + |e|; rigid parts, no clearances.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, eq. 2.4 to 2.6 for e = 0 (from memory); with offset by geometry.

    Examples
    --------
    >>> round(piston_travel_mm(90, stroke_mm=50, rod_mm=100), 5)
    28.17542
    """
    radius, rod, offset = _crank(stroke_mm, rod_mm, offset_mm)
    angle = radians(finite("angle", angle_deg))
    return (
        sqrt((rod + radius) ** 2 - offset**2) - radius * cos(angle) - sqrt(rod**2 - (radius * sin(angle) - offset) ** 2)
    )


def angle_at_travel_deg(travel_mm: float, stroke_mm: float, rod_mm: float, offset_mm: float = 0.0) -> float:
    """Crank angle on the way down at which the piston has travelled so far: the inverse of `piston_travel_mm`.

    y = √((L + a)² − e²) − x, d = √(y² + e²), θ = atan2(e, y) + arccos((a² + d² − L²)/(2·a·d))

    Parameters
    ----------
    travel_mm : x, from the highest place, at most the true stroke
    stroke_mm, rod_mm, offset_mm : S, L, e as for `piston_travel_mm`

    Notes
    -----
    Valid for L > a + |e| and x between zero and the true stroke.

    Source
    ------
    Cosine rule in the triangle of crank, rod and the line from crank axis to pin.

    Examples
    --------
    >>> round(angle_at_travel_deg(28.175421, stroke_mm=50, rod_mm=100), 4)
    90.0
    """
    radius, rod, offset = _crank(stroke_mm, rod_mm, offset_mm)
    travel = between("travel", travel_mm, 0.0, true_stroke_mm(stroke_mm, rod_mm, offset_mm), unit="mm")
    height = sqrt((rod + radius) ** 2 - offset**2) - travel
    reach = hypot(height, offset)
    cosine = (radius**2 + reach**2 - rod**2) / (2 * radius * reach)
    return degrees(atan2(offset, height) + acos(max(-1.0, min(1.0, cosine))))


def top_centre_deg(stroke_mm: float, rod_mm: float, offset_mm: float = 0.0) -> float:
    """Crank angle at which the piston is highest.

    θ = arcsin(e/(L + a))

    Parameters
    ----------
    stroke_mm, rod_mm, offset_mm : S = 2a, L, e as for `piston_travel_mm`

    Notes
    -----
    Valid for L > a + |e|.

    Source
    ------
    Geometry: crank and rod in one line.

    Examples
    --------
    >>> round(top_centre_deg(stroke_mm=50, rod_mm=100, offset_mm=1), 6)
    0.458371
    """
    radius, rod, offset = _crank(stroke_mm, rod_mm, offset_mm)
    return degrees(asin(offset / (rod + radius)))


def bottom_centre_deg(stroke_mm: float, rod_mm: float, offset_mm: float = 0.0) -> float:
    """Crank angle at which the piston is lowest.

    θ = 180° + arcsin(e/(L − a))

    Parameters
    ----------
    stroke_mm, rod_mm, offset_mm : S = 2a, L, e as for `piston_travel_mm`

    Notes
    -----
    Valid for L > a + |e|. With an offset the way down is longer than 180° (e > 0) or shorter (e < 0).

    Source
    ------
    Geometry: crank folded back along the rod.

    Examples
    --------
    >>> round(bottom_centre_deg(stroke_mm=50, rod_mm=100, offset_mm=1), 6)
    180.763966
    """
    radius, rod, offset = _crank(stroke_mm, rod_mm, offset_mm)
    return 180.0 + degrees(asin(offset / (rod - radius)))


def true_stroke_mm(stroke_mm: float, rod_mm: float, offset_mm: float = 0.0) -> float:
    """Distance between the highest and the lowest place of the piston; longer than twice the crank radius with offset.

    s = √((L + a)² − e²) − √((L − a)² − e²)

    Parameters
    ----------
    stroke_mm, rod_mm, offset_mm : S = 2a, L, e as for `piston_travel_mm`

    Notes
    -----
    Valid for L > a + |e|.

    Source
    ------
    Geometry, from `top_centre_deg` and `bottom_centre_deg`.

    Examples
    --------
    >>> round(true_stroke_mm(stroke_mm=50, rod_mm=100, offset_mm=1), 6)
    50.002667
    """
    radius, rod, offset = _crank(stroke_mm, rod_mm, offset_mm)
    return sqrt((rod + radius) ** 2 - offset**2) - sqrt((rod - radius) ** 2 - offset**2)


def piston_speed_m_s(
    angle_deg: float, stroke_mm: float, rod_mm: float, speed_rpm: float, offset_mm: float = 0.0
) -> float:
    """Speed of the piston, positive on the way down.

    v = ω·[a·sin θ + (a·sin θ − e)·a·cos θ/√(L² − (a·sin θ − e)²)], ω = 2π·N

    Parameters
    ----------
    angle_deg, stroke_mm, rod_mm, offset_mm : θ, S = 2a, L, e as for `piston_travel_mm`
    speed_rpm : N, crank revolutions a minute, steady

    Notes
    -----
    Valid for L > a + |e|.

    Source
    ------
    Derivative of the travel; Heywood eq. 2.11 for e = 0 (from memory).

    Examples
    --------
    >>> round(piston_speed_m_s(90, stroke_mm=50, rod_mm=100, speed_rpm=6000), 6)
    15.707963
    """
    radius, rod, offset = _crank(stroke_mm, rod_mm, offset_mm)
    speed = not_negative("speed", speed_rpm, unit="/min") * 2 * pi / 60
    angle = radians(finite("angle", angle_deg))
    aside = radius * sin(angle) - offset
    return speed * radius * (sin(angle) + aside * cos(angle) / sqrt(rod**2 - aside**2)) / 1000


def mean_piston_speed_m_s(stroke_mm: float, speed_rpm: float) -> float:
    """Mean speed of the piston, the usual measure of how hard it is driven.

    v = 2·S·N

    Parameters
    ----------
    stroke_mm : S
    speed_rpm : N, crank revolutions a minute

    Notes
    -----
    For any rod; with an offset S is the true stroke.

    Source
    ------
    Heywood eq. 2.9 (from memory); definition.

    Examples
    --------
    >>> mean_piston_speed_m_s(stroke_mm=50, speed_rpm=6000)
    10.0
    """
    return 2 * positive("stroke", stroke_mm, unit="mm") * not_negative("speed", speed_rpm, unit="/min") / 60_000


def volume_ratio(angle_deg: float, ratio: float, stroke_mm: float, rod_mm: float, offset_mm: float = 0.0) -> float:
    """Cylinder volume as a multiple of the clearance volume.

    V/Vc = 1 + (r − 1)·x(θ)/s; for e = 0 this is 1 + ½(r − 1)·[R + 1 − cos θ − √(R² − sin² θ)], R = L/a

    Parameters
    ----------
    angle_deg, stroke_mm, rod_mm, offset_mm : θ, S, L, e as for `piston_travel_mm`
    ratio : r, compression ratio

    Notes
    -----
    Valid for r > 1 and L > a + |e|; s is the true stroke.

    Source
    ------
    Heywood eq. 2.6 (from memory).

    Examples
    --------
    >>> round(volume_ratio(60, ratio=8.5, stroke_mm=50, rod_mm=100), 6)
    3.230782
    """
    rise = above("ratio", ratio, 1.0) - 1
    travel = piston_travel_mm(angle_deg, stroke_mm, rod_mm, offset_mm)
    return 1 + rise * travel / true_stroke_mm(stroke_mm, rod_mm, offset_mm)


def _crank(stroke_mm: float, rod_mm: float, offset_mm: float) -> tuple[float, float, float]:
    radius = positive("stroke", stroke_mm, unit="mm") / 2
    rod, offset = between("rod", rod_mm, 0.0, 2000 * radius, unit="mm", ends="(]"), finite("offset", offset_mm)
    if rod <= radius + abs(offset):
        raise refuse(
            "rod",
            "{rod} mm is too short for a crank radius of {radius} mm and an offset of {offset} mm.",
            "Give a rod longer than {least} mm, centre to centre.",
            rod=rod,
            radius=radius,
            offset=offset,
            least=radius + abs(offset),
        )
    return radius, rod, offset
