"""A degree wheel's angles against the book: how late a cam is, and which tooth that is, each number with its likelihood."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt

from gudgeon.book.engine import CamEvent
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.mechanics.cam_timing import timing, tooth_error, tooth_odds
from gudgeon.plans.evidence import Evidence
from gudgeon.verdicts.value import Value

KEY = "cam_angle"


@dataclass(frozen=True, slots=True, kw_only=True)
class OffBy:
    """How late a cam is by the wheel, in crank degrees, early below zero; and how likely each number of teeth is."""

    cam: str
    late_deg: float
    u_deg: float
    teeth: int | None
    residual_deg: float
    odds: tuple[tuple[int, float], ...]
    longer_deg: float | None
    u_longer_deg: float
    rests_on: tuple[int, ...]


def side_of(cam: str) -> str:
    """The side whose events a cam is read by; a cam that works both is read by its intake."""
    return "ex" if ".ex" in cam else "in"


def off_by(evidence: Evidence, cam: str) -> OffBy | None:
    """What the wheel says of a cam; nothing where it was not read, or the book prints no events."""
    event, read = evidence.given.book.cam(side_of(cam)), _read(evidence, cam)
    if event is None or not read:
        return None
    lates = _lates(event, read)
    if not lates:
        return None
    values = [read[point] for point in lates]
    shared = max(_part(v, shared=True) for v in values)
    own = sqrt(sum(_part(v, shared=False) ** 2 for v in values)) / len(values)
    late, u = sum(lates.values()) / len(lates), max(hypot(shared, own), 1e-3)
    longer = lates["closes"] - lates["opens"] if {"opens", "closes"} <= set(lates) else None
    teeth: int | None = None
    odds: tuple[tuple[int, float], ...] = ()
    rest = late
    if evidence.given.book.geometry.cam_teeth is not None:
        n = float(evidence.given.book.geometry.cam_teeth)
        nearest, odds = tooth_error(late, n, u), tooth_odds(late, n, u)
        teeth, rest = nearest.teeth, nearest.residual_deg
    return OffBy(
        cam=cam,
        late_deg=late,
        u_deg=u,
        teeth=teeth,
        residual_deg=rest,
        odds=odds,
        longer_deg=longer,
        u_longer_deg=max(own * len(values), 1e-3),
        rests_on=tuple(v.seq for v in values),
    )


def _read(evidence: Evidence, cam: str) -> dict[str, Value]:
    """The last angle of each point that still stands."""
    found: dict[str, Value] = {}
    for taken in evidence.state.readings:
        if taken.fact.measurand == KEY and taken.fact.where == cam and taken.fresh:
            value = evidence.interpreter.value(taken, MEASURANDS[KEY])
            if value is not None and value.known is not None:
                found[taken.fact.point] = value
    return found


def _lates(event: CamEvent, read: dict[str, Value]) -> dict[str, float]:
    """How late each angle is: opening and closing say it together; the lobe centre says it where they were not read."""
    book = {"opens": event.opens.value, "closes": event.closes.value}
    angles = {point: v.known.value for point, v in read.items() if v.known}
    found = {}
    if "opens" in angles:
        found["opens"] = book["opens"] - angles["opens"]
    if "closes" in angles:
        found["closes"] = angles["closes"] - book["closes"]
    if not found and "centre" in angles:
        centre = _centre(event)
        found["centre"] = angles["centre"] - centre if event.side == "in" else centre - angles["centre"]
    return found


def _centre(event: CamEvent) -> float:
    """The lobe centre of a symmetric lobe: intake after top, exhaust before it."""
    opens, closes = event.opens.value, event.closes.value
    if event.side == "in":
        return timing(opens, closes, 50.0, 10.0).intake_centre_deg
    return timing(10.0, 50.0, opens, closes).exhaust_centre_deg


def _part(value: Value, *, shared: bool) -> float:
    """What the wheel and its zero get wrong in every angle alike, or what this angle alone does."""
    parts = value.known.parts if value.known else ()
    return hypot(*(part for label, part in parts if label.startswith("gauge ") == shared))
