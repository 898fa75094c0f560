"""Round-wire compression springs: load at the installed and the open height, stress, how far from solid, and surge.

Symbols: d wire, D mean coil diameter, n active coils, Nt total coils, G shear modulus, ρ density, C = D/d.
"""

from __future__ import annotations

from math import pi, sqrt

from gudgeon.mechanics._given import above, finite, not_negative, positive
from gudgeon.problem import refuse


def index(wire_mm: float, mean_diameter_mm: float) -> float:
    """Spring index.

    C = D/d

    Notes
    -----
    Valid: C > 1; makers wind 4 … 20 (common practice, no source).

    Source
    ------
    Definition.

    Check
    -----
    D 22, d 3.2 → 6.875.

    Examples
    --------
    >>> index(3.2, 22)
    6.875
    """
    positive("wire", wire_mm, unit="mm")
    return above("mean-diameter", mean_diameter_mm, wire_mm, unit="mm") / wire_mm


def rate_n_per_mm(wire_mm: float, mean_diameter_mm: float, active_coils: float, shear_modulus_mpa: float) -> float:
    """Spring rate, in N/mm.

    k = G·d⁴/(8·D³·n)

    Notes
    -----
    Valid: D > d, small pitch angle, coils that do not touch.

    Source
    ------
    Torsion of a helical spring; Bhandari, Design of Machine Elements, ch. 10.

    Check
    -----
    Bhandari Ex. 10.2 (d 11, D 55, n 5 → 179.014 N/mm) and Ex. 10.4.

    Examples
    --------
    >>> round(rate_n_per_mm(3.2, 22, 5.5, 81500), 6)
    18.240503
    """
    index(wire_mm, mean_diameter_mm)
    positive("active-coils", active_coils)
    positive("shear-modulus", shear_modulus_mpa, unit="MPa")
    return shear_modulus_mpa * wire_mm**4 / (8 * mean_diameter_mm**3 * active_coils)


def active_coils_for(rate: float, wire_mm: float, mean_diameter_mm: float, shear_modulus_mpa: float) -> float:
    """Number of active coils that gives a rate in N/mm.

    n = G·d⁴/(8·D³·k)

    Notes
    -----
    Valid: as `rate_n_per_mm`, whose inverse it is.

    Source
    ------
    As `rate_n_per_mm`.

    Check
    -----
    Bhandari Ex. 10.4: k 30, d 4, D 24, G 81370 → 6.278549.

    Examples
    --------
    >>> round(active_coils_for(30, 4, 24, 81370), 6)
    6.278549
    """
    return rate_n_per_mm(wire_mm, mean_diameter_mm, positive("rate", rate, unit="N/mm"), shear_modulus_mpa)


def wahl_factor(spring_index: float) -> float:
    """Wahl's correction for curvature and direct shear.

    K = (4C − 1)/(4C − 4) + 0.615/C

    Notes
    -----
    Valid: C > 1.

    Source
    ------
    Wahl; as printed in Bhandari, Design of Machine Elements, ch. 10.

    Check
    -----
    C 6 → 1.2525 (Bhandari Ex. 10.4).

    Examples
    --------
    >>> round(wahl_factor(6), 4)
    1.2525
    """
    c = above("spring index", spring_index, 1.0)
    return (4 * c - 1) / (4 * c - 4) + 0.615 / c


def bergstraesser_factor(spring_index: float) -> float:
    """Bergsträsser's correction, the same as that of EN 13906-1.

    K = (4C + 2)/(4C − 3) = (C + 0.5)/(C − 0.75)

    Notes
    -----
    Valid: C > 1.

    Source
    ------
    EN 13906-1, from memory; identical to Bergsträsser's form.

    Check
    -----
    C 6.875 → 1.204082; independent package at C 10.8243 → 1.1240778.

    Examples
    --------
    >>> round(bergstraesser_factor(6.875), 6)
    1.204082
    """
    c = above("spring index", spring_index, 1.0)
    return (4 * c + 2) / (4 * c - 3)


def stress_mpa(load_n: float, wire_mm: float, mean_diameter_mm: float, factor: float | None = None) -> float:
    """Greatest shear stress in the wire, at the inside of the coil, in MPa; Wahl's factor unless another is given.

    τ = K·8·F·D/(π·d³)

    Notes
    -----
    Valid: elastic; load along the axis.

    Source
    ------
    Bhandari, Design of Machine Elements, ch. 10.

    Check
    -----
    Bhandari Ex. 10.4: 300 N, d 4, D 24 → 358.81 MPa.

    Examples
    --------
    >>> round(stress_mpa(300, 4, 24), 2)
    358.81
    """
    k = wahl_factor(index(wire_mm, mean_diameter_mm)) if factor is None else positive("stress factor", factor)
    return k * 8 * finite("load", load_n) * mean_diameter_mm / (pi * wire_mm**3)


def load_n(free_mm: float, length_mm: float, rate: float) -> float:
    """Load at a length, in N.

    F = k·(L0 − L)

    Notes
    -----
    Valid: linear spring, 0 < L ≤ L0, above solid length (`solid_mm`).

    Source
    ------
    Hooke's law.

    Check
    -----
    K 18.240503, 48 → 38 mm: 182.405 N.

    Examples
    --------
    >>> round(load_n(48, 38, 18.240503), 3)
    182.405
    """
    positive("free-length", free_mm, unit="mm")
    if not 0 < finite("length", length_mm) <= free_mm:
        raise refuse(
            "installed-length",
            "{length} mm was given for a spring of {free} mm free length.",
            "Give a length above 0 and not above the free length.",
            length=length_mm,
            free=free_mm,
        )
    return positive("rate", rate, unit="N/mm") * (free_mm - length_mm)


