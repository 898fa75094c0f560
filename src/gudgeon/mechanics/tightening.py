"""In which order and in which stages: a gasket seals only where the faces came together evenly.

A maker's order always goes before one from here. Bolts are numbered from 1 as they stand in the pattern.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, hypot, pi

from gudgeon.mechanics._given import between, finite, positive, whole
from gudgeon.problem import refuse

STAGES = (0.3, 0.6, 1.0)
SAME_RING = 0.03


def star_order(bolts: int) -> tuple[int, ...]:
    """Order for bolts on a circle, numbered around it.

    N = 4q: groups i, i+2q, i+q, i+3q; other even N: pairs i, i+N/2; odd N: each time (N − 1)/2 further

    Parameters
    ----------
    bolts : N, from 2 to 64

    Notes
    -----
    Published for 4, 8, 12, 16, 20 and 24 bolts; the continuation to other numbers is common practice, no source.

    Source
    ------
    ASME PCC-1, star pattern of table 2 (from memory).

    Examples
    --------
    >>> star_order(8)
    (1, 5, 3, 7, 2, 6, 4, 8)
    >>> star_order(6)
    (1, 4, 2, 5, 3, 6)
    """
    count = whole("bolts", bolts, 2, 64)
    if count % 4 == 0:
        q = count // 4
        return tuple(i + turn * q for i in _spread(q) for turn in (0, 2, 1, 3))
    if count % 2 == 0:
        half = count // 2
        starts = range(1, half + 1) if half <= 3 else _spread(half)
        return tuple(i + turn for i in starts for turn in (0, half))
    return tuple(1 + nth * (count // 2) % count for nth in range(count))


def order_from_positions(points_mm: Sequence[tuple[float, float]]) -> tuple[int, ...]:
    """Order from where the bolts stand: ring by ring from the centre outwards, across within a ring.

    rings of equal distance from the centroid (3 % of the largest apart); `star_order` within each

    Parameters
    ----------
    points_mm : x, y of each bolt, in the order of their numbers

    Notes
    -----
    One ring (a circle, four corners) gives the star; rows give centre outwards on alternating sides. Two bolts at one
    place are refused.

    Source
    ------
    ASME PCC-1 for the circle (from memory); rows from the centre outwards: common practice, no source.

    Examples
    --------
    >>> order_from_positions([(0, 0), (0, 60), (50, 0), (50, 60), (100, 0), (100, 60)])
    (3, 4, 1, 6, 2, 5)
    """
    points = _placed(points_mm)
    middle = (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))
    away = [(x - middle[0], y - middle[1]) for x, y in points]
    order: list[int] = []
    for ring in _rings(away):
        around = _around(ring, away, order[-1] if order else None)
        star = star_order(len(around)) if len(around) > 1 else (1,)
        order.extend(around[place - 1] for place in star)
    return tuple(nth + 1 for nth in order)


def loosening(order: Sequence[int]) -> tuple[int, ...]:
    """Order for undoing: the exact reverse of tightening.

    last tightened, first loosened, in the same stages backwards

    Parameters
    ----------
    order : of tightening

    Notes
    -----
    Undo each bolt a quarter turn on the first round; a head unloaded from one end warps.

    Source
    ------
    Common practice, no source.

    Examples
    --------
    >>> loosening((1, 3, 2, 4))
    (4, 2, 3, 1)
    """
    return tuple(reversed(order))


def stages_nm(torque_nm: float, shares: Sequence[float] = STAGES) -> tuple[float, ...]:
    """Torque of each round.

    share × T, rising to all of it; then rounds at T until no nut moves

    Parameters
    ----------
    torque_nm : T
    shares : rising, the last one 1

    Notes
    -----
    30, 60, 100 % unless the maker states stages.

    Source
    ------
    ASME PCC-1, legacy tightening (read in a summary).

    Examples
    --------
    >>> [round(t, 1) for t in stages_nm(62)]
    [18.6, 37.2, 62.0]
    """
    torque = positive("torque", torque_nm, unit="N·m")
    steps = [between("stages", share, 0.0, 1.0, ends="(]") for share in shares]
    if not steps or steps != sorted(set(steps)) or steps[-1] != 1:
        given = ", ".join(f"{s:g}" for s in shares)
        raise refuse("stages", "{given} do not rise to 1.", "Give shares such as 0.3, 0.6, 1.", given=given)
    return tuple(share * torque for share in steps)


def _spread(count: int) -> tuple[int, ...]:
    """Starting bolts of the groups: neighbours far apart in time, as the published lists have them."""
    if count <= 3:
        return tuple(range(1, count + 1))
    if count % 2:
        return tuple(range(1, count + 1, 2)) + tuple(range(2, count + 1, 2))
    return tuple(i + turn for i in range(1, count // 2 + 1) for turn in (0, count // 2))


def _placed(points_mm: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    points = [(finite("x", x), finite("y", y)) for x, y in points_mm]
    whole("bolts", len(points), 2, 64)
    seen: dict[tuple[float, float], int] = {}
    for number, point in enumerate(points, 1):
        if point in seen:
            raise refuse(
                f"bolt {number}",
                "stands where bolt {other} stands, at {x}, {y}.",
                "Give each bolt its own place.",
                other=seen[point],
                x=point[0],
                y=point[1],
            )
        seen[point] = number
    return points


def _rings(away: Sequence[tuple[float, float]]) -> list[list[int]]:
    distances = [hypot(*place) for place in away]
    step = SAME_RING * max(distances)
    rings: list[list[int]] = []
    for nth in sorted(range(len(away)), key=lambda n: (distances[n], n)):
        if rings and distances[nth] - distances[rings[-1][0]] <= step:
            rings[-1].append(nth)
        else:
            rings.append([nth])
    return rings


def _around(ring: Sequence[int], away: Sequence[tuple[float, float]], last: int | None) -> list[int]:
    """The ring's bolts around the centre, beginning across from the last one tightened, turning as numbered."""
    angles = {nth: atan2(away[nth][1], away[nth][0]) for nth in ring}
    around = sorted(ring, key=lambda nth: angles[nth])
    first = min(ring) if last is None else max(ring, key=lambda nth: (_apart(away[nth], away[last]), -nth))
    at = around.index(first)
    around = around[at:] + around[:at]
    if len(around) > 2 and around[-1] < around[1]:
        around = [around[0], *reversed(around[1:])]
    return around


def _apart(one: tuple[float, float], other: tuple[float, float]) -> float:
    turn = abs(atan2(one[1], one[0]) - atan2(other[1], other[0]))
    return round(min(turn, 2 * pi - turn), 9)
