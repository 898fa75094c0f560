"""Least room between valve and piston: a milled head or a late cam takes it away where no gauge reaches."""

from __future__ import annotations

from gudgeon.calculators.shape import WORDS, Answer, Calculator, Curve, Key, Result
from gudgeon.mechanics import valve_piston as m
from gudgeon.mechanics.lift import LAWS, Lobe

LAW_OF = {law.replace(" ", "-"): law for law in LAWS}


def work(
    *,
    gap: float,
    stroke: float,
    rod: float,
    lift: float,
    duration: float,
    centre: float,
    valve_angle: float,
    offset: float,
    lash: float,
    milled: float,
    sunk: float,
    u_gap: float,
    u_centre: float,
    u_lash: float,
    law: str,
) -> Answer:
    lobe = Lobe(law=LAW_OF[law], lift_mm=lift, half_event_cam_deg=duration / 4)
    train = m.Train(stroke_mm=stroke, rod_mm=rod, lobe=lobe, valve_angle_deg=valve_angle, offset_mm=offset)
    shut = m.gap_shut_after_mm(gap, valve_angle, milled_mm=milled, sunk_mm=sunk)
    found = m.least_gap(
        train, m.Known(value=shut, u=u_gap), m.Known(value=centre, u=u_centre), m.Known(value=lash, u=u_lash), seed=1
    )
    results = [
        Result(name="least clearance", value=found.gap_mm, unit="mm"),
        Result(name="at crank angle after top", value=found.crank_deg, unit="°"),
        Result(name="clearance at top, valve shut", value=shut, unit="mm"),
    ]
    if u_gap or u_centre or u_lash:
        results += [
            Result(name="standard uncertainty", value=found.u_mm, unit="mm"),
            Result(name="low end, 95 %", value=found.low_mm, unit="mm"),
            Result(name="high end, 95 %", value=found.high_mm, unit="mm"),
        ]
    chain = ("A chain-driven cam turns too: move the centre by what timing-shift says.",) if milled else ()
    touch = ("They touch: do not turn this engine, not even by hand.",) if found.gap_mm <= 0 else ()
    return Answer(
        curves=_curves(train, shut, centre, lash),
        results=tuple(results),
        method="least over the crank of gap + piston travel · cos(valve angle) − (lift − lash); by slope, not by steps",
        source="slider-crank (Heywood, from memory) and the valve's axis, derived; uncertainty after JCGM 101:2008",
        validity="pocket parallel to the valve head, rigid parts, symmetric lobe without ramps; exhaust: negative centre",
        notes=(*touch, *chain, "A least clearance is the maker's figure; check with clay on the piston before the first turn. "
               "The maker's manual, local codes and licensed practice come first."),
    )  # fmt: skip


def _curves(train: m.Train, shut: float, centre: float, lash: float) -> tuple[Curve, ...]:
    """The room that the piston leaves along the valve axis, and how much of it the valve takes, around top dead centre."""
    degrees = range(-60, 61, 2)
    gaps = [m.gap_at_mm(train, at, shut, centre, lash) for at in degrees]
    rooms = [m.gap_at_mm(train, at, shut, centre, lash + train.lobe.lift_mm) for at in degrees]
    lifts = [room - gap for room, gap in zip(rooms, gaps, strict=True)]
    found = (("room to the piston", rooms), ("valve lift", lifts), ("clearance", gaps))
    return tuple(Curve(name=name, points=tuple(zip(map(float, degrees), line, strict=True))) for name, line in found)


KIND = Calculator(
    key="valve-to-piston",
    line="least valve-to-piston clearance through the cycle, with its uncertainty",
    keys=(
        Key(name="gap", dimension="length", help="along the valve axis at top dead centre, valve shut"),
        Key(name="stroke", dimension="length", help="stroke"),
        Key(name="rod", dimension="length", help="rod, centre to centre"),
        Key(name="lift", dimension="length", help="full lift at the valve"),
        Key(name="duration", dimension="angle", help="crank degrees from seat to seat"),
        Key(name="centre", dimension="angle", help="lobe centre after top dead centre; exhaust negative"),
        Key(name="valve-angle", dimension="angle", help="valve axis to bore axis", default="0°"),
        Key(name="offset", dimension="length", help="bore axis beside the crank axis", default="0 mm"),
        Key(name="lash", dimension="length", help="at the valve", default="0 mm"),
        Key(name="milled", dimension="length", help="off head or gasket; negative if thicker", default="0 mm"),
        Key(name="sunk", dimension="length", help="how far the valve has sunk", default="0 mm"),
        Key(name="u-gap", dimension="length", help="standard uncertainty of the gap", default="0 mm"),
        Key(name="u-centre", dimension="angle", help="standard uncertainty of the lobe centre", default="0°"),
        Key(name="u-lash", dimension="length", help="standard uncertainty of the lash", default="0 mm"),
        Key(name="law", dimension=WORDS, help="lift law", default="3-4-5",
            choices=tuple(LAW_OF)),
    ),
    work=work,
    example="gap=2.5mm stroke=50mm rod=100mm lift=8mm duration=260 centre=110 valve-angle=15 u-gap=0.05mm u-centre=1",
)  # fmt: skip
