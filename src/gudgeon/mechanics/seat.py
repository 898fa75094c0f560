"""The valve seat: how wide the contact ring is, where it sits, what a cut does to it, and what a sunk valve moves.

Seat angles are given the workshop way, *from the plane square to the stem*: a 45° seat has α = 45, its included cone is
180° − 2α. All feeds are along the stem, positive into the head.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, radians, tan

from gudgeon.mechanics._given import between, finite, not_negative, positive
from gudgeon.problem import refuse


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """The seat ring between its two edges, as diameters."""

    outer_mm: float
    inner_mm: float

    @property
    def mean_mm(self) -> float:
        """Diameter of the middle of the ring: where the valve touches, on average."""
        return (self.outer_mm + self.inner_mm) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Angles:
    """Seat angle and the two that narrow it: top (flatter, outside) and throat (steeper, inside)."""

    seat_deg: float
    top_deg: float
    throat_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Feeds:
    """How deep each cutter goes after it first touches, along the stem."""

    seat_mm: float = 0.0
    top_mm: float = 0.0
    throat_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SinkMoves:
    """Signed changes of everything that a valve sunk by `s` moves."""

    lash_at_valve_mm: float
    lash_at_cam_mm: float
    tip_height_mm: float
    recession_mm: float
    installed_height_mm: float
    spring_load_n: float
    bind_margin_mm: float
    valve_to_piston_mm: float
    chamber_cm3: float
    squish_mm: float = 0.0


def _seat_angle(seat_deg: float) -> float:
    return between("seat-angle", seat_deg, 0.0, 90.0, unit="°", ends="()")


def _ring(ring: Ring) -> Ring:
    positive("inner", ring.inner_mm, unit="mm")
    if not finite("outer", ring.outer_mm) > ring.inner_mm:
        raise refuse(
            "outer",
            "The outer edge, {outer} mm, is not outside the inner edge, {inner} mm.",
            "Give the larger diameter as the outer edge; a ring cut to nothing has no seat left.",
            outer=round(ring.outer_mm, 6),
            inner=round(ring.inner_mm, 6),
        )
    return ring


def width_mm(ring: Ring, seat_deg: float) -> float:
    """Width of the ring along the seat face, as a pencil mark or blue shows it, in mm.

    w = (Do − Di)/(2·cos α)

    Notes
    -----
    Valid: 0 < α < 90°, Do > Di > 0. The radial part is w·cos α, the axial part w·sin α.

    Source
    ------
    Geometry, derived here.

    Check
    -----
    Α 45, Do 27.0, Di 24.6 → 1.697056 mm.

    Examples
    --------
    >>> round(width_mm(Ring(outer_mm=27.0, inner_mm=24.6), 45), 6)
    1.697056
    """
    _ring(ring)
    return (ring.outer_mm - ring.inner_mm) / (2 * cos(radians(_seat_angle(seat_deg))))


def ring_of(width_along_face_mm: float, mean_mm: float, seat_deg: float) -> Ring:
    """The edges of a ring of a given width along the face and mean diameter.

    Do, Di = mean ± w·cos α

    Notes
    -----
    Valid: as `width_mm`; the inner edge must stay above 0.

    Source
    ------
    Geometry, derived here.

    Check
    -----
    W 1.2 on 25.6 at 45° → 26.448528, 24.751472 mm.

    Examples
    --------
    >>> ring = ring_of(1.2, 25.6, 45)
    >>> round(ring.outer_mm, 6), round(ring.inner_mm, 6)
    (26.448528, 24.751472)
    """
    half = positive("width", width_along_face_mm, unit="mm") * cos(radians(_seat_angle(seat_deg)))
    positive("mean", mean_mm, unit="mm")
    return _ring(Ring(outer_mm=mean_mm + half, inner_mm=mean_mm - half))


def _slopes(angles: Angles) -> tuple[float, float]:
    """tan α − tan βtop and tan βthroat − tan α: how fast each edge moves with a feed."""
    seat = _seat_angle(angles.seat_deg)
    top = between("top-angle", angles.top_deg, 0.0, seat, unit="°", ends="[)")
    throat = between("throat-angle", angles.throat_deg, seat, 90.0, unit="°", ends="()")
    return tan(radians(seat)) - tan(radians(top)), tan(radians(throat)) - tan(radians(seat))


def after_cuts(ring: Ring, angles: Angles, feeds: Feeds) -> Ring:
    """The ring after the cutters went in by their feeds, in any order.

    A seat cut *widens* the ring at both edges; the top cut takes it from outside, the throat cut from inside.

    Do' = Do + 2(zs − zt)/(tan α − tan βt); Di' = Di + 2(zb − zs)/(tan βb − tan α)

    Notes
    -----
    Valid: βt < α < βb < 90°; each cutter already touches the seat at the edge it moves; the insert is wide enough.

    Source
    ------
    Intersection of cones, derived here.

    Check
    -----
    Cutter table 45/30/60, 45/15/60, 45/15/75.

    Examples
    --------
    >>> ring = after_cuts(Ring(outer_mm=27.0, inner_mm=24.6), Angles(seat_deg=45, top_deg=30, throat_deg=60),
    ...                   Feeds(top_mm=0.116540, throat_mm=0.055443))
    >>> round(ring.outer_mm, 4), round(ring.inner_mm, 4)
    (26.4485, 24.7515)
    """
    _ring(ring)
    top, throat = _slopes(angles)
    not_negative("seat-feed", feeds.seat_mm, unit="mm")
    not_negative("top-feed", feeds.top_mm, unit="mm")
    not_negative("throat-feed", feeds.throat_mm, unit="mm")
    outer_mm = ring.outer_mm + 2 * (feeds.seat_mm - feeds.top_mm) / top
    inner_mm = ring.inner_mm + 2 * (feeds.throat_mm - feeds.seat_mm) / throat
    if outer_mm <= inner_mm:
        raise refuse(
            "ring",
            "These feeds cut the ring away: outer edge {outer} mm, inner edge {inner} mm.",
            "Feed the top or throat cutter less, or the seat cutter deeper.",
            outer=round(outer_mm, 4),
            inner=round(inner_mm, 4),
        )
    return Ring(outer_mm=outer_mm, inner_mm=inner_mm)


def feeds_for(ring: Ring, angles: Angles, wanted: Ring) -> Feeds:
    """The least feeds that turn the ring found into the ring wanted.

    Where the wanted ring reaches beyond the one found, the seat cutter goes in first, just deep enough for both edges;
    the other two then take off what is too much.

    zs = max(0, (Do' − Do)(tan α − tan βt)/2, (Di − Di')(tan βb − tan α)/2);
    zt = zs − (Do' − Do)(tan α − tan βt)/2; zb = zs + (Di' − Di)(tan βb − tan α)/2

    Notes
    -----
    Valid: as `after_cuts`, whose inverse it is. The seat feed is the sink of the valve.

    Source
    ------
    Geometry, derived here.

    Check
    -----
    Α 45/30/60, 27.0/24.6 → 1.2 wide on 25.6: top 0.116540, throat 0.055443 mm.

    Examples
    --------
    >>> feeds = feeds_for(Ring(outer_mm=27.0, inner_mm=24.6), Angles(seat_deg=45, top_deg=30, throat_deg=60),
    ...                   ring_of(1.2, 25.6, 45))
    >>> feeds.seat_mm, round(feeds.top_mm, 6), round(feeds.throat_mm, 6)
    (0.0, 0.11654, 0.055443)
    """
    _ring(ring)
    _ring(wanted)
    top, throat = _slopes(angles)
    outward_mm = (wanted.outer_mm - ring.outer_mm) * top / 2
    inward_mm = (ring.inner_mm - wanted.inner_mm) * throat / 2
    seat_mm = max(0.0, outward_mm, inward_mm)
    return Feeds(seat_mm=seat_mm, top_mm=seat_mm - outward_mm, throat_mm=seat_mm - inward_mm)


def sink_mm(removed_mm: float, seat_deg: float) -> float:
    """How far the valve sinks when metal is removed square to the seat or valve face, in mm.

    s = t/cos α. Not t/sin α: at 45° both agree, at 30° the wrong one gives 2·t.

    Notes
    -----
    Valid: α from the plane square to the stem, 0 < α < 90°; seat and valve face add.

    Source
    ------
    Geometry, derived here.

    Check
    -----
    30° 1.154701, 44° 1.390164, 45° 1.414214, 46° 1.439557 times t.

    Examples
    --------
    >>> round(sink_mm(0.1, 30), 6), round(sink_mm(0.1, 45), 6)
    (0.11547, 0.141421)
    """
    return not_negative("removed", removed_mm, unit="mm") / cos(radians(_seat_angle(seat_deg)))


def removed_mm(sunk_mm: float, seat_deg: float) -> float:
    """How much metal left the faces, square to them, when the valve sank, in mm.

    t = s·cos α

    Notes
    -----
    Valid: as `sink_mm`, whose inverse it is.

    Source
    ------
    Geometry, derived here.

    Check
    -----
    Inverse of `sink_mm`.

    Examples
    --------
    >>> round(removed_mm(0.141421, 45), 4)
    0.1
    """
    return not_negative("sink", sunk_mm, unit="mm") * cos(radians(_seat_angle(seat_deg)))


def interference_gap_mm(width_along_face_mm: float, difference_deg: float) -> float:
    """Gap at the far edge of the ring when valve face and seat differ in angle, in mm.

    gap = w·tan δ, square to the seat face

    Notes
    -----
    Valid: small δ, contact at one edge.

    Source
    ------
    Geometry, derived here.

    Check
    -----
    1° over 1.2 mm → 0.02095 mm.

    Examples
    --------
    >>> round(interference_gap_mm(1.2, 1.0), 5)
    0.02095
    """
    between("difference", difference_deg, 0.0, 10.0, unit="°")
    return not_negative("width", width_along_face_mm, unit="mm") * tan(radians(difference_deg))


def sink_moves(
    sink_mm: float,
    *,
    ratio: float = 1.0,
    spring_rate_n_per_mm: float = 0.0,
    valve_diameter_mm: float = 0.0,
) -> SinkMoves:
    """Everything that moves when a valve sinks deeper into the head (seat cut, worn faces), with its sign.

    lash −s at the valve, −s/i at the cam; tip, recession, installed height, bind margin, valve-to-piston +s;
    spring load −k·s; chamber about +(π/4)·Dv²·s; squish 0

    Parameters
    ----------
    sink_mm : how far the valve went in; negative for a new insert that stands higher.
    ratio : lever ratio i, for the lash read at the cam (1 for a bucket).
    spring_rate_n_per_mm : for the loss of spring load.
    valve_diameter_mm : head diameter, for the chamber.

    Notes
    -----
    Valid: tip, shim, retainer and keepers unchanged; chamber: flat valve head that fills its hole.

    Source
    ------
    Geometry, derived here.

    Check
    -----
    K 18.2405, 0.4 mm → −7.2962 N.

    Examples
    --------
    >>> moves = sink_moves(0.4, ratio=1.5, spring_rate_n_per_mm=18.240503, valve_diameter_mm=30)
    >>> moves.lash_at_valve_mm, round(moves.lash_at_cam_mm, 4), round(moves.spring_load_n, 4)
    (-0.4, -0.2667, -7.2962)
    """
    s = finite("sink", sink_mm)
    return SinkMoves(
        lash_at_valve_mm=-s,
        lash_at_cam_mm=-s / positive("ratio", ratio),
        tip_height_mm=s,
        recession_mm=s,
        installed_height_mm=s,
        spring_load_n=-not_negative("rate", spring_rate_n_per_mm, unit="N/mm") * s,
        bind_margin_mm=s,
        valve_to_piston_mm=s,
        chamber_cm3=pi / 4 * not_negative("valve-diameter", valve_diameter_mm, unit="mm") ** 2 * s / 1000,
    )
