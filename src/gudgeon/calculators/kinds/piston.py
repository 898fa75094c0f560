"""Where the piston stands at a crank angle: for a dial on the crown, a degree wheel, and what an offset bore does to both."""

from __future__ import annotations

from gudgeon.calculators.shape import Answer, Calculator, Key, Result
from gudgeon.mechanics import crank as m
from gudgeon.problem import refuse


def work(
    *, stroke: float, rod: float, offset: float, angle: float | None, travel: float | None, speed: float | None
) -> Answer:
    if angle is not None and travel is not None:
        raise refuse("travel", "Both angle and travel were given.", "Give one of them.")
    top, bottom = m.top_centre_deg(stroke, rod, offset), m.bottom_centre_deg(stroke, rod, offset)
    results = [
        Result(name="true stroke", value=m.true_stroke_mm(stroke, rod, offset), unit="mm"),
        Result(name="top centre", value=top, unit="°"),
        Result(name="bottom centre", value=bottom, unit="°"),
        Result(name="rod ratio", value=2 * rod / stroke),
    ]
    if travel is not None:
        angle = m.angle_at_travel_deg(travel, stroke, rod, offset)
        results.insert(0, Result(name="angle", value=angle, unit="°"))
        results.insert(1, Result(name="angle after top centre", value=angle - top, unit="°"))
    elif angle is not None:
        results.insert(0, Result(name="travel", value=m.piston_travel_mm(angle, stroke, rod, offset), unit="mm"))
    if speed is not None:
        results.append(Result(name="mean piston speed", value=m.mean_piston_speed_m_s(stroke, speed), unit="m/s"))
        if angle is not None:
            there = m.piston_speed_m_s(angle, stroke, rod, speed, offset)
            results.append(Result(name="piston speed", value=there, unit="m/s"))
    return Answer(
        results=tuple(results),
        method="x = √((L + a)² − e²) − a·cos θ − √(L² − (a·sin θ − e)²), a = stroke/2",
        source="slider-crank; Heywood, Internal Combustion Engine Fundamentals, eq. 2.4 to 2.11 (from memory)",
        validity="rod longer than half the stroke and the offset; angle zero where the crank points along the bore",
    )


KIND = Calculator(
    key="piston",
    line="piston travel at a crank angle and back, top and bottom centre, piston speed",
    keys=(
        Key(name="stroke", dimension="length", help="stroke, twice the crank radius"),
        Key(name="rod", dimension="length", help="connecting rod, centre to centre"),
        Key(name="offset", dimension="length", help="bore axis beside the crank axis", default="0 mm"),
        Key(name="angle", dimension="angle", help="crank angle after the top", optional=True),
        Key(name="travel", dimension="length", help="travel on the way down, for the angle", optional=True),
        Key(name="speed", dimension="speed", help="crank speed, for piston speed", optional=True),
    ),
    work=work,
    example="stroke=50mm rod=100mm angle=90 speed=6000rpm",
)
