"""What the piston leaves above itself: compression ratio and squish decide whether an engine starts, knocks or hits."""

from __future__ import annotations

from math import pi

from gudgeon.mechanics._given import above, between, finite, not_negative, positive, whole
from gudgeon.mechanics.crank import piston_travel_mm
from gudgeon.problem import refuse


def disc_volume_cm3(diameter_mm: float, height_mm: float) -> float:
    """Volume of a disc: a gasket bore, the space above a piston that stands below the deck, a swept bore.

    V = π·D²·h/4

    Parameters
    ----------
    diameter_mm : D
    height_mm : h, negative where it takes room away

    Notes
    -----
    Round bores only.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> round(disc_volume_cm3(61.0, 0.50), 6)
    1.461233
    """
    return pi / 4 * positive("diameter", diameter_mm, unit="mm") ** 2 * finite("height", height_mm) / 1000


def displacement_cm3(bore_mm: float, stroke_mm: float, cylinders: int = 1) -> float:
    """Swept volume of the engine.

    Vd = z·π·B²·S/4

    Parameters
    ----------
    bore_mm, stroke_mm : B, S
    cylinders : z

    Notes
    -----
    With an offset crank S is the true stroke.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, eq. 2.2 to 2.4 (from memory); definition.

    Examples
    --------
    >>> round(displacement_cm3(60, 50), 6)
    141.371669
    """
    bore, stroke = positive("bore", bore_mm, unit="mm"), positive("stroke", stroke_mm, unit="mm")
    return whole("cylinders", cylinders, 1, 99) * disc_volume_cm3(bore, stroke)


def clearance_volume_cm3(
    *,
    bore_mm: float,
    chamber_cm3: float,
    gasket_bore_mm: float,
    gasket_thickness_mm: float,
    deck_mm: float = 0.0,
    dome_cm3: float = 0.0,
) -> float:
    """Volume left above the piston at its highest place.

    Vc = chamber + π·Bg²·tg/4 + π·B²·d/4 − dome

    Parameters
    ----------
    bore_mm : B
    chamber_cm3 : measured with the valves and the plug in place
    gasket_bore_mm, gasket_thickness_mm : Bg, tg, thickness as crushed
    deck_mm : d, piston below the deck at the top; negative where it stands proud
    dome_cm3 : what the crown adds above its flat; negative for a dish and for valve pockets

    Notes
    -----
    The crevice above the top ring is left out. Valid where something is left: Vc > 0.

    Source
    ------
    Sum of volumes; common practice.

    Examples
    --------
    >>> round(clearance_volume_cm3(bore_mm=60, chamber_cm3=15, gasket_bore_mm=61, gasket_thickness_mm=0.5,
    ...                            deck_mm=0.2, dome_cm3=1.2), 6)
    15.82672
    """
    gasket = disc_volume_cm3(gasket_bore_mm, not_negative("gasket-thickness", gasket_thickness_mm, unit="mm"))
    deck = disc_volume_cm3(bore_mm, finite("deck", deck_mm))
    left = not_negative("chamber", chamber_cm3, unit="cm³") + gasket + deck - finite("dome", dome_cm3)
    if left <= 0:
        raise refuse(
            "clearance volume",
            "chamber, gasket and deck less the dome leave {left:.6g} cm³.",
            "Look at the sign of deck (positive: piston below the deck) and dome (positive: raised crown).",
            left=left,
        )
    return left


def compression_ratio(swept_cm3: float, clearance_cm3: float) -> float:
    """Compression ratio of one cylinder, swept volume and clearance over clearance.

    r = (Vd + Vc)/Vc

    Parameters
    ----------
    swept_cm3, clearance_cm3 : Vd, Vc of one cylinder

    Notes
    -----
    The geometric ratio, whatever the valves do; see `effective_ratio`.

    Source
    ------
    Heywood eq. 2.1 (from memory); definition.

    Examples
    --------
    >>> round(compression_ratio(141.371669, 15.826720), 5)
    9.93247
    """
    clearance = positive("clearance volume", clearance_cm3, unit="cm³")
    return (positive("swept volume", swept_cm3, unit="cm³") + clearance) / clearance


def clearance_for_ratio_cm3(swept_cm3: float, ratio: float) -> float:
    """Clearance volume that gives a wanted ratio: the inverse of `compression_ratio`.

    Vc = Vd/(r − 1)

    Parameters
    ----------
    swept_cm3 : Vd of one cylinder
    ratio : r, more than 1

    Notes
    -----
    What must be added to or taken from the chamber is the difference from `clearance_volume_cm3`.

    Source
    ------
    `compression_ratio` solved for Vc.

    Examples
    --------
    >>> round(clearance_for_ratio_cm3(141.371669, 9.5), 5)
    16.63196
    """
    return positive("swept volume", swept_cm3, unit="cm³") / (above("ratio", ratio, 1.0) - 1)


