"""Rings, piston and bore: an end gap reads bore wear three times enlarged, and a gap that closes hot scores the bore."""

from __future__ import annotations

from math import pi

from gudgeon.mechanics._given import finite, not_negative, positive
from gudgeon.mechanics.thermal import growth_mm


def gap_change_mm(bore_change_mm: float, face_wear_mm: float = 0.0) -> float:
    """Change of a ring's end gap when the bore, or the ring's face, has worn.

    Δgap = π·(ΔD + 2·Δr)

    Parameters
    ----------
    bore_change_mm : ΔD, of the diameter
    face_wear_mm : Δr, off the ring's running face

    Notes
    -----
    Exact for a ring that follows a round bore.

    Source
    ------
    Geometry: circumference.

    Examples
    --------
    >>> round(gap_change_mm(0.05), 6)
    0.15708
    """
    return pi * (finite("bore-change", bore_change_mm) + 2 * not_negative("face-wear", face_wear_mm, unit="mm"))


def bore_change_mm(gap_change_mm: float, face_wear_mm: float = 0.0) -> float:
    """Change of the bore's diameter that a change of end gap means: the inverse of the function `gap_change_mm`.

    ΔD = Δgap/π − 2·Δr

    Parameters
    ----------
    gap_change_mm : Δgap
    face_wear_mm : Δr

    Notes
    -----
    Same ring, same height in the bore.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> round(bore_change_mm(0.15708), 5)
    0.05
    """
    return finite("gap-change", gap_change_mm) / pi - 2 * not_negative("face-wear", face_wear_mm, unit="mm")


def usual_gap_mm(bore_mm: float, share: float = 0.004) -> float:
    """End gap as a share of the bore, where the maker says nothing.

    gap = share·D

    Parameters
    ----------
    bore_mm : D
    share : 0.002 to 0.003 for old engines of low duty, 0.004 in general, 0.0045 to 0.0065 for hard use

    Notes
    -----
    Never a limit: the maker's range goes first.

    Source
    ------
    Common practice, no source.

    Examples
    --------
    >>> round(usual_gap_mm(60), 3)
    0.24
    """
    return positive("bore", bore_mm, unit="mm") * positive("share", share)


def hot_gap_mm(
    gap_mm: float, bore_mm: float, ring_per_k: float, ring_c: float, bore_per_k: float, bore_c: float
) -> float:
    """End gap when ring and bore are warm; zero or less means that the ends meet.

    gap' = gap − π·D·(α_r·ΔT_r − α_b·ΔT_b), ΔT from 20 °C

    Parameters
    ----------
    gap_mm, bore_mm : gap and D at 20 °C
    ring_per_k, ring_c, bore_per_k, bore_c : α_r, t_r, α_b, t_b

    Notes
    -----
    One temperature for each part.

    Source
    ------
    `gudgeon.mechanics.thermal.growth_mm` of both circumferences.

    Examples
    --------
    >>> round(hot_gap_mm(0.24, 60, 11e-6, 200, 10.5e-6, 120), 4)
    0.0647
    """
    ring, bore = growth_mm(bore_mm, ring_per_k, 20.0, ring_c), growth_mm(bore_mm, bore_per_k, 20.0, bore_c)
    return finite("gap", gap_mm) - pi * (ring - bore)


def side_clearance_mm(groove_mm: float, ring_mm: float) -> float:
    """Room of a ring in its groove; negative where it will not go in.

    c = groove width − ring width

    Parameters
    ----------
    groove_mm, ring_mm : widths along the bore

    Notes
    -----
    Measured with a feeler where the groove is tapered by wear.

    Source
    ------
    Definition.

    Examples
    --------
    >>> round(side_clearance_mm(1.228, 1.170), 3)
    0.058
    """
    return positive("groove", groove_mm, unit="mm") - positive("ring", ring_mm, unit="mm")


def piston_clearance_mm(bore_mm: float, skirt_mm: float) -> float:
    """Diametral clearance of a piston; negative is interference.

    c = bore at the gauging height − skirt at the gauging point

    Parameters
    ----------
    bore_mm, skirt_mm : diameters at 20 °C

    Notes
    -----
    The skirt is barrelled and oval: only the maker's gauging point gives a comparable number.

    Source
    ------
    Definition.

    Examples
    --------
    >>> round(piston_clearance_mm(76.020, 75.940), 3)
    0.08
    """
    return positive("bore", bore_mm, unit="mm") - positive("skirt", skirt_mm, unit="mm")
