"""Valve-to-piston clearance through the cycle: the least room is not at top dead centre, and a late cam takes it away.

Crank angles are degrees after the top of the gas exchange, negative before it. An intake lobe has its centre after top
(about +110), an exhaust lobe before it (about −110).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians
from typing import TYPE_CHECKING

from gudgeon.mechanics._given import above, between, finite, not_negative, positive
from gudgeon.mechanics.crank import top_centre_deg
from gudgeon.mechanics.lift import Lobe, rises
from gudgeon.problem import refuse

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

_COARSE_DEG = 2.0
_STEPS = 40
_NEAR_RAD = 1e-5  # the next step of Newton's rule would be its square
_MOST_DRAWS = 200_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Train:
    """What stays the same in one engine: crank, rod, lean of the valve, lobe as seen at the valve."""

    stroke_mm: float
    rod_mm: float
    lobe: Lobe
    valve_angle_deg: float = 0.0
    offset_mm: float = 0.0

    def __post_init__(self) -> None:
        positive("stroke", self.stroke_mm, unit="mm")
        finite("offset", self.offset_mm)
        above("rod", self.rod_mm, self.stroke_mm / 2 + abs(self.offset_mm), unit="mm")
        between("valve-angle", self.valve_angle_deg, 0.0, 60.0, unit="°")


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """A value and its standard uncertainty."""

    value: float
    u: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LeastGap:
    """The least clearance, where it is, and how well both are known (95 % of the draws lie from low to high)."""

    gap_mm: float
    crank_deg: float
    u_mm: float
    low_mm: float
    high_mm: float


def gap_shut_after_mm(gap_mm: float, valve_angle_deg: float, *, milled_mm: float = 0.0, sunk_mm: float = 0.0) -> float:
    """Gap along the valve axis at top dead centre, valve shut, after milling and after the valve has sunk, in mm.

    g0′ = g0 − m·cos ψ + s

    Parameters
    ----------
    gap_mm : g0 before
    valve_angle_deg : ψ, valve axis to bore axis
    milled_mm : m, head, cylinder or thinner gasket; negative for a thicker one
    sunk_mm : s, along the valve axis

    Notes
    -----
    Valid: valve pocket parallel to the valve head. Chain-driven cams also move: see `cam_timing`.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> round(gap_shut_after_mm(2.5, 15, milled_mm=0.3), 6)
    2.210222
    """
    lean = between("valve-angle", valve_angle_deg, 0.0, 60.0, unit="°")
    return finite("gap", gap_mm) - finite("milled", milled_mm) * cos(radians(lean)) + finite("sunk", sunk_mm)


def _piston(train: Train, angle: Floats) -> tuple[Floats, Floats, Floats]:
    """Travel from the highest place and its two derivatives by the crank angle in radians."""
    import numpy as np

    a, rod, e = train.stroke_mm / 2, train.rod_mm, train.offset_mm
    sine, cosine = np.sin(angle), np.cos(angle)
    side = a * sine - e
    root = np.sqrt(rod**2 - side**2)
    travel = np.sqrt((rod + a) ** 2 - e**2) - a * cosine - root
    swing = side / root
    slope = a * sine + swing * a * cosine
    bend = a * cosine - swing * a * sine + (a * cosine) ** 2 * rod**2 / root**3
    return travel, slope, bend


def _lift(train: Train, angle: Floats, centre: Floats) -> Floats:
    """Lift of the lobe at a crank angle, both in radians."""
    import numpy as np

    u = np.maximum(1 - np.abs(angle - centre) / radians(2 * train.lobe.half_event_cam_deg), 0.0)
    return train.lobe.lift_mm * rises(train.lobe.law, u, 1)[0]


def _lift_slopes(train: Train, angle: Floats, centre: Floats, rows: int) -> tuple[Floats, ...]:
    """First, and with three `rows` second, derivative of `_lift` by the crank angle."""
    import numpy as np

    lobe = train.lobe
    half = radians(2 * lobe.half_event_cam_deg)
    away = centre - angle
    u = np.maximum(1 - np.abs(away) / half, 0.0)
    _, *slopes = rises(lobe.law, u, rows)
    slopes[0] = np.copysign(slopes[0] * (lobe.lift_mm / half), away)
    if rows > 2:
        slopes[1] = slopes[1] * (u > 0) * (lobe.lift_mm / half**2)
    return tuple(slopes)


def gap_at_mm(train: Train, crank_deg: float, gap_shut_mm: float, centre_deg: float, lash_mm: float = 0.0) -> float:
    """Clearance between valve and piston at one crank angle, along the valve axis, in mm; negative: they collide.

    g(θ) = g0 + x(θ)·cos ψ − max(0, y(θ) − lash)

    Parameters
    ----------
    train : crank, rod, lobe lift y and lean ψ
    crank_deg : θ, after the top of the gas exchange
    gap_shut_mm : g0, at top dead centre with the valve shut
    centre_deg : lobe centre, after top (exhaust: negative)
    lash_mm : at the valve

    Notes
    -----
    Valid: valve pocket parallel to the valve head, rigid parts, no float.

    Source
    ------
    Slider-crank (Heywood, eq. 2.4 to 2.6, from memory) and the projection on the valve axis, derived here.

    Examples
    --------
    >>> lobe = Lobe(law="3-4-5", lift_mm=8, half_event_cam_deg=65)
    >>> train = Train(stroke_mm=50, rod_mm=100, lobe=lobe, valve_angle_deg=15)
    >>> round(gap_at_mm(train, 4.79, 2.5, 110), 6)
    2.197222
    """
    import numpy as np

    angle = np.radians(np.array([between("angle", crank_deg, -360.0, 360.0, unit="°")]))
    centre = np.radians(np.array([between("centre", centre_deg, -360.0, 360.0, unit="°")]))
    lift = max(0.0, float(_lift(train, angle, centre)[0]) - finite("lash", lash_mm))
    return finite("gap", gap_shut_mm) + float(_piston(train, angle)[0][0]) * cos(radians(train.valve_angle_deg)) - lift


def least_gaps(train: Train, gap_shut_mm: Floats, centre_deg: Floats, lash_mm: Floats) -> tuple[Floats, Floats]:
    """The least clearance of many draws at once, and the crank angle of each.

    g_min = g0 + min(0, lash + min over θ of x·cos ψ − y), its θ by Newton's rule on x′·cos ψ − y′ = 0 in every cell of
    a grid where that turns from − to +

    Parameters
    ----------
    train : as `gap_at_mm`
    gap_shut_mm, centre_deg, lash_mm : arrays of one length

    Notes
    -----
    Valid: as `gap_at_mm`; searched from −180° to +180°. With the valve shut the least gap is g0 itself, so that lash only
    shifts the open one: min(g_shut, g_open) is the same as taking lash off the lift.

    Source
    ------
    As `gap_at_mm`.

    Examples
    --------
    >>> import numpy as np
    >>> lobe = Lobe(law="3-4-5", lift_mm=8, half_event_cam_deg=65)
    >>> train = Train(stroke_mm=50, rod_mm=100, lobe=lobe, valve_angle_deg=15)
    >>> gap, angle = least_gaps(train, np.array([2.5, 2.5]), np.array([110.0, 106.0]), np.zeros(2))
    >>> [round(float(g), 6) for g in gap], [round(float(a), 2) for a in angle]
    ([2.197222, 1.990242], [4.79, 6.49])
    """
    import numpy as np

    centre = np.radians(centre_deg)
    draw, low = _brackets(train, centre)
    lost = np.flatnonzero(np.bincount(draw, minlength=len(centre)) == 0)
    if lost.size:
        where = float(centre_deg[lost[0]])
        raise refuse("centre", "{given}° is no place for a lobe's centre.", "Give about 90° to 130°.", given=where)
    angle = _settle(train, low, centre[draw])
    way = _piston(train, angle)[0] * cos(radians(train.valve_angle_deg)) - _lift(train, angle, centre[draw])
    order = np.lexsort((way, draw))
    first = order[np.searchsorted(draw[order], np.arange(len(centre)))]
    open_mm = way[first] + lash_mm
    top_deg = top_centre_deg(train.stroke_mm, train.rod_mm, train.offset_mm)
    return gap_shut_mm + np.minimum(open_mm, 0.0), np.where(open_mm < 0, np.degrees(angle[first]), top_deg)


def _brackets(train: Train, centre: Floats) -> tuple[NDArray[np.int64], Floats]:
    """Every cell of a coarse grid in which the gap of a draw turns from falling to rising: draw, and its lower end.

    The grid spans where the valve can reach the piston, and one cell more; elsewhere the gap is above g0.
    """
    import numpy as np

    grid = np.radians(np.arange(-180.0, 180.0, _COARSE_DEG))
    travel, speed, _ = (row * cos(radians(train.valve_angle_deg)) for row in _piston(train, grid))
    near = np.flatnonzero(travel <= train.lobe.lift_mm)
    span = slice(max(near[0] - 1, 0), near[-1] + 2)
    nodes = zip(grid[span], speed[span], strict=True)
    falls = np.array([_lift_slopes(train, node, centre, 2)[0] > rate for node, rate in nodes])
    cell, draw = np.nonzero(falls[:-1] & ~falls[1:])
    return draw, grid[span][cell]


def _settle(train: Train, low: Floats, centre: Floats) -> Floats:
    """The angle of no slope in each cell, by Newton's rule, halving the cell where that leads out of it."""
    import numpy as np

    lean = cos(radians(train.valve_angle_deg))
    high = low + radians(_COARSE_DEG)
    angle = (low + high) / 2
    for _ in range(_STEPS):
        (_, x1, x2), (y1, y2) = _piston(train, angle), _lift_slopes(train, angle, centre, 3)
        slope, bend = x1 * lean - y1, x2 * lean - y2
        low, high = np.where(slope < 0, angle, low), np.where(slope < 0, high, angle)
        step = angle - slope / np.where(bend > 0, bend, 1.0)
        inside = (bend > 0) & (step > low - _NEAR_RAD) & (step < high + _NEAR_RAD)
        moved = np.where(inside, step, (low + high) / 2)
        far = float(np.max(np.abs(moved - angle), initial=0.0))
        angle = moved
        if far < _NEAR_RAD:
            break
    return angle


