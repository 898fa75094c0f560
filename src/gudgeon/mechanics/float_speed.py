"""Float: the crank speed at which the spring no longer makes the valve follow its cam."""

from __future__ import annotations

from math import pi, sqrt

from gudgeon.mechanics._given import not_negative, positive


def moving_mass_kg(
    valve_kg: float,
    retainer_kg: float,
    spring_kg: float,
    other_kg: float = 0.0,
    inertia_kg_mm2: float = 0.0,
    valve_arm_mm: float = 1.0,
) -> float:
    """Mass that the spring must turn back, seen at the valve, in kg.

    m = m_valve + m_retainer and keepers + m_other + m_spring/3 + I/r²

    Parameters
    ----------
    valve_kg, retainer_kg, spring_kg : valve; retainer with keepers; whole spring
    other_kg : what moves with the tip (bucket, shim, cap)
    inertia_kg_mm2 : moment of inertia of rocker or finger about its pivot
    valve_arm_mm : its arm to the valve, r

    Notes
    -----
    Valid: a spring stretched evenly, no surge; parts on the cam side of a rocker only through their inertia.

    Source
    ------
    Kinetic energy at the valve's speed; the third of the spring: a uniformly stretched spring.

    Examples
    --------
    >>> round(moving_mass_kg(0.045, 0.012, 0.024, other_kg=0.020), 4)
    0.085
    """
    positive("valve", valve_kg, unit="kg")
    masses = (retainer_kg, spring_kg, other_kg, inertia_kg_mm2)
    for name, value in zip(("retainer", "spring", "other", "inertia"), masses, strict=True):
        not_negative(name, value)
    turned_kg = inertia_kg_mm2 / positive("valve-arm", valve_arm_mm, unit="mm") ** 2
    return valve_kg + retainer_kg + other_kg + spring_kg / 3 + turned_kg


def cam_rad_per_s(crank_rpm: float) -> float:
    """Angular speed of a four-stroke cam, in rad/s.

    ω = π·n/60

    Notes
    -----
    Valid: cam at half the crank's speed n.

    Source
    ------
    Definition.

    Examples
    --------
    >>> round(cam_rad_per_s(5786.25), 3)
    302.967
    """
    return pi * not_negative("rpm", crank_rpm, unit="rpm") / 60


def float_rpm(spring_force_n: float, mass_kg: float, deceleration_mm_per_rad2: float) -> float:
    """Crank speed at which a spring force just holds the valve on its cam at one lift, in rpm.

    F = m·|y″|·ω² → n = (60/π)·√(1000·F/(m·|y″|))

    Parameters
    ----------
    spring_force_n : F, at the lift where the deceleration is largest (not at full lift unless that is where it is)
    mass_kg : m, as `moving_mass_kg`
    deceleration_mm_per_rad2 : |y″| per cam radian squared, at the same lift

    Notes
    -----
    Valid: rigid train, no surge, no friction: the true speed is lower. Not a permitted speed.

    Source
    ------
    Newton's second law.

    Examples
    --------
    >>> round(float_rpm(280, 0.085, 35.8879), 0)
    5786.0
    """
    force = positive("force", spring_force_n, unit="N")
    mass = positive("mass", mass_kg, unit="kg")
    per_rad2_m = positive("deceleration", deceleration_mm_per_rad2, unit="mm/rad²") / 1000
    return 60 / pi * sqrt(force / (mass * per_rad2_m))


def force_needed_n(crank_rpm: float, mass_kg: float, deceleration_mm_per_rad2: float) -> float:
    """Spring force that holds the valve on its cam at a crank speed, in N.

    F = m·|y″|·ω²

    Notes
    -----
    Valid: as `float_rpm`, whose inverse it is.

    Source
    ------
    Newton's second law.

    Examples
    --------
    >>> round(force_needed_n(5786.25, 0.085, 35.8879), 2)
    280.0
    """
    mass = positive("mass", mass_kg, unit="kg")
    per_rad2_m = positive("deceleration", deceleration_mm_per_rad2, unit="mm/rad²") / 1000
    return mass * per_rad2_m * cam_rad_per_s(crank_rpm) ** 2
