"""Valve lift: the textbook laws a lobe may follow, a lobe made of one, and a curve through a measured table.

Rise fraction s over u = 0 … 1; dashes are derivatives by u. For a rise h over an angle β: lift h·s, velocity h·s′/β,
acceleration h·s″/β², jerk h·s‴/β³.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi, sqrt
from typing import TYPE_CHECKING, Any

from gudgeon.mechanics._given import between, finite, positive
from gudgeon.problem import refuse

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

# Polynomials as (power, factor); the others as pieces (length, A, ω, φ) of acceleration A·sin(ω·t + φ).
_POLYNOMIALS: dict[str, tuple[tuple[int, float], ...]] = {
    "3-4-5": ((3, 10.0), (4, -15.0), (5, 6.0)),
    "4-5-6-7": ((4, 35.0), (5, -84.0), (6, 70.0), (7, -20.0)),
}
_SINE, _TRAPEZOID = 4 * pi**2 / (4 + pi), 8 * pi / (2 + pi)
_PIECES: dict[str, tuple[tuple[float, float, float, float], ...]] = {
    "cycloidal": ((1.0, 2 * pi, 2 * pi, 0.0),),
    "simple harmonic": ((1.0, pi**2 / 2, pi, pi / 2),),
    "modified sine": (
        (0.125, _SINE, 4 * pi, 0.0),
        (0.75, _SINE, 4 * pi / 3, pi / 2),
        (0.125, _SINE, 4 * pi, 1.5 * pi),
    ),
    "modified trapezoid": (
        (0.125, _TRAPEZOID, 4 * pi, 0.0),
        (0.25, _TRAPEZOID, 0.0, pi / 2),
        (0.25, _TRAPEZOID, 4 * pi, pi / 2),
        (0.25, _TRAPEZOID, 0.0, -pi / 2),
        (0.125, _TRAPEZOID, 4 * pi, -pi / 2),
    ),
}
LAWS: tuple[str, ...] = (*_POLYNOMIALS, *_PIECES)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lobe:
    """A symmetric lobe: full lift at the valve, and half its event in cam degrees, without ramps."""

    law: str
    lift_mm: float
    half_event_cam_deg: float

    def __post_init__(self) -> None:
        _known(self.law)
        positive("lift", self.lift_mm, unit="mm")
        between("half event", self.half_event_cam_deg, 0.0, 180.0, unit="°", ends="(]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """Lift and its derivatives by the cam angle in radians."""

    lift_mm: float
    velocity_mm_per_rad: float
    acceleration_mm_per_rad2: float
    jerk_mm_per_rad3: float


def _known(law: str) -> str:
    if law not in LAWS:
        raise refuse("law", "{given} is no lift law.", "Give one of: {laws}.", given=law, laws=", ".join(LAWS))
    return law


def rises(law: str, u: Floats, rows: int = 4) -> tuple[Floats, ...]:
    """Rise fraction and its derivatives by u, for an array of u from 0 to 1: the first `rows` of s, s′, s″, s‴.

    3-4-5: s = 10u³ − 15u⁴ + 6u⁵; 4-5-6-7: s = 35u⁴ − 84u⁵ + 70u⁶ − 20u⁷; cycloidal: s″ = 2π·sin 2πu;
    simple harmonic: s″ = (π²/2)·cos πu; modified sine and trapezoid: s″ of sine pieces and, for the trapezoid, flats

    Notes
    -----
    Valid: 0 ≤ u ≤ 1 (beyond, the ends are held by the caller).

    Source
    ------
    Norton, Cam Design and Manufacturing Handbook (from memory); the pieces are integrated here in closed form.

    Examples
    --------
    >>> import numpy as np
    >>> [round(float(d[0]), 6) for d in rises("3-4-5", np.array([0.5]))]
    [0.5, 1.875, 0.0, -30.0]
    """
    if _known(law) in _POLYNOMIALS:
        return _polynomial(_POLYNOMIALS[law], u, rows)
    return _pieces(_PIECES[law], u)[:rows]


def _polynomial(terms: tuple[tuple[int, float], ...], u: Floats, rows: int) -> tuple[Floats, ...]:
    """Horner from the highest power down, one row of factors after the other."""
    found = []
    power, factors = terms[0][0], [factor for _, factor in terms]
    for _ in range(rows):
        value = u * factors[-1]
        for factor in factors[-2:0:-1]:
            value += factor
            value *= u
        value += factors[0]
        for _ in range(power):
            value *= u
        found.append(value)
        factors = [factor * (power + place) for place, factor in enumerate(factors)]
        power -= 1
    return tuple(found)


def _pieces(pieces: tuple[tuple[float, float, float, float], ...], u: Floats) -> tuple[Floats, ...]:
    import numpy as np

    out = [np.zeros_like(u) for _ in range(4)]
    start = s0 = v0 = 0.0
    for length, amplitude, omega, phase in pieces:
        piece = _piece(np.clip(u - start, 0.0, length), s0, v0, amplitude, omega, phase)
        here = u >= start
        for row, value in zip(out, piece, strict=True):
            np.copyto(row, value, where=here)
        end = _piece(np.array([length]), s0, v0, amplitude, omega, phase)
        s0, v0, start = float(end[0][0]), float(end[1][0]), start + length
    return tuple(out)


def _piece(t: Floats, s0: float, v0: float, amplitude: float, omega: float, phase: float) -> tuple[Floats, ...]:
    """Exact integrals of A·sin(ω·t + φ) from a start (s0, v0)."""
    import numpy as np

    angle = omega * t + phase
    acceleration = amplitude * np.sin(angle)
    jerk = amplitude * omega * np.cos(angle)
    if omega == 0.0:
        return s0 + v0 * t + acceleration * t**2 / 2, v0 + acceleration * t, acceleration, jerk
    first = np.cos(phase)
    velocity = v0 + amplitude / omega * (first - np.cos(angle))
    lift = s0 + v0 * t + amplitude / omega * (first * t - (np.sin(angle) - np.sin(phase)) / omega)
    return lift, velocity, acceleration, jerk


def motion(lobe: Lobe, cam_deg: float) -> Motion:
    """Lift, velocity, acceleration and jerk of a lobe at an angle from its centre (cam degrees, late positive).

    u = 1 − |φ|/β, lift h·s(u); velocity h·s′/β downhill after the centre

    Notes
    -----
    Valid: symmetric lobe without ramps; zero outside the event.

    Source
    ------
    As `rises`.

    Examples
    --------
    >>> m = motion(Lobe(law="3-4-5", lift_mm=8, half_event_cam_deg=65), 0.0)
    >>> m.lift_mm, m.velocity_mm_per_rad
    (8.0, 0.0)
    """
    import numpy as np

    angle = finite("angle", cam_deg)
    u = 1 - abs(angle) / lobe.half_event_cam_deg
    if u <= 0:
        return Motion(lift_mm=0.0, velocity_mm_per_rad=0.0, acceleration_mm_per_rad2=0.0, jerk_mm_per_rad3=0.0)
    s, v, a, j = (float(row[0]) for row in rises(lobe.law, np.array([u])))
    beta = lobe.half_event_cam_deg * pi / 180
    way = -1.0 if angle > 0 else 1.0
    h = lobe.lift_mm
    return Motion(
        lift_mm=h * s,
        velocity_mm_per_rad=way * h * v / beta + 0.0,
        acceleration_mm_per_rad2=h * a / beta**2,
        jerk_mm_per_rad3=way * h * j / beta**3,
    )


def duration_at_lift_deg(lobe: Lobe, lift_mm: float) -> float:
    """Crank degrees for which the valve is further open than a lift.

    D = 4·β·(1 − u), h·s(u) = lift

    Notes
    -----
    Valid: 0 ≤ lift < full lift; four-stroke.

    Source
    ------
    Geometry of a symmetric lobe; solved by bisection.

    Examples
    --------
    >>> round(duration_at_lift_deg(Lobe(law="3-4-5", lift_mm=8, half_event_cam_deg=65), 1.0), 3)
    189.962
    """
    import numpy as np

    wanted = between("lift", lift_mm, 0.0, lobe.lift_mm, unit="mm", ends="[)") / lobe.lift_mm
    low, high = 0.0, 1.0
    for _ in range(60):
        middle = (low + high) / 2
        if float(rises(lobe.law, np.array([middle]))[0][0]) < wanted:
            low = middle
        else:
            high = middle
    return 4 * lobe.half_event_cam_deg * (1 - low)


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftCurve:
    """A smooth curve through a measured lift table; ask it with `at`."""

    low_deg: float
    high_deg: float
    knots: int
    rms_mm: float
    spline: Any

    def at(self, cam_deg: float) -> Motion:
        """Lift and derivatives at an angle within the table."""
        angle = between("angle", cam_deg, self.low_deg, self.high_deg, unit="°")
        per_rad = 180 / pi
        lift, velocity, acceleration, jerk = (float(self.spline(angle, nu=order)) for order in range(4))
        return Motion(
            lift_mm=lift,
            velocity_mm_per_rad=velocity * per_rad,
            acceleration_mm_per_rad2=acceleration * per_rad**2,
            jerk_mm_per_rad3=jerk * per_rad**3,
        )


def curve_through(cam_deg: Sequence[float], lift_mm: Sequence[float], u_mm: float) -> LiftCurve:
    """The smoothest quintic spline that stays within the reading error of a measured lift table.

    Σ (y_i − S(φ_i))² ≤ (n − √(2n))·u², S with as few knots as that allows

    Parameters
    ----------
    cam_deg : angles, rising
    lift_mm : readings
    u_mm : standard uncertainty of one reading: it decides how much is smoothed away

    Notes
    -----
    Valid: 8 readings or more, rising angles. Velocity and acceleration may be trusted inside the table, jerk is a trend
    only, and none of the three in the last steps at either end.

    Source
    ------
    Reinsch (1967) for the bound, the lower end of his range; Dierckx's search for the knots (FITPACK).

    Examples
    --------
    >>> import math
    >>> angles = [3.0 * i for i in range(41)]
    >>> curve = curve_through(angles, [4 - 4 * math.cos(math.radians(3 * a)) for a in angles], 0.002)
    >>> round(curve.at(60).lift_mm, 2)
    8.0
    """
    import numpy as np
    from scipy.interpolate import UnivariateSpline

    positive("u", u_mm, unit="mm")
    if len(cam_deg) != len(lift_mm) or len(cam_deg) < 8:
        raise refuse(
            "points",
            "{angles} angles and {lifts} lifts were given.",
            "Give at least 8 pairs.",
            angles=len(cam_deg),
            lifts=len(lift_mm),
        )
    x = np.array([finite("angle", value) for value in cam_deg])
    y = np.array([finite("lift", value) for value in lift_mm])
    falls = np.flatnonzero(np.diff(x) <= 0)
    if falls.size:
        raise refuse(
            "points",
            "Angle {given}° does not come after the one before.",
            "Sort by angle.",
            given=float(x[falls[0] + 1]),
        )
    spline = UnivariateSpline(x, y, k=5, s=(len(x) - sqrt(2 * len(x))) * u_mm**2)
    rms = float(np.sqrt(np.mean((spline(x) - y) ** 2)))
    return LiftCurve(
        low_deg=float(x[0]), high_deg=float(x[-1]), knots=len(spline.get_knots()), rms_mm=rms, spline=spline
    )