def least_gap(train: Train, gap_shut: Known, centre: Known, lash: Known, *, seed: int, draws: int = 10_000) -> LeastGap:
    """The least clearance with its uncertainty, from draws of gap, timing and lash (all normal, independent).

    g = min over θ of g0 + x(θ)·cos ψ − y(θ); u = standard deviation of the draws

    Parameters
    ----------
    train : as `gap_at_mm`
    gap_shut, centre, lash : value and standard uncertainty
    seed : of the draws, so that the same question has the same answer

    Notes
    -----
    Valid: as `gap_at_mm`. A least gap in books is practice and differs by maker: it is a limit only where the maker says.

    Source
    ------
    Propagation of distributions, JCGM 101:2008.

    Examples
    --------
    >>> lobe = Lobe(law="3-4-5", lift_mm=8, half_event_cam_deg=65)
    >>> train = Train(stroke_mm=50, rod_mm=100, lobe=lobe, valve_angle_deg=15)
    >>> found = least_gap(train, Known(value=2.5, u=0.05), Known(value=110, u=1), Known(value=0), seed=1)
    >>> round(found.gap_mm, 4), round(found.u_mm, 2)
    (2.1972, 0.07)
    """
    import numpy as np

    if not 100 <= draws <= _MOST_DRAWS:
        raise refuse("draws", "{given} draws were asked for.", "Give 100 to {most}.", given=draws, most=_MOST_DRAWS)
    values = []
    rng = np.random.default_rng(seed)
    for name, known in (("gap", gap_shut), ("centre", centre), ("lash", lash)):
        spread = not_negative(f"u of {name}", known.u) * rng.standard_normal(draws)
        values.append(finite(name, known.value) + spread)
    gaps, _ = least_gaps(train, values[0], values[1], values[2])
    middle, where = least_gaps(train, np.array([gap_shut.value]), np.array([centre.value]), np.array([lash.value]))
    low, high = np.quantile(gaps, (0.025, 0.975))
    return LeastGap(
        gap_mm=float(middle[0]),
        crank_deg=float(where[0]),
        u_mm=float(np.std(gaps, ddof=1)),
        low_mm=float(low),
        high_mm=float(high),
    )
