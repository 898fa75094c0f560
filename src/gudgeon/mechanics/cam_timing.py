"""Cam timing: what the four events say, whether a chain is a tooth out, and how far milling or wear turns the cams.

Angles are crank degrees unless a name says cam. IVO before top, IVC after bottom, EVO before bottom, EVC after top dead
centre, all at one stated lift.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, cos, degrees, exp, floor, pi, sin, sqrt

from gudgeon.mechanics._given import between, finite, positive, whole
from gudgeon.problem import refuse


@dataclass(frozen=True, slots=True, kw_only=True)
class Timing:
    """What four events amount to; separation in cam degrees, all else in crank degrees."""

    intake_duration_deg: float
    exhaust_duration_deg: float
    intake_centre_deg: float
    exhaust_centre_deg: float
    separation_cam_deg: float
    overlap_deg: float
    advance_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ToothError:
    """The number of teeth that best explains a timing error, what is left over, and how sure that is."""

    teeth: int
    step_deg: float
    residual_deg: float
    probability: float


def timing(ivo_deg: float, ivc_deg: float, evo_deg: float, evc_deg: float) -> Timing:
    """Durations, lobe centres, separation and overlap from the four events.

    D = 180 + a + b; centre_i = D_i/2 − IVO after top; centre_e = D_e/2 − EVC before top;
    separation = (centre_i + centre_e)/2 in cam degrees; overlap = IVO + EVC; advance = separation − centre_i

    Parameters
    ----------
    ivo_deg : intake opens before top
    ivc_deg : intake closes after bottom
    evo_deg : exhaust opens before bottom
    evc_deg : exhaust closes after top (negative values: on the other side)

    Notes
    -----
    Valid: symmetric lobes, all events at one stated lift; otherwise measure the centre.

    Source
    ------
    Definitions, geometry of a symmetric lobe.

    Examples
    --------
    >>> t = timing(20, 60, 60, 20)
    >>> t.intake_duration_deg, t.intake_centre_deg, t.separation_cam_deg, t.overlap_deg
    (260.0, 110.0, 110.0, 40.0)
    """
    for name, value in (("ivo", ivo_deg), ("ivc", ivc_deg), ("evo", evo_deg), ("evc", evc_deg)):
        between(name, value, -90.0, 180.0, unit="°")
    intake, exhaust = 180.0 + ivo_deg + ivc_deg, 180.0 + evo_deg + evc_deg
    between("intake duration", intake, 0.0, 540.0, unit="°", ends="()")
    between("exhaust duration", exhaust, 0.0, 540.0, unit="°", ends="()")
    intake_centre, exhaust_centre = intake / 2 - ivo_deg, exhaust / 2 - evc_deg
    separation = (intake_centre + exhaust_centre) / 2
    return Timing(
        intake_duration_deg=intake,
        exhaust_duration_deg=exhaust,
        intake_centre_deg=intake_centre,
        exhaust_centre_deg=exhaust_centre,
        separation_cam_deg=separation,
        overlap_deg=float(ivo_deg + evc_deg),
        advance_deg=separation - intake_centre,
    )


def tooth_step_deg(cam_teeth: float) -> float:
    """Crank degrees that one tooth of the cam sprocket makes.

    step = 720/N

    Notes
    -----
    Valid: four-stroke, N teeth on the cam sprocket itself.

    Source
    ------
    Geometry: 360/N cam degrees, twice that at the crank.

    Examples
    --------
    >>> tooth_step_deg(36)
    20.0
    """
    return 720.0 / whole("teeth", cam_teeth, 6, 200)


def tooth_error(error_deg: float, cam_teeth: float, u_deg: float = 2.0) -> ToothError:
    """How many teeth out a measured timing error is, what remains, and how sure the number is.

    k = round(error/step); residual = error − k·step; P(k) = exp(−½(r_k/u)²) / Σ_j exp(−½(r_j/u)²)

    Parameters
    ----------
    error_deg : measured minus book, crank degrees, positive late (retarded)
    cam_teeth : N, teeth of the cam sprocket
    u_deg : standard uncertainty of the measured error

    Notes
    -----
    Valid: normal error; every number of teeth equally likely beforehand. A large residual is not a tooth: worn chain,
    tensioner not released, milled head or a wrong mark.

    Source
    ------
    Bayes' rule with equal weights; default u of 2° (degree wheel, mark read by eye): common practice, no source.

    Examples
    --------
    >>> e = tooth_error(19.5, 34)
    >>> e.teeth, round(e.residual_deg, 3), e.probability > 0.999
    (1, -1.676, True)
    """
    step = tooth_step_deg(cam_teeth)
    error = between("error", error_deg, -360.0, 360.0, unit="°")
    u = positive("u", u_deg, unit="°")
    # Nearest whole number, half a step counted towards fewer teeth.
    teeth = floor(abs(error) / step + 0.5 - 1e-12) * (1 if error >= 0 else -1)
    residual = error - teeth * step
    best = (residual / u) ** 2
    others = range(teeth - 3, teeth + 4)
    weights = [exp(-0.5 * (((error - j * step) / u) ** 2 - best)) for j in others]
    return ToothError(teeth=teeth, step_deg=step, residual_deg=residual, probability=1 / sum(weights))


def tooth_odds(error_deg: float, cam_teeth: float, u_deg: float = 2.0) -> tuple[tuple[int, float], ...]:
    """How likely each number of teeth is that a measured timing error may come from, the likeliest first.

    P(k) = exp(−½((error − k·step)/u)²) / Σ_j exp(−½((error − j·step)/u)²), step = 720/N

    Parameters
    ----------
    error_deg, cam_teeth, u_deg : as for `tooth_error`; k counts teeth late (retarded), −k early

    Notes
    -----
    As `tooth_error`; seven numbers of teeth about the nearest one, so that they add up to one.

    Source
    ------
    Bayes' rule with equal weights, as `tooth_error`.

    Examples
    --------
    >>> [(k, round(p, 3)) for k, p in tooth_odds(12.0, 36, u_deg=5.0)[:2]]
    [(1, 0.832), (0, 0.168)]
    """
    step, u = tooth_step_deg(cam_teeth), positive("u", u_deg, unit="°")
    nearest = tooth_error(error_deg, cam_teeth, u_deg)
    least = (nearest.residual_deg / u) ** 2
    weights = {
        k: exp(-0.5 * (((error_deg - k * step) / u) ** 2 - least)) for k in range(nearest.teeth - 3, nearest.teeth + 4)
    }
    whole_weight = sum(weights.values())
    found = [(k, weight / whole_weight) for k, weight in weights.items()]
    return tuple(sorted(found, key=lambda one: (-one[1], abs(one[0]))))


def pitch_radius_mm(pitch_mm: float, teeth: float) -> float:
    """Radius on which the chain's pins lie on a sprocket, in mm.

    R = p/(2·sin(π/N))

    Notes
    -----
    Valid: roller or bush chain of pitch p, N teeth.

    Source
    ------
    Geometry of a regular polygon; also ISO 606.

    Examples
    --------
    >>> round(pitch_radius_mm(6.35, 34), 5)
    34.4105
    """
    return positive("pitch", pitch_mm, unit="mm") / (2 * sin(pi / whole("teeth", teeth, 6, 200)))


def _strand(centre_distance_mm: float, cam_mm: float, crank_mm: float) -> tuple[float, float]:
    """Lean β of the free strand against the line of centres, and its length."""
    distance = positive("centre-distance", centre_distance_mm, unit="mm")
    difference = cam_mm - crank_mm
    if distance <= cam_mm + crank_mm:
        raise refuse(
            "centre-distance",
            "{given} mm was given.",
            "Give more than {least} mm: the sprockets would touch.",
            given=distance,
            least=round(cam_mm + crank_mm, 3),
        )
    return asin(difference / distance), sqrt(distance**2 - difference**2)


def shift_by_milling_deg(
    milled_mm: float, pitch_mm: float, cam_teeth: float, crank_teeth: float, centre_distance_mm: float
) -> float:
    """How far the cam of a chain engine turns when cam and crank come closer, in crank degrees; positive is late.

    φ_cam = m·cos β/R_cam, crank = 2·φ_cam; β = arcsin((R_cam − R_crank)/C)

    Parameters
    ----------
    milled_mm : m, taken off head, cylinder or gasket; negative for a thicker gasket (the cam then comes early)
    pitch_mm, cam_teeth, crank_teeth : chain and sprockets
    centre_distance_mm : C, before milling

    Notes
    -----
    Valid: tensioner on the slack strand (the cam then retards), straight driven strand along the milling direction, no
    bowed guide, polygon action left out; small m against C.

    Source
    ------
    Length of the driven strand held constant, derived here; `shift_by_milling_exact_deg` solves it without linearising.

    Examples
    --------
    >>> round(shift_by_milling_deg(0.30, 6.35, 34, 17, 250), 5)
    0.99669
    """
    cam, crank = pitch_radius_mm(pitch_mm, cam_teeth), pitch_radius_mm(pitch_mm, crank_teeth)
    lean, _ = _strand(centre_distance_mm, cam, crank)
    return degrees(2 * finite("milled", milled_mm) * cos(lean) / cam)


def shift_by_milling_exact_deg(
    milled_mm: float, pitch_mm: float, cam_teeth: float, crank_teeth: float, centre_distance_mm: float
) -> float:
    """As `shift_by_milling_deg`, from the exact half lengths of the chain line before and after, in crank degrees.

    L½(C) = √(C² − ΔR²) + R_cam·(π/2 + β) + R_crank·(π/2 − β); φ_cam = (L½(C) − L½(C − m))/R_cam

    Notes
    -----
    Valid: as `shift_by_milling_deg`; the sprockets must not touch after milling.

    Source
    ------
    Geometry of an open belt on pitch circles, derived here.

    Examples
    --------
    >>> round(shift_by_milling_exact_deg(0.30, 6.35, 34, 17, 250), 6)
    0.996689
    """
    cam, crank = pitch_radius_mm(pitch_mm, cam_teeth), pitch_radius_mm(pitch_mm, crank_teeth)

    def half(distance_mm: float) -> float:
        lean, free = _strand(distance_mm, cam, crank)
        return free + cam * (pi / 2 + lean) + crank * (pi / 2 - lean)

    change = half(centre_distance_mm) - half(centre_distance_mm - finite("milled", milled_mm))
    return degrees(2 * change / cam)


def shift_by_chain_wear_deg(
    elongation_percent: float, pitch_mm: float, cam_teeth: float, crank_teeth: float, centre_distance_mm: float
) -> float:
    """How late a worn chain lets the cam fall, in crank degrees.

    φ_cam = ε·√(C² − (R_cam − R_crank)²)/R_cam, crank = 2·φ_cam

    Parameters
    ----------
    elongation_percent : ε, growth of the chain over a counted number of links, in percent

    Notes
    -----
    Valid: wear spread evenly; only the free driven strand counts, the links on the teeth turn with them; tensioner on
    the slack strand, sprockets unworn.

    Source
    ------
    Geometry, derived here.

    Examples
    --------
    >>> round(shift_by_chain_wear_deg(0.5, 6.35, 34, 17, 250), 4)
    4.1529
    """
    cam, crank = pitch_radius_mm(pitch_mm, cam_teeth), pitch_radius_mm(pitch_mm, crank_teeth)
    _, free = _strand(centre_distance_mm, cam, crank)
    part = between("elongation", elongation_percent, 0.0, 10.0, unit="%") / 100
    return degrees(2 * part * free / cam)
