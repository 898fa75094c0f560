"""Lash (valve clearance): which shim or screw turn brings it where it belongs, and what every other job does to it.

All lashes are gaps: positive is loose, negative means that the valve is held open. A lash is read *at the valve* (under
the rocker tip, over the stem) or *at the cam* (between base circle and follower). Between the two stands the lever
ratio ``i`` = arm on the valve side / arm on the cam side, 1 for a bucket: lash at the valve = i · lash at the cam.

Sources: geometry of rigid levers, derived here; the signs were checked against the exact motion of rigid levers
(tests/mechanics/test_lash.py).
"""

from __future__ import annotations

from gudgeon.mechanics._given import finite, not_negative, positive
from gudgeon.problem import refuse


def factor_for(ratio: float, read_at: str) -> float:
    """How much thickness at the valve one unit of *read* lash is worth.

    factor = i where the lash is read at the cam, 1 where it is read at the valve

    Parameters
    ----------
    ratio : lever ratio i, valve side / cam side (1 for a bucket).
    read_at : where the feeler went in, ``valve`` or ``cam``.

    Notes
    -----
    Valid: rigid, straight levers near their working position; i > 0.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> factor_for(1.5, "cam"), factor_for(1.5, "valve")
    (1.5, 1.0)
    """
    positive("ratio", ratio)
    match read_at:
        case "cam":
            return float(ratio)
        case "valve":
            return 1.0
    raise refuse("measured-at", "{given} is no place to read lash.", "Say valve or cam.", given=str(read_at))


def shim_for(old_shim_mm: float, lash_mm: float, aim_mm: float, factor: float = 1.0) -> float:
    """The shim that turns the lash found into the lash aimed at, nothing else changed, in mm.

    new = old + factor·(lash − aim)

    Parameters
    ----------
    old_shim_mm : thickness of the shim in place, as measured.
    lash_mm, aim_mm : lash found and lash wanted, both read at the same place.
    factor : lever ratio i where the lash is read at the cam, 1 where it is read at the valve (`factor_for`).

    Notes
    -----
    Valid: shim at the valve tip (finger) or above or below the bucket; the result must be thicker than 0.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> round(shim_for(2.60, 0.12, 0.17), 3), round(shim_for(1.955, 0.035, 0.135, 1.5), 3)
    (2.55, 1.805)
    """
    positive("old_shim_mm", old_shim_mm, unit="mm")
    positive("factor", factor)
    new = old_shim_mm + factor * (finite("lash_mm", lash_mm) - finite("aim_mm", aim_mm))
    if new <= 0:
        raise refuse(
            "shim",
            "The shim would be {new} mm thick: no shim can do that.",
            "Check lash and shim; if both are right, the seat is too deep for any shim.",
            new=round(new, 4),
        )
    return new


def lash_with(old_shim_mm: float, lash_mm: float, new_shim_mm: float, factor: float = 1.0) -> float:
    """The lash to expect with another shim, read where the old lash was read, in mm.

    lash_new = lash − (new − old)/factor

    Notes
    -----
    Valid: as `shim_for`, whose inverse it is.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> round(lash_with(2.60, 0.12, 2.55), 3)
    0.17
    """
    positive("old_shim_mm", old_shim_mm, unit="mm")
    positive("new_shim_mm", new_shim_mm, unit="mm")
    return finite("lash_mm", lash_mm) - (new_shim_mm - old_shim_mm) / positive("factor", factor)


def stack_mm(lash_mm: float, tip_mm: float, shim_mm: float, factor: float = 1.0) -> float:
    """The height H that lash, valve tip and shim share: what the head and cam leave room for, in mm.

    H = factor·lash + tip + shim

    Notes
    -----
    Valid: tip measured along the stem from a datum of the head (spring seat or head top), never from the gasket
    face. H changes only with head, cam, follower and pivot, never with valve, seat or shim.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> round(stack_mm(0.135, 37.5, 1.8, 1.5), 4)
    39.5025
    """
    positive("factor", factor)
    return factor * finite("lash_mm", lash_mm) + finite("tip_mm", tip_mm) + finite("shim_mm", shim_mm)


def lash_in_stack(stack_height_mm: float, tip_mm: float, shim_mm: float, factor: float = 1.0) -> float:
    """The lash that a stack height leaves over valve tip and shim, in mm.

    lash = (H − tip − shim)/factor

    Notes
    -----
    Valid: as `stack_mm`.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> round(lash_in_stack(39.5025, 37.5, 1.8, 1.5), 4)
    0.135
    """
    room_mm = finite("stack_height_mm", stack_height_mm) - finite("tip_mm", tip_mm) - finite("shim_mm", shim_mm)
    return room_mm / positive("factor", factor)


def shim_in_stack(stack_height_mm: float, tip_mm: float, aim_mm: float, factor: float = 1.0) -> float:
    """The shim that gives the wanted lash in a stack height, in mm; not positive means that none fits.

    shim = H − tip − factor·aim

    Notes
    -----
    Valid: as `stack_mm`.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> round(shim_in_stack(39.5025, 37.5, 0.135, 1.5), 4)
    1.8
    """
    positive("factor", factor)
    return finite("stack_height_mm", stack_height_mm) - finite("tip_mm", tip_mm) - factor * finite("aim_mm", aim_mm)