def rate_from_loads(load_1_n: float, length_1_mm: float, load_2_n: float, length_2_mm: float) -> float:
    """Spring rate from two loads on a spring tester, in N/mm.

    k = (F2 − F1)/(L1 − L2)

    Notes
    -----
    Valid: two different lengths, both between solid and free.

    Source
    ------
    Hooke's law.

    Check
    -----
    Bhandari Ex. 10.4: 150 N at 35, 300 N at 30 mm → 30 N/mm.

    Examples
    --------
    >>> rate_from_loads(150, 35, 300, 30)
    30.0
    """
    difference_mm = finite("length 1", length_1_mm) - finite("length 2", length_2_mm)
    if difference_mm == 0:
        raise refuse("length", "Both loads were read at {given} mm.", "Read at two lengths.", given=length_1_mm)
    return positive("rate", (finite("load 2", load_2_n) - finite("load 1", load_1_n)) / difference_mm, unit="N/mm")


def solid_mm(wire_mm: float, total_coils: float, *, ground: bool = True) -> float:
    """Length with all coils touching, in mm.

    Ls = Nt·d (squared and ground, Nt = n + 2); (Nt + 1)·d (squared or plain, not ground)

    Notes
    -----
    Valid: round wire without coating.

    Source
    ------
    Bhandari, Design of Machine Elements, ch. 10 (end styles).

    Check
    -----
    Nt 7.5, d 3.2 → 24.0 mm.

    Examples
    --------
    >>> solid_mm(3.2, 7.5)
    24.0
    """
    positive("wire", wire_mm, unit="mm")
    positive("total-coils", total_coils)
    return wire_mm * (total_coils if ground else total_coils + 1)


def bind_margin_mm(installed_mm: float, lift_mm: float, solid_length_mm: float) -> float:
    """What is left between the coils, all gaps together, with the valve fully open, in mm; negative is coil bind.

    margin = L_installed − lift − Ls

    Notes
    -----
    Valid: lift at the valve, lash taken off if it counts.

    Source
    ------
    Geometry.

    Check
    -----
    38 − 8.5 − 24 = 5.5 mm.

    Examples
    --------
    >>> bind_margin_mm(38, 8.5, 24)
    5.5
    """
    positive("installed-length", installed_mm, unit="mm")
    return (
        installed_mm - not_negative("lift", lift_mm, unit="mm") - positive("solid length", solid_length_mm, unit="mm")
    )


def active_mass_kg(wire_mm: float, mean_diameter_mm: float, active_coils: float, density_kg_m3: float) -> float:
    """Mass of the active coils, in kg; a third of it moves with the valve.

    m = ρ·(π·d²/4)·(π·D·n)

    Notes
    -----
    Valid: pitch angle neglected.

    Source
    ------
    Geometry; the third: kinetic energy of a uniformly stretched spring.

    Check
    -----
    D 3.2, D 22, n 5.5, ρ 7850 → 23.9991 g.

    Examples
    --------
    >>> round(active_mass_kg(3.2, 22, 5.5, 7850) * 1000, 4)
    23.9991
    """
    index(wire_mm, mean_diameter_mm)
    coils = positive("active-coils", active_coils)
    volume_m3 = pi**2 * wire_mm**2 * mean_diameter_mm * coils / 4 * 1e-9
    return positive("density", density_kg_m3, unit="kg/m³") * volume_m3


def surge_hz(rate: float, mass_kg: float) -> float:
    """First natural frequency of the spring between two seats, in Hz.

    f = ½·√(k/m) = d/(2π·D²·n)·√(G/(2ρ)), m of the active coils

    Notes
    -----
    Valid: both ends seated, no damper coils.

    Source
    ------
    Wave in a uniform spring; EN 13906-1 gives the same with 3560 for the rounded constant 3558.8 (from memory).

    Check
    -----
    435.904 Hz for d 3.2, D 22, n 5.5.

    Examples
    --------
    >>> round(surge_hz(18.240503, 0.02399912), 2)
    435.9
    """
    return sqrt(positive("rate", rate, unit="N/mm") * 1000 / positive("mass", mass_kg, unit="kg")) / 2


def spacer_for_mm(load_now_n: float, load_wanted_n: float, rate: float) -> float:
    """Thickness of the spacer under the spring that restores a load, in mm (0 where nothing is missing).

    spacer = (F_wanted − F)/k

    Notes
    -----
    Valid: the bind margin falls by the spacer; a spacer thicker than the sink leaves less than the maker gave.

    Source
    ------
    Hooke's law.

    Check
    -----
    A sink of 0.4 mm needs a spacer of 0.4 mm.

    Examples
    --------
    >>> round(spacer_for_mm(175.109, 182.405, 18.24), 3)
    0.4
    """
    missing_n = finite("load wanted", load_wanted_n) - finite("load", load_now_n)
    return max(0.0, missing_n / positive("rate", rate, unit="N/mm"))


def least_gaps_mm(wire_mm: float, mean_diameter_mm: float, active_coils: float, *, dynamic: bool = False) -> float:
    """Least sum of the gaps between active coils at the shortest working length, in mm.

    Sa = n·(0.0015·D²/d + 0.1·d), times 1.5 for springs that are moved all the time

    Notes
    -----
    Valid: cold-coiled round wire.

    Source
    ------
    EN 13906-1, from memory: look it up before it is used as a limit.

    Examples
    --------
    >>> round(least_gaps_mm(3.2, 22, 5.5, dynamic=True), 3)
    4.512
    """
    index(wire_mm, mean_diameter_mm)
    gaps_mm = positive("active-coils", active_coils) * (0.0015 * mean_diameter_mm**2 / wire_mm + 0.1 * wire_mm)
    return 1.5 * gaps_mm if dynamic else gaps_mm
