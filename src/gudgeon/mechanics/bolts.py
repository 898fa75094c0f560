"""What a torque does to a bolt: a head gasket wants preload, the wrench gives torque, and friction stands between.

Half of the torque is lost under the head and most of the rest in the thread, so preload from torque scatters by a
quarter even in good hands; a number from here is a plausibility check and never replaces the maker's torque.
"""

from __future__ import annotations

from math import pi, sqrt

from gudgeon.mechanics._given import between, finite, not_negative, positive
from gudgeon.mechanics.threads import Grade, Thread

STEEL_MPA = 205_000.0


def torque_short_nm(preload_kn: float, diameter_mm: float, factor: float) -> float:
    """Torque for a preload by the short form.

    T = K·d·F

    Parameters
    ----------
    preload_kn : F
    diameter_mm : d, nominal
    factor : K, some 0.20 as delivered, 0.18 oiled, 0.12 with anti-seize paste

    Notes
    -----
    K scatters by a fifth on measured bolts. Valid for 0.01 ≤ K ≤ 1.

    Source
    ------
    Shigley's Mechanical Engineering Design, eq. 8-27 and table 8-15 (read in a secondary source).

    Examples
    --------
    >>> round(torque_short_nm(30, diameter_mm=10, factor=0.2), 6)
    60.0
    """
    reach = between("factor", factor, 0.01, 1.0) * positive("diameter", diameter_mm, unit="mm")
    return reach * not_negative("preload", preload_kn, unit="kN")


def preload_short_kn(torque_nm: float, diameter_mm: float, factor: float) -> float:
    """Preload from a torque by the short form: the inverse of `torque_short_nm`.

    F = T/(K·d)

    Parameters
    ----------
    torque_nm : T
    diameter_mm, factor : d, K as for `torque_short_nm`

    Notes
    -----
    Oil on threads meant to be dry raises F by .20/.15, a third: do not "correct" a torque unless the book says which
    state it means.

    Source
    ------
    As `torque_short_nm`.

    Examples
    --------
    >>> round(preload_short_kn(60, diameter_mm=10, factor=0.2), 6)
    30.0
    """
    return not_negative("torque", torque_nm, unit="N·m") / torque_short_nm(1.0, diameter_mm, factor)


def torque_nm(preload_kn: float, thread: Thread, thread_friction: float, head_friction: float) -> float:
    """Torque for a preload by the full form.

    T = F·[0.16·P + 0.58·d₂·μ_G + (D_Km/2)·μ_K]

    Parameters
    ----------
    preload_kn : F
    thread : gives P, d₂ and D_Km (hexagon head on a medium clearance hole)
    thread_friction, head_friction : μ_G, μ_K

    Notes
    -----
    60° thread. Valid for friction from 0.02 to 0.5.

    Source
    ------
    VDI 2230 part 1 (from memory); reproduces its tables of tightening torque within their rounding.

    Examples
    --------
    >>> from gudgeon.mechanics.threads import thread
    >>> round(torque_nm(18.63, thread("M8"), 0.12, 0.12), 2)
    24.58
    """
    return not_negative("preload", preload_kn, unit="kN") * _lever_mm(thread, thread_friction, head_friction)


def preload_kn(torque_nm: float, thread: Thread, thread_friction: float, head_friction: float) -> float:
    """Preload from a torque by the full form: the inverse of `torque_nm`.

    F = T/[0.16·P + 0.58·d₂·μ_G + (D_Km/2)·μ_K]

    Parameters
    ----------
    torque_nm : T, without prevailing torque
    thread, thread_friction, head_friction : as for the function `torque_nm`

    Notes
    -----
    Valid for friction from 0.02 to 0.5; does not know where the bolt yields: see `yield_fraction`.

    Source
    ------
    VDI 2230 part 1 (from memory).

    Examples
    --------
    >>> from gudgeon.mechanics.threads import thread
    >>> round(preload_kn(10, thread("M6"), 0.14, 0.14), 2)
    8.8
    """
    return not_negative("torque", torque_nm, unit="N·m") / _lever_mm(thread, thread_friction, head_friction)