def change_by_sink(sink_mm: float, factor: float = 1.0) -> float:
    """Change of the read lash when the valve sinks into the head (seat cut, worn face), in mm.

    Δlash = −s/factor

    Notes
    -----
    Valid: valve and seat only; tip and shim as they were. Negative s (new insert) opens the lash.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> round(change_by_sink(0.15), 3), round(change_by_sink(0.15, 1.5), 3)
    (-0.15, -0.1)
    """
    return -finite("sink_mm", sink_mm) / positive("factor", factor)


def change_by_tip_ground(removed_mm: float, factor: float = 1.0) -> float:
    """Change of the read lash when the stem tip is ground shorter, in mm.

    Δlash = +t/factor

    Notes
    -----
    Valid: never on a coated or hardened-through-thin tip; the maker says whether a tip may be ground at all.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> change_by_tip_ground(0.15)
    0.15
    """
    return not_negative("removed_mm", removed_mm, unit="mm") / positive("factor", factor)


def change_by_finger_pivot(raised_mm: float, ratio: float) -> float:
    """Change of lash at the valve tip when the pivot of a finger follower is raised, in mm.

    The pivot is at the end, the cam between pivot and valve: raised, the finger turns about the cam and its tip falls.

    Δlash = −Δ·(i − 1), i = (pivot to tip)/(pivot to cam)

    Notes
    -----
    Valid: small Δ against the arms; i ≥ 1.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> round(change_by_finger_pivot(0.1, 30 / 18), 4)
    -0.0667
    """
    if finite("ratio", ratio) < 1:
        raise refuse(
            "ratio",
            "{given} was given.",
            "A finger with the cam between pivot and valve has a ratio of 1 or more.",
            given=ratio,
        )
    return -finite("raised_mm", raised_mm) * (ratio - 1)


def change_by_rocker_shaft(raised_mm: float, ratio: float) -> float:
    """Change of lash at the valve tip when the shaft of a centre-pivot rocker is raised, in mm.

    Δlash = +Δ·(1 + i), i = valve arm / cam arm

    Notes
    -----
    Valid: small Δ against the arms; the shaft moves along the valve axis, away from the head.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> round(change_by_rocker_shaft(0.1, 1.5), 3)
    0.25
    """
    return finite("raised_mm", raised_mm) * (1 + positive("ratio", ratio))


def change_by_push_rod_joint(lowered_mm: float, ratio: float) -> float:
    """Change of lash at the valve when head and rockers come closer to the cam of a push-rod engine, in mm.

    Head milled, thinner gasket, gasket crushed at tightening: the push rod stays as long as it was and lifts its arm.

    Δlash = −i·m, i = valve arm / push-rod arm

    Notes
    -----
    Valid: cam in the crankcase. With the cam in the head there is no change. A thicker gasket is a negative m.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> round(change_by_push_rod_joint(0.02, 1.4), 4)
    -0.028
    """
    return -finite("lowered_mm", lowered_mm) * positive("ratio", ratio)


def change_by_shim(thicker_mm: float, factor: float = 1.0) -> float:
    """Change of the read lash by a thicker shim or lash cap at the valve tip, in mm.

    Δlash = −δ/factor

    Notes
    -----
    Valid: shim at the valve side. A thinner one is a negative δ.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> round(change_by_shim(0.05, 1.5), 4)
    -0.0333
    """
    return -finite("thicker_mm", thicker_mm) / positive("factor", factor)


def change_by_screw(turned_in_deg: float, pitch_mm: float, ratio: float = 1.0) -> float:
    """Change of lash at the valve by turning an adjusting screw in, in mm.

    Δlash = −i·p·φ/360

    Parameters
    ----------
    turned_in_deg : angle, positive in the direction that tightens the lash.
    pitch_mm : pitch of the screw.
    ratio : 1 for a screw at the valve end; lever ratio i for a screw at the cam or push-rod end.

    Notes
    -----
    Valid: read after locking only: the locknut pulls the screw within its thread play.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> change_by_screw(45, 0.5), change_by_screw(90, 1.0, 1.5)
    (-0.0625, -0.375)
    """
    return -positive("ratio", ratio) * positive("pitch_mm", pitch_mm, unit="mm") * finite("angle", turned_in_deg) / 360


def screw_turn_for(lash_mm: float, aim_mm: float, pitch_mm: float, ratio: float = 1.0) -> float:
    """The angle to turn an adjusting screw in (negative: out) to go from the lash found to the aim, in degrees.

    φ = 360·(lash − aim)/(i·p), both lashes at the valve

    Notes
    -----
    Valid: as `change_by_screw`, whose inverse it is.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> screw_turn_for(0.1625, 0.10, 0.5)
    45.0
    """
    per_degree_mm = positive("ratio", ratio) * positive("pitch_mm", pitch_mm, unit="mm") / 360
    return (finite("lash_mm", lash_mm) - finite("aim_mm", aim_mm)) / per_degree_mm


def ratio_from_arms(valve_arm_mm: float, cam_arm_mm: float) -> float:
    """Lever ratio from the two arms, both measured from the pivot.

    i = valve arm / cam arm

    Notes
    -----
    Valid: arms square to the forces, near mid lift; the true ratio changes a little through the lift.

    Source
    ------
    Law of the lever.

    Examples
    --------
    >>> ratio_from_arms(33.0, 22.0)
    1.5
    """
    return positive("valve_arm_mm", valve_arm_mm, unit="mm") / positive("cam_arm_mm", cam_arm_mm, unit="mm")
