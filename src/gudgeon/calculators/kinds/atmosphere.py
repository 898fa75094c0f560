"""Ambient pressure at an altitude: a compression reading from a mountain is compared with a book written at the sea."""

from __future__ import annotations

from gudgeon.calculators.shape import WORDS, Answer, Calculator, Key, Result
from gudgeon.mechanics import air as m


def work(*, altitude: float, height: str, gauge: float | None, book: float | None) -> Answer:
    metres = altitude * 1000
    level = metres if height == "geopotential" else m.geopotential_m(metres)
    pressure = m.standard_pressure_kpa(level)
    results = [
        Result(name="pressure", value=pressure, unit="kPa"),
        Result(name="temperature", value=m.standard_temperature_c(level), unit="°C"),
        Result(name="density", value=m.standard_density_kg_m3(level), unit="kg/m³"),
        Result(name="share of sea level", value=pressure / m.SEA_LEVEL_KPA),
        Result(name="geopotential height", value=level, unit="m"),
    ]
    if gauge is not None:
        at_sea = m.gauge_at_sea_level_kpa(gauge, pressure)
        results.append(Result(name="gauge pressure at sea level", value=at_sea, unit="kPa"))
    if book is not None:
        here = m.gauge_at_ambient_kpa(book, pressure)
        results.append(Result(name="gauge pressure to expect here", value=here, unit="kPa"))
    return Answer(
        results=tuple(results),
        method="p = 101.325·(1 − 0.0065·H/288.15)^5.25588 kPa absolute, H = 6356766·h/(6356766 + h) in metres",
        source="ISO 2533:1975 (from memory), the same in the U.S. Standard Atmosphere 1976 up to 11 km",
        validity="−2,000 m to 11,000 m; the weather moves the real pressure by some 3 %",
        notes=("A map gives geometric height, an altimeter geopotential; the difference is 1 m at 2,500 m.",),
    )


KIND = Calculator(
    key="atmosphere",
    line="ambient pressure at an altitude, and what a compression reading becomes there",
    keys=(
        Key(name="altitude", dimension="distance", help="height above sea level", unit="m"),
        Key(
            name="height",
            dimension=WORDS,
            help="whether that is a map's height or an altimeter's",
            default="geometric",
            choices=("geometric", "geopotential"),
        ),
        Key(name="gauge", dimension="pressure", help="compression read here", optional=True),
        Key(name="book", dimension="pressure", help="compression in the book, for sea level", optional=True),
    ),
    work=work,
    example="altitude=1120m book=1200kPa",
)