def total_friction(torque_nm: float, preload_kn: float, thread: Thread) -> float:
    """One coefficient of friction for thread and head, from a torque and the preload measured with it.

    μ_tot = (T/F − P/2π)/(d₂/√3 + D_Km/2)

    Parameters
    ----------
    torque_nm, preload_kn : T, F
    thread : gives P, d₂, D_Km

    Notes
    -----
    60° thread. Refused where it would be negative: T/F below P/2π is a wrong preload or torque.

    Source
    ------
    ISO 16047:2005, eq. for total friction (from memory).

    Examples
    --------
    >>> from gudgeon.mechanics.threads import thread
    >>> round(total_friction(48.3354, 29.6, thread("M10")), 4)
    0.12
    """
    force = positive("preload", preload_kn, unit="kN")
    least = thread.pitch_mm / (2 * pi)
    lever = between("torque", torque_nm, least * force, 1e6, unit="N·m") / force
    return (lever - least) / (thread.pitch_diameter_mm / sqrt(3) + thread.head_friction_diameter_mm / 2)


def assembly_preload_kn(thread: Thread, grade: Grade, thread_friction: float, utilisation: float = 0.9) -> float:
    """Preload at which tightening uses this share of the yield strength, tension and twist together.

    F_M = ν·R_p·A₀/√(1 + 3·[1.5·(d₂/d₀)·(P/(π·d₂) + 1.155·μ_G)]²)

    Parameters
    ----------
    thread, grade : give d₀, A₀ = π·d₀²/4, d₂, P, R_p
    thread_friction : μ_G while tightening
    utilisation : ν

    Notes
    -----
    Plain shank; a waisted or hollow bolt holds less. Valid for d ≤ 16 mm, friction from 0.02 to 0.5, 0 < ν ≤ 1.

    Source
    ------
    VDI 2230 part 1, 5.4.3 and table A1 (from memory); fine threads against its table of 2001, read in a tabulation.

    Examples
    --------
    >>> from gudgeon.mechanics.threads import grade, thread
    >>> round(assembly_preload_kn(thread("M8"), grade("8.8"), 0.12), 2)
    18.63
    """
    share = between("utilisation", utilisation, 0.0, 1.0, ends="(]")
    wedge = thread.pitch_mm / (pi * thread.pitch_diameter_mm) + 1.155 * _friction("friction", thread_friction)
    twist = 1.5 * thread.pitch_diameter_mm / thread.stress_diameter_mm * wedge
    return share * grade.yield_mpa * thread.stress_area_mm2 / sqrt(1 + 3 * twist**2) / 1000


def proof_load_kn(thread: Thread, grade: Grade) -> float:
    """Load that a bolt of this class must bear without staying longer.

    F_p = S_p·A_s

    Parameters
    ----------
    thread, grade : give A_s, S_p

    Notes
    -----
    d ≤ 16 mm. The standard prints it from a rounded A_s, up to 0.7 % apart.

    Source
    ------
    ISO 898-1:2013, tables 5 and 7 (read in a secondary tabulation).

    Examples
    --------
    >>> from gudgeon.mechanics.threads import grade, thread
    >>> round(proof_load_kn(thread("M8"), grade("8.8")), 1)
    21.2
    """
    return grade.proof_mpa * thread.stress_area_mm2 / 1000


def proof_fraction(preload_kn: float, thread: Thread, grade: Grade) -> float:
    """Share of the proof load that a preload uses.

    F/(S_p·A_s)

    Parameters
    ----------
    preload_kn : F
    thread, grade : give A_s, S_p

    Notes
    -----
    Tension only; while tightening the twist takes another fifth.

    Source
    ------
    ISO 898-1:2013, `proof_load_kn`.

    Examples
    --------
    >>> from gudgeon.mechanics.threads import grade, thread
    >>> round(proof_fraction(18.63, thread("M8"), grade("8.8")), 3)
    0.877
    """
    return not_negative("preload", preload_kn, unit="kN") / proof_load_kn(thread, grade)


