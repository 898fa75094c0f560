"""What milling a head takes from its chamber: by the area in the face, and exactly for a spherical cap."""

from __future__ import annotations

from math import pi

from gudgeon.mechanics._given import between, not_negative, positive


def face_area_loss_cm3(opening_mm: float, milled_mm: float) -> float:
    """Volume lost by milling, from the chamber's opening in the gasket face.

    ΔV ≈ A·m, A = π·D²/4

    Parameters
    ----------
    opening_mm : D, diameter of the opening in the face (not the bore, unless the chamber is open that far)
    milled_mm : m

    Notes
    -----
    Always high for a chamber that closes upwards, by about one part in a hundred at 0.3 mm.

    Source
    ------
    First term of ∫A(z)dz; common practice.

    Examples
    --------
    >>> round(face_area_loss_cm3(opening_mm=56, milled_mm=0.3), 6)
    0.738903
    """
    return (
        pi / 4 * positive("opening", opening_mm, unit="mm") ** 2 * not_negative("milled", milled_mm, unit="mm") / 1000
    )


def spherical_cap_cm3(opening_mm: float, depth_mm: float) -> float:
    """Volume of a chamber that is a spherical cap.

    V = π·h·(3·a² + h²)/6, which is π·h²·(3·R − h)/3 with R = (a² + h²)/(2h)

    Parameters
    ----------
    opening_mm : 2a, diameter in the gasket face
    depth_mm : h

    Notes
    -----
    Without valves and plug.

    Source
    ------
    Geometry (Bronshtein, Handbook of Mathematics, from memory).

    Examples
    --------
    >>> round(spherical_cap_cm3(opening_mm=56, depth_mm=12), 6)
    15.682831
    """
    radius, depth = positive("opening", opening_mm, unit="mm") / 2, positive("depth", depth_mm, unit="mm")
    return pi * depth * (3 * radius**2 + depth**2) / 6000


def spherical_cap_loss_cm3(opening_mm: float, depth_mm: float, milled_mm: float) -> float:
    """Volume that milling takes from a chamber that is a spherical cap, exactly.

    ΔV = V(h) − V(h − m) on the same sphere

    Parameters
    ----------
    opening_mm, depth_mm : 2a, h before milling
    milled_mm : m, less than the depth

    Notes
    -----
    The opening shrinks as the face comes down, so the loss is below `face_area_loss_cm3`.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> round(spherical_cap_loss_cm3(opening_mm=56, depth_mm=12, milled_mm=0.3), 5)
    0.73133
    """
    radius, depth = positive("opening", opening_mm, unit="mm") / 2, positive("depth", depth_mm, unit="mm")
    milled = between("milled", milled_mm, 0.0, depth, unit="mm", ends="[)")
    sphere, left = (radius**2 + depth**2) / (2 * depth), depth - milled
    return spherical_cap_cm3(opening_mm, depth_mm) - pi * left**2 * (3 * sphere - left) / 3000


def depth_to_mill_mm(opening_mm: float, loss_cm3: float) -> float:
    """Milling that takes a wanted volume, by the area in the face: the inverse of `face_area_loss_cm3`.

    m ≈ ΔV/A

    Parameters
    ----------
    opening_mm : D, diameter of the opening in the face
    loss_cm3 : ΔV

    Notes
    -----
    Low for a chamber that closes upwards: mill, measure the chamber again, then mill the rest.

    Source
    ------
    `face_area_loss_cm3` solved for m.

    Examples
    --------
    >>> round(depth_to_mill_mm(opening_mm=56, loss_cm3=0.738903), 4)
    0.3
    """
    area = pi / 4 * positive("opening", opening_mm, unit="mm") ** 2
    return not_negative("loss", loss_cm3, unit="cm³") * 1000 / area
