"""What four event angles amount to: lobe centres and overlap tell a wrong mark from a wrong cam."""

from __future__ import annotations

from gudgeon.calculators.shape import Answer, Calculator, Key, Result
from gudgeon.mechanics.cam_timing import timing


def work(*, ivo: float, ivc: float, evo: float, evc: float) -> Answer:
    t = timing(ivo, ivc, evo, evc)
    return Answer(
        events=(ivo, ivc, evo, evc),
        results=(
            Result(name="intake duration", value=t.intake_duration_deg, unit="°"),
            Result(name="exhaust duration", value=t.exhaust_duration_deg, unit="°"),
            Result(name="intake centre", value=t.intake_centre_deg, unit="°"),
            Result(name="exhaust centre", value=t.exhaust_centre_deg, unit="°"),
            Result(name="lobe separation", value=t.separation_cam_deg, unit="°"),
            Result(name="overlap", value=t.overlap_deg, unit="°"),
            Result(name="advance", value=t.advance_deg, unit="°"),
        ),
        method="duration = 180 + both events; centre = half the duration less the event at top; "
        "separation = mean of both centres; overlap = IVO + EVC; advance = separation − intake centre",
        source="definitions, geometry of a symmetric lobe",
        validity="symmetric lobes, all four events at the same lift; crank degrees, separation in cam degrees",
        notes=(
            "Intake centre after top dead centre, exhaust centre before it.",
            "Both events late by the same angle: the cam is late. One late, one early: the lash is wrong, not the mark.",
        ),
    )


KIND = Calculator(
    key="cam-events",
    line="durations, lobe centres, separation and overlap from the four events",
    keys=(
        Key(name="ivo", dimension="angle", help="intake opens, before top dead centre"),
        Key(name="ivc", dimension="angle", help="intake closes, after bottom dead centre"),
        Key(name="evo", dimension="angle", help="exhaust opens, before bottom dead centre"),
        Key(name="evc", dimension="angle", help="exhaust closes, after top dead centre"),
    ),
    work=work,
    example="ivo=20 ivc=60 evo=60 evc=20",
)