def yield_fraction(preload_kn: float, thread: Thread, grade: Grade) -> float:
    """Share of the yield load that a preload uses.

    F/(R_p·A_s)

    Parameters
    ----------
    preload_kn : F
    thread, grade : give A_s, R_p

    Notes
    -----
    Tension only; above some 0.9 a torque is not plausible for this bolt, whatever the unit column says.

    Source
    ------
    ISO 898-1:2013, tables 3 and 5.

    Examples
    --------
    >>> from gudgeon.mechanics.threads import grade, thread
    >>> round(yield_fraction(37.7, thread("M10x1.25"), grade("10.9")), 3)
    0.655
    """
    return not_negative("preload", preload_kn, unit="kN") / (grade.yield_mpa * thread.stress_area_mm2 / 1000)


def bolt_stiffness_kn_mm(length_mm: float, area_mm2: float, modulus_mpa: float = STEEL_MPA) -> float:
    """Stiffness of a bolt over its clamped length.

    k_b = E·A/l

    Parameters
    ----------
    length_mm : l, under the head to the first thread that bears
    area_mm2 : A, of the stress area or the shank
    modulus_mpa : E

    Notes
    -----
    One section; a stepped bolt is a chain of springs. Heads and engaged threads make a real bolt softer.

    Source
    ------
    Hooke's law; VDI 2230 part 1, 5.1.1 (from memory).

    Examples
    --------
    >>> round(bolt_stiffness_kn_mm(60, 58), 2)
    198.17
    """
    section = positive("area", area_mm2, unit="mm²") * positive("modulus", modulus_mpa, unit="MPa")
    return section / positive("length", length_mm, unit="mm") / 1000


def angle_preload_kn(
    angle_deg: float, thread: Thread, grade: Grade, bolt_kn_mm: float, joint_kn_mm: float, snug_kn: float = 0.0
) -> float:
    """Preload after a turn of angle, no more than the bolt can hold.

    F = min(F₀ + P·φ/360·k_b·k_c/(k_b + k_c), R_p·A_s)

    Parameters
    ----------
    angle_deg : φ, turned after the snug torque
    thread, grade : give P, A_s, R_p
    bolt_kn_mm, joint_kn_mm : k_b, k_c
    snug_kn : F₀, preload of the snug torque

    Notes
    -----
    Elastic until the yield load, then flat: a bolt tightened past it is stretched for good and is not used again unless
    the maker says so.

    Source
    ------
    Two springs in series; VDI 2230 part 1, 5.4 (from memory).

    Examples
    --------
    >>> from gudgeon.mechanics.threads import grade, thread
    >>> round(angle_preload_kn(30, thread("M10"), grade("8.8"), 198.17, 594.51), 2)
    18.58
    """
    bolt, joint = (
        positive("bolt stiffness", bolt_kn_mm, unit="kN/mm"),
        positive("joint stiffness", joint_kn_mm, unit="kN/mm"),
    )
    stretch = thread.pitch_mm * not_negative("angle", angle_deg, unit="°") / 360
    elastic = not_negative("snug", snug_kn, unit="kN") + stretch * bolt * joint / (bolt + joint)
    return min(elastic, grade.yield_mpa * thread.stress_area_mm2 / 1000)


def with_prevailing_nm(torque_nm: float, prevailing_nm: float) -> float:
    """Setting for a nut that resists turning by itself.

    T_set = T + T_pv

    Parameters
    ----------
    torque_nm : T, what shall reach the joint
    prevailing_nm : T_pv, turning the nut freely before it seats

    Notes
    -----
    Only where the book gives the torque without the locking part.

    Source
    ------
    ISO 2320 for the term (from memory); common practice.

    Examples
    --------
    >>> with_prevailing_nm(24, 3)
    27.0
    """
    own = not_negative("prevailing", prevailing_nm, unit="N·m")
    return not_negative("torque", torque_nm, unit="N·m") + own


def _lever_mm(thread: Thread, thread_friction: float, head_friction: float) -> float:
    in_thread = 0.58 * thread.pitch_diameter_mm * _friction("thread friction", thread_friction)
    under_head = thread.head_friction_diameter_mm / 2 * _friction("head friction", head_friction)
    return 0.16 * thread.pitch_mm + in_thread + under_head


def _friction(name: str, value: float) -> float:
    return between(name, finite(name, value), 0.02, 0.5)
