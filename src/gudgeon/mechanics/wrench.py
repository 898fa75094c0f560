"""What to set on the wrench in hand: an adapter lengthens the lever, and a wrench is true only over part of its scale."""

from __future__ import annotations

from math import cos, radians

from gudgeon.mechanics._given import between, not_negative, positive
from gudgeon.problem import refuse

LEAST_SHARE = 0.2


def setting_nm(torque_nm: float, length_mm: float, extension_mm: float, angle_deg: float = 0.0) -> float:
    """Setting of the wrench so that the bolt gets its torque through an adapter.

    T_set = T·L/(L + E·cos θ)

    Parameters
    ----------
    torque_nm : T, at the bolt
    length_mm : L, centre of the grip to centre of the square
    extension_mm : E, centre of the square to centre of the bolt
    angle_deg : θ, 0 in line with the wrench (full correction), 90 square to it (none), 180 folded back

    Notes
    -----
    Valid where L + E·cos θ > 0 and the hand pulls at the centre of the grip. The correction is full in line, none at 90°.

    Source
    ------
    Moments about the bolt and about the square, same force; common practice.

    Examples
    --------
    >>> round(setting_nm(80, length_mm=400, extension_mm=50), 3), round(setting_nm(80, 400, 50, angle_deg=90), 3)
    (71.111, 80.0)
    """
    return not_negative("torque", torque_nm, unit="N·m") / _gain(length_mm, extension_mm, angle_deg)


def at_bolt_nm(setting_nm: float, length_mm: float, extension_mm: float, angle_deg: float = 0.0) -> float:
    """Torque that the bolt gets from a setting: the inverse of the function `setting_nm`.

    T = T_set·(L + E·cos θ)/L

    Parameters
    ----------
    setting_nm : T_set
    length_mm, extension_mm, angle_deg : L, E, θ as for the function `setting_nm`

    Notes
    -----
    As for the function `setting_nm`.

    Source
    ------
    As for the function `setting_nm`.

    Examples
    --------
    >>> round(at_bolt_nm(71.1111, length_mm=400, extension_mm=50), 3)
    80.0
    """
    return not_negative("setting", setting_nm, unit="N·m") * _gain(length_mm, extension_mm, angle_deg)


def permissible_error(highest_nm: float) -> float:
    """Permissible error of a setting wrench, as a share of the torque.

    6 % where the scale ends at 10 N·m or below, else 4 %

    Parameters
    ----------
    highest_nm : upper end of the scale

    Notes
    -----
    Type II class A (adjustable, with scale). A certificate of the wrench goes before this.

    Source
    ------
    ISO 6789-1:2017, table 1 (read in a quoted summary).

    Examples
    --------
    >>> permissible_error(60)
    0.04
    """
    return 0.06 if positive("highest", highest_nm, unit="N·m") <= 10 else 0.04


def least_setting_nm(lowest_nm: float, highest_nm: float) -> float:
    """Lowest torque that a wrench may be used for.

    max(lowest, 0.2·highest)

    Parameters
    ----------
    lowest_nm, highest_nm : ends of the scale

    Notes
    -----
    A setting wrench is tested at 20, 60 and 100 % of its highest torque; below 20 % nothing is known of it.

    Source
    ------
    ISO 6789-1:2017, 6.5 (read in a quoted summary).

    Examples
    --------
    >>> least_setting_nm(5, 60)
    12.0
    """
    highest = positive("highest", highest_nm, unit="N·m")
    return max(between("lowest", lowest_nm, 0.0, highest, unit="N·m", ends="[)"), LEAST_SHARE * highest)


def fits(setting_nm: float, lowest_nm: float, highest_nm: float) -> bool:
    """Whether a wrench may be used for this setting.

    max(lowest, 0.2·highest) ≤ T_set ≤ highest

    Parameters
    ----------
    setting_nm : T_set, after the adapter's correction
    lowest_nm, highest_nm : ends of the scale

    Notes
    -----
    As `least_setting_nm`.

    Source
    ------
    As `least_setting_nm`.

    Examples
    --------
    >>> fits(62, 10, 60), fits(62, 20, 100)
    (False, True)
    """
    return least_setting_nm(lowest_nm, highest_nm) <= not_negative("setting", setting_nm, unit="N·m") <= highest_nm


def _gain(length_mm: float, extension_mm: float, angle_deg: float) -> float:
    length = positive("length", length_mm, unit="mm")
    angle = between("angle", angle_deg, -180.0, 180.0, unit="°")
    reach = length + not_negative("extension", extension_mm, unit="mm") * cos(radians(angle))
    if reach <= 0:
        raise refuse(
            "extension",
            "an adapter of {extension} mm folded back past a grip at {length} mm turns the bolt the other way.",
            "Give an extension shorter than the wrench, or an angle nearer to 0°.",
            extension=extension_mm,
            length=length,
        )
    return reach / length
