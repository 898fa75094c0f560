"""Wobble: a dial on the rocked valve reads more than the clearance in the guide, and a limit for one is none for the other.

The stem leans from one end of the guide to the other; a dial beyond the guide end sees that lean magnified. "Half the
rock is the clearance" is right for one stick-out only, half the guide length.
"""

from __future__ import annotations

from math import atan, sqrt, tan

from gudgeon.mechanics._given import not_negative, positive


def magnification(guide_length_mm: float, stick_out_mm: float) -> float:
    """How much more than the clearance the dial reads.

    W/c = 1 + 2x/L

    Parameters
    ----------
    guide_length_mm : L, length of the guide that bears
    stick_out_mm : x, from the guide end to the dial's point

    Notes
    -----
    Valid: straight guide and stem, small angle, dial square to the stem, full side-to-side reading.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> magnification(40, 20)
    2.0
    """
    return 1 + 2 * not_negative("stick-out", stick_out_mm, unit="mm") / positive(
        "guide-length", guide_length_mm, unit="mm"
    )


def clearance_mm(reading_mm: float, guide_length_mm: float, stick_out_mm: float) -> float:
    """Diametral stem-to-guide clearance from the full side-to-side reading, in mm.

    c = W·L/(L + 2x)

    Parameters
    ----------
    reading_mm : W, full reading from one side to the other
    guide_length_mm, stick_out_mm : L, x as for `magnification`

    Notes
    -----
    Valid: as `magnification`. A bell-mouthed guide reads high: the result is then more than the clearance in the middle.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> round(clearance_mm(0.08, 40, 20), 6)
    0.04
    """
    return not_negative("reading", reading_mm, unit="mm") / magnification(guide_length_mm, stick_out_mm)


def reading_mm(clearance: float, guide_length_mm: float, stick_out_mm: float) -> float:
    """What the dial will read on a guide of a known clearance, in mm.

    W = c·(1 + 2x/L)

    Notes
    -----
    Valid: as `clearance_mm`, whose inverse it is.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> round(reading_mm(0.04, 40, 10), 6), round(reading_mm(0.04, 40, 40), 6)
    (0.06, 0.12)
    """
    return not_negative("clearance", clearance, unit="mm") * magnification(guide_length_mm, stick_out_mm)


def exact_reading_mm(clearance: float, stem_mm: float, guide_length_mm: float, stick_out_mm: float) -> float:
    """What the dial will read, from the tilt at which the stem touches both ends of the guide, in mm.

    D·cos φ = d + L·sin φ, W = (L + 2x)·tan φ, D = d + c

    Notes
    -----
    Valid: straight parts; shows what the small-angle rule leaves out (0.006 % at 0.03 mm, 0.02 % at 0.10 mm on 6 × 40).

    Source
    ------
    A strip of width d between two opposite corners of a rectangle D × L, derived here.

    Examples
    --------
    >>> round(exact_reading_mm(0.10, 5.9, 40, 20), 6)
    0.199963
    """
    stem = positive("stem", stem_mm, unit="mm")
    length = positive("guide-length", guide_length_mm, unit="mm")
    bore = stem + not_negative("clearance", clearance, unit="mm")
    # D·cos φ − L·sin φ = d: with t = tan(φ/2) a quadratic, (D + d)·t² + 2L·t − (D − d) = 0.
    half = (bore - stem) / (length + sqrt(length**2 + (bore + stem) * (bore - stem)))
    tilt = 2 * atan(half)
    return (length + 2 * not_negative("stick-out", stick_out_mm, unit="mm")) * tan(tilt)
