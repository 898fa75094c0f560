"""How much a face may lose, said before it is skimmed: squish, both valves to the piston with the timing that follows, compression.

A lower head lets the chain's slack strand grow: the cams come late, the exhaust valve closes later and meets the piston
sooner. So the exhaust loses twice, and the intake is not the one that ends it.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, pi

from gudgeon.mechanics.cam_timing import pitch_radius_mm, timing
from gudgeon.mechanics.lift import Lobe
from gudgeon.mechanics.valve_piston import Train, least_gaps
from gudgeon.mechanics.volumes import displacement_cm3
from gudgeon.metrology.student import t_inverse
from gudgeon.plans.shape import Given
from gudgeon.problem import Refused, Said, said
from gudgeon.routes.scopes import asks_for
from gudgeon.verdicts.shape import Verdict

#: How far the compression ratio may rise over the book's on the same fuel (common practice, no source, cautious).
RATIO_MORE = 0.3
#: No face is skimmed by more than this in one go before somebody asks, in mm; where the search for a bound ends.
_FAR_MM = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss:
    """One thing that limits a skim: how much it leaves to be taken off, with its arithmetic."""

    most_mm: float
    words: Said


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceBound:
    """The most a face may lose, everything that was looked at, and what is not measured yet."""

    most_mm: float | None
    because: tuple[Said, ...]
    needs: tuple[str, ...]


def face_bound(given: Given, place: str, *, barrel: bool) -> FaceBound:
    """The bound of a skim at a head, or at the barrel of a cylinder."""
    anatomy = given.state.anatomy
    cylinders = (place,) if barrel else tuple(c for c in anatomy.cylinders if anatomy.head(c) == place)
    losses: list[Loss] = []
    needs: list[str] = []
    for cylinder in cylinders:
        squish = _squish(given, cylinder, barrel=barrel)
        losses += [squish] if squish else []
        needs += [] if squish else [f"squish@{cylinder}"]
        for valve in anatomy.valves_of(cylinder):
            gap = _valve_to_piston(given, valve)
            losses += [gap] if gap else []
            needs += [] if gap else [f"valve_to_piston@{valve}"]
        ratio = _compression(given, cylinder)
        losses += [ratio] if ratio else []
    least = min(losses, key=lambda loss: loss.most_mm, default=None)
    most = floor(max(0.0, least.most_mm) * 100.0 + 1e-6) / 100.0 if least is not None and not needs else None
    asked = asks_for(given.state.scope)
    return FaceBound(most_mm=most, because=_words(losses), needs=tuple(n for n in needs if n.split("@")[0] in asked))


def _words(losses: list[Loss]) -> tuple[Said, ...]:
    """The tightest of each kind only, the tightest first."""
    found: dict[str, Loss] = {}
    for loss in sorted(losses, key=lambda loss: loss.most_mm):
        found.setdefault(loss.words.template, loss)
    return tuple(loss.words for loss in found.values())


def _room(given: Given, verdict: Verdict | None) -> tuple[float, float, float] | None:
    """A gap, its guard, and what is left between them with its doubt taken off."""
    if verdict is None or verdict.value is None or verdict.low is None:
        return None
    room = verdict.value - verdict.low - t_inverse(1.0 - given.rules.risk) * (verdict.u or 0.0)
    return verdict.value, verdict.low, room


def _squish(given: Given, cylinder: str, *, barrel: bool) -> Loss | None:
    """Squish: one for one off the barrel; off the head only as far as its band lies above the face."""
    found = _room(given, given.judged.at("squish", cylinder))
    if found is None:
        return None
    squish, least, room = found
    recess = given.book.geometry.recess.value if given.book.geometry.recess is not None else 0.0
    if not barrel and room >= recess:
        return Loss(most_mm=_FAR_MM, words=said("squish {squish:.2f}: a band flush with the face moves with it",
                                                squish=squish))  # fmt: skip
    return Loss(most_mm=room, words=said("squish {squish:.2f}, at least {least:.2f}: {most:.2f} off",
                                         squish=squish, least=least, most=max(0.0, room)))  # fmt: skip


def _valve_to_piston(given: Given, valve: str) -> Loss | None:
    """Valve to piston: the skim itself, and the timing that follows from it."""
    found = _room(given, given.judged.at("valve_to_piston", valve))
    if found is None:
        return None
    gap, least, room = found
    side = "in" if ".in" in valve else "ex"
    most = most_off(given, side, room)
    late = late_deg(given, 1.0)
    kind = "intake" if side == "in" else "exhaust"
    words = said("{side} valve to piston {gap:.2f}, at least {least:.2f}: {most:.2f} off{late}", side=kind, gap=gap,
                 least=least, most=max(0.0, most), late=_late_words(given, side, late))  # fmt: skip
    return Loss(most_mm=most, words=words)


def _late_words(given: Given, side: str, late: float | None) -> str:
    if given.state.anatomy.layout.cam_drive not in ("chain", "belt"):
        return ""
    if late is not None and _train(given, side) is not None:
        return f", cams {late / 10.0:.1f}° later for each 0.1"
    return ", counted twice: the cams come late" if side == "ex" else ""


def most_off(given: Given, side: str, room_mm: float) -> float:
    """How much may come off until a valve has used up its room.

    With lift, events and chain known the gap is worked out at the later timing; else a chain-driven exhaust counts twice,
    and an intake, which late cams help, once. The lean of the valve is not in the book: taken as none, which is cautious.
    """
    layout = given.state.anatomy.layout
    if layout.cam_drive not in ("chain", "belt"):
        return room_mm
    if _train(given, side) is None or late_deg(given, 1.0) is None:
        return room_mm / 2.0 if side == "ex" else room_mm
    low, high = 0.0, _FAR_MM
    if lost_mm(given, side, high) <= room_mm:
        return high
    for _ in range(30):
        middle = (low + high) / 2.0
        low, high = (middle, high) if lost_mm(given, side, middle) <= room_mm else (low, middle)
    return low


def lost_mm(given: Given, side: str, milled_mm: float) -> float:
    """What a valve loses to the piston when so much comes off: the metal, and what its later timing takes or gives."""
    import numpy as np

    train, late = _train(given, side), late_deg(given, milled_mm)
    assert train is not None
    assert late is not None
    model, centre = train
    gaps, _ = least_gaps(model, np.zeros(2), np.array([centre, centre + late]), np.zeros(2))
    return milled_mm + float(gaps[0] - gaps[1])


def late_deg(given: Given, milled_mm: float) -> float | None:
    """How late the cams come, in crank degrees, at most: 2·m/R, as if the driven strand ran straight along the cut.

    Source: `mechanics.cam_timing.shift_by_milling_deg` with cos β = 1, its largest value; the centre distance is not in books.
    """
    geometry = given.book.geometry
    if geometry.chain_pitch is None or geometry.cam_teeth is None:
        return None
    return 360.0 / pi * milled_mm / pitch_radius_mm(geometry.chain_pitch.value, geometry.cam_teeth)


def _train(given: Given, side: str) -> tuple[Train, float] | None:
    """Crank and lobe of a side with its centre, where the book prints lift and events."""
    geometry, cams = given.book.geometry, [given.book.cam(s) for s in ("in", "ex")]
    event = given.book.cam(side)
    if geometry.stroke is None or geometry.rod is None or event is None or event.lift is None or None in cams:
        return None
    try:
        intake, exhaust = (c for c in cams if c is not None)
        times = timing(intake.opens.value, intake.closes.value, exhaust.opens.value, exhaust.closes.value)
        length = times.intake_duration_deg if side == "in" else times.exhaust_duration_deg
        lobe = Lobe(law="3-4-5", lift_mm=event.lift.value, half_event_cam_deg=length / 4.0)
        train = Train(stroke_mm=geometry.stroke.value, rod_mm=geometry.rod.value, lobe=lobe)
    except Refused:
        return None
    return train, times.intake_centre_deg if side == "in" else -times.exhaust_centre_deg


def _compression(given: Given, cylinder: str) -> Loss | None:
    """The compression ratio: a skim takes at most the area of bore or gasket times its depth off the room above the piston."""
    geometry = given.book.geometry
    if geometry.bore is None or geometry.stroke is None or geometry.compression_ratio is None:
        return None
    ratio = geometry.compression_ratio.value
    if ratio <= 1.0:
        return None
    swept = displacement_cm3(geometry.bore.value, geometry.stroke.value)
    wide = max(geometry.bore.value, geometry.gasket_bore.value if geometry.gasket_bore is not None else 0.0)
    taken = swept / (ratio - 1.0) - swept / (ratio + RATIO_MORE - 1.0)
    most = taken / (pi / 4.0 * wide**2 / 1000.0)
    words = said("compression ratio {ratio:.2f} by the book, at most {most_ratio:.2f}: {most:.2f} off", ratio=ratio,
                 most_ratio=ratio + RATIO_MORE, most=most)  # fmt: skip
    return Loss(most_mm=most, words=words)