def effective_ratio(
    *,
    bore_mm: float,
    stroke_mm: float,
    rod_mm: float,
    clearance_cm3: float,
    intake_closes_deg: float,
    offset_mm: float = 0.0,
) -> float:
    """Compression ratio over what is left of the stroke once the intake has closed.

    r_e = (Vc + A·x(180° + φ))/Vc

    Parameters
    ----------
    bore_mm, stroke_mm, rod_mm, offset_mm : B (A = πB²/4), S, L, e
    clearance_cm3 : Vc
    intake_closes_deg : φ, crank degrees after the crank's bottom, at the lift that the maker states

    Notes
    -----
    Valid for 0° ≤ φ < 180° and L > S/2 + |e|. Say which lift defines the closing: 1 mm comes far before the seat.

    Source
    ------
    Geometry with `gudgeon.mechanics.crank.piston_travel_mm`; the definition is common practice.

    Examples
    --------
    >>> round(effective_ratio(bore_mm=60, stroke_mm=50, rod_mm=100, clearance_cm3=15.826720, intake_closes_deg=50), 5)
    8.66775
    """
    angle = between("intake-closes", intake_closes_deg, 0.0, 180.0, unit="°", ends="[)")
    bore = positive("bore", bore_mm, unit="mm")
    travel = piston_travel_mm(180 + angle, stroke_mm, rod_mm, offset_mm)
    return 1 + disc_volume_cm3(bore, travel) / positive("clearance volume", clearance_cm3, unit="cm³")


def squish_mm(deck_mm: float, gasket_thickness_mm: float, recess_mm: float = 0.0) -> float:
    """Gap between piston and squish band at the top.

    s = d + g + r

    Parameters
    ----------
    deck_mm : d, piston below the deck; negative where it stands proud
    gasket_thickness_mm : g, as crushed
    recess_mm : r, the squish band of the head above its gasket face

    Notes
    -----
    Cold, slowly turned; at speed the rod stretches and the piston rocks. A gap of zero or less means contact: refused.

    Source
    ------
    Geometry; common practice.

    Examples
    --------
    >>> round(squish_mm(deck_mm=0.4, gasket_thickness_mm=0.6), 3)
    1.0
    """
    gasket = not_negative("gasket-thickness", gasket_thickness_mm, unit="mm")
    gap = finite("deck", deck_mm) + gasket + not_negative("recess", recess_mm, unit="mm")
    if gap <= 0:
        raise refuse("squish", "a gap of {gap:.4g} mm is contact.", "Fit a thicker gasket or measure again.", gap=gap)
    return gap


def squish_after_head_milled_mm(squish_before_mm: float, milled_mm: float, recess_mm: float = 0.0) -> float:
    """Squish after the gasket face of the head was milled: unchanged where the band is flush with that face.

    s' = s − min(m, r)

    Parameters
    ----------
    squish_before_mm : s
    milled_mm : m, off the head's gasket face
    recess_mm : r, the band above that face before milling; zero where it is flush

    Notes
    -----
    A flush band moves with the face, so only a recess is used up.

    Source
    ------
    Geometry; common practice.

    Examples
    --------
    >>> squish_after_head_milled_mm(1.0, milled_mm=0.3)
    1.0
    """
    milled, recess = not_negative("milled", milled_mm, unit="mm"), not_negative("recess", recess_mm, unit="mm")
    return _room(positive("squish", squish_before_mm, unit="mm") - min(milled, recess))


def squish_after_cylinder_milled_mm(squish_before_mm: float, milled_mm: float) -> float:
    """Squish after the cylinder's top or base was milled, or after a gasket thinner by as much was fitted.

    s' = s − m

    Parameters
    ----------
    squish_before_mm : s
    milled_mm : m, off the cylinder; negative for a gasket that is thicker

    Notes
    -----
    A gap of zero or less is refused.

    Source
    ------
    Geometry; common practice.

    Examples
    --------
    >>> round(squish_after_cylinder_milled_mm(1.0, milled_mm=0.3), 3)
    0.7
    """
    return _room(positive("squish", squish_before_mm, unit="mm") - finite("milled", milled_mm))


def _room(gap_mm: float) -> float:
    if gap_mm <= 0:
        raise refuse("milled", "this leaves a squish of {gap:.4g} mm: contact.", "Mill less.", gap=gap_mm)
    return gap_mm
