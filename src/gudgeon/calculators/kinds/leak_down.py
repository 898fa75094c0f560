"""What a leak-down percentage is worth: the hole behind it, which alone can be compared between testers and altitudes."""

from __future__ import annotations

from math import pi

from gudgeon.calculators.shape import Answer, Calculator, Key, Result
from gudgeon.mechanics import leak as m
from gudgeon.problem import refuse

CAUTION = (
    "Air turns the crank with force: hold it, no tool on the crank nut, hands clear, open the supply slowly; the maker's "
    "manual, local codes and licensed practice come first."
)


def work(
    *,
    supply: float,
    cylinder: float | None,
    orifice: float,
    ambient: float,
    loss: float | None,
    leak: float | None,
    to_supply: float | None,
    to_orifice: float | None,
) -> Answer:
    percent = _percent(supply, cylinder, orifice, ambient, loss, leak)
    behind = supply * (1 - percent / 100)
    area = m.leak_area_ratio(supply, behind, ambient) if percent > 0 else 0.0
    hole = orifice * area**0.5
    results = [
        Result(name="loss", value=percent, unit="%"),
        Result(name="leak diameter", value=hole, unit="mm"),
        Result(name="leak area", value=pi / 4 * hole**2, unit="mm²"),
        Result(name="area ratio", value=area),
        Result(name="cylinder pressure", value=behind, unit="kPa"),
    ]
    if to_supply is not None or to_orifice is not None:
        other = m.percent_on_another_tester(
            percent,
            supply_kpa=supply,
            orifice_mm=orifice,
            ambient_kpa=ambient,
            to_supply_kpa=to_supply,
            to_orifice_mm=to_orifice,
        )
        results.append(Result(name="loss on the other tester", value=other, unit="%"))
    return Answer(
        results=tuple(results),
        method="two orifices in series: A_leak/A_orifice = (ps/pc)·Ψ(pc/ps)/Ψ(pa/pc), absolute, choking included",
        source="isentropic orifice flow (Heywood, app. C, from memory); tester data of FAA AC 43.13-1B §8-14",
        validity="steady, piston at the top, same discharge coefficient in both orifices; supply and cylinder as gauge pressures",
        notes=(
            "A percentage means nothing without orifice and supply: 0.040 in under 5 in bore by AC 43.13-1B.",
            CAUTION,
        ),
    )


def _percent(
    supply: float, cylinder: float | None, orifice: float, ambient: float, loss: float | None, leak: float | None
) -> float:
    given = [name for name, value in (("cylinder", cylinder), ("loss", loss), ("leak", leak)) if value is not None]
    if len(given) != 1:
        raise refuse(
            "cylinder",
            "{given} given.",
            "Give one of cylinder (what the second gauge shows), loss or leak.",
            given=" and ".join(given) if given else "None of cylinder, loss and leak was",
        )
    if cylinder is not None:
        return m.loss_percent(supply, cylinder)
    if leak is not None:
        return m.leak_down_percent(leak_mm=leak, supply_kpa=supply, orifice_mm=orifice, ambient_kpa=ambient)
    return m.loss_percent(supply, supply * (1 - (loss or 0.0) / 100))


KIND = Calculator(
    key="leak-down",
    line="the hole behind a leak-down reading, and what another tester would show",
    keys=(
        Key(name="supply", dimension="pressure", help="regulated pressure before the orifice, gauge"),
        Key(name="cylinder", dimension="pressure", help="what the second gauge shows", optional=True),
        Key(name="orifice", dimension="length", help="bore of the tester's orifice"),
        Key(name="ambient", dimension="pressure", help="ambient pressure, absolute", default="101.325 kPa"),
        Key(name="loss", dimension="percent", help="percentage instead of cylinder", optional=True),
        Key(name="leak", dimension="length", help="diameter of a leak instead of cylinder", optional=True),
        Key(name="to-supply", dimension="pressure", help="supply of another tester", optional=True),
        Key(name="to-orifice", dimension="length", help="orifice of another tester", optional=True),
    ),
    work=work,
    example="supply=80psi cylinder=60psi orifice=0.040in ambient=14.696psi",
)
