"""What the compression gauge should show: the number a low reading is held against before a head comes off."""

from __future__ import annotations

from gudgeon.calculators.shape import Answer, Calculator, Key, Result
from gudgeon.mechanics import cranking as m
from gudgeon.problem import refuse

PRACTICE = (
    "While cranking n is 1.2 to 1.35 (common practice, no source): heat and leaks are in it; 1.4 is without either."
)


def work(
    *,
    ratio: float,
    exponent: float,
    ambient: float,
    start: float,
    leak: float | None,
    bore: float | None,
    stroke: float | None,
    rod: float | None,
    speed: float | None,
    discharge: float,
) -> Answer:
    absolute = m.compressed_kpa(ratio, exponent, ambient)
    results = [
        Result(name="gauge pressure", value=absolute - ambient, unit="kPa"),
        Result(name="absolute pressure", value=absolute, unit="kPa"),
        Result(name="temperature", value=m.compressed_c(ratio, exponent, start), unit="°C"),
    ]
    if leak is not None:
        if bore is None or stroke is None or rod is None or speed is None:
            raise refuse("leak", "A leak needs the engine too.", "Give bore, stroke, rod and speed with it.")
        peak = m.leaking_compression(
            bore_mm=bore,
            stroke_mm=stroke,
            rod_mm=rod,
            ratio=ratio,
            speed_rpm=speed,
            leak_mm=leak,
            discharge=discharge,
            ambient_kpa=ambient,
            start_c=start,
            exponent=exponent,
        )
        results += _leaking(peak, ambient)
    return Answer(
        results=tuple(results),
        method="p₂ = p₁·rⁿ; with a leak dm/dθ = −Cd·A·p/√(R·T)·Ψ/ω, what stays is compressed as if alone",
        source="polytropic change, any textbook of thermodynamics; isentropic orifice, Heywood, app. C (from memory)",
        validity="ratio from 1, exponent from 1 to 1.67, closed at the bottom; ratio is the effective one, after intake closing",
        notes=(
            PRACTICE,
            "Cranking: ignition and fuel off, plug lead earthed away from the hole, hands off; the maker's manual, local "
            "codes and licensed practice come first.",
        ),
    )


def _leaking(peak: m.Peak, ambient: float) -> list[Result]:
    return [
        Result(name="gauge pressure with the leak", value=peak.pressure_kpa - ambient, unit="kPa"),
        Result(name="absolute pressure with the leak", value=peak.pressure_kpa, unit="kPa"),
        Result(name="air left at the top", value=peak.mass_left),
        Result(name="peak before the top", value=peak.before_top_deg, unit="°"),
    ]


KIND = Calculator(
    key="cranking-pressure",
    line="compression to expect from ratio and exponent, or with a leak",
    keys=(
        Key(name="ratio", dimension="number", help="effective compression ratio"),
        Key(name="exponent", dimension="number", help="exponent of compression", default="1.3"),
        Key(name="ambient", dimension="pressure", help="ambient pressure, absolute", default="101.325 kPa"),
        Key(name="start", dimension="temperature", help="temperature at the start", default="20 °C"),
        Key(name="leak", dimension="length", help="diameter of the leak, as leak-down gives it", optional=True),
        Key(name="bore", dimension="length", help="cylinder bore, with a leak", optional=True),
        Key(name="stroke", dimension="length", help="stroke, with a leak", optional=True),
        Key(name="rod", dimension="length", help="connecting rod, with a leak", optional=True),
        Key(name="speed", dimension="speed", help="cranking speed, with a leak", optional=True),
        Key(name="discharge", dimension="number", help="discharge coefficient of the leak", default="0.8"),
    ),
    work=work,
    example="ratio=8.67 exponent=1.3 ambient=101.325kPa",
)
