"""The units of the bench and how people spell them: a fixed list, so that typed text never meets a general parser.

Factors are exact fractions, from NIST SP 811 (2008 edition), appendix B: inch 25.4 mm, pound 0.45359237 kg and
standard gravity 9.80665 m/s² are exact by definition, and every other factor here is a product of exact ones.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType

TYPE_CHECKING = False  # mypy takes it as true; at run time typing would cost every command a good part of its start
if TYPE_CHECKING:
    from typing import Literal

    Dimension = Literal[
        "length",
        "force",
        "torque",
        "pressure",
        "temperature",
        "angle",
        "volume",
        "mass",
        "time",
        "distance",
        "speed",
        "velocity",
        "stiffness",
        "percent",
        "stress",
        "density",
        "expansion",
        "flow",
        "count",
        "number",
        "money",
    ]
else:
    Dimension = str

INCH_MM = Fraction("25.4")  # NIST SP 811 B.8, exact
FOOT_M = Fraction("0.3048")  # exact
POUND_G = Fraction("453.59237")  # exact
GRAVITY = Fraction("9.80665")  # m/s², exact by convention
LBF_N = POUND_G / 1000 * GRAVITY  # 4.4482216152605 N
LBF_FT_NM = LBF_N * FOOT_M  # 1.3558179483314004 N·m
PSI_KPA = LBF_N / INCH_MM**2 * 1000  # 6.894757293168… kPa
MMHG_KPA = Fraction("13595.1") * GRAVITY / 1_000_000  # conventional millimetre of mercury, 0.133322387415 kPa


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """One unit of one dimension: inside value = number × factor + offset; `places` is what is worth showing."""

    name: str
    dimension: str
    factor: Fraction
    offset: Fraction = Fraction(0)
    places: int = 1
    spellings: tuple[str, ...] = ()


def _u(
    dimension: Dimension, name: str, factor: Fraction | int | str, places: int, spellings: str = "", offset: str = "0"
) -> Unit:
    return Unit(
        name=name,
        dimension=dimension,
        factor=Fraction(factor),
        offset=Fraction(offset),
        places=places,
        spellings=tuple(s.strip() for s in spellings.split("|") if s.strip()),
    )


_TIMES_MILLIONTH = "10^-6/K|·10^-6/K|×10^-6/K|x10^-6/K|*10^-6/K|1e-6/K"  # as handbooks print it

# The first unit of a dimension is the one used inside.
UNITS: tuple[Unit, ...] = (
    _u("length", "mm", 1, 3, "millimetre|millimetres|millimeter|millimeters|mms"),
    _u("length", "µm", "1/1000", 1, "um|micron|microns|micrometre|micrometres|mu|mic"),
    _u("length", "cm", 10, 3, "centimetre|centimetres|centimeter|centimeters"),
    _u("length", "m", 1000, 3, "metre|metres|meter|meters"),
    _u("length", "in", INCH_MM, 4, "\"|''|inch|inches|ins"),
    _u("length", "thou", INCH_MM / 1000, 1, "thous|mil|mils|thousandth|thousandths"),
    _u("length", "ft", FOOT_M * 1000, 3, "'|foot|feet"),
    _u("length", "µin", INCH_MM / 1_000_000, 0, "uin|microinch|microinches"),
    _u("mass", "g", 1, 1, "gram|grams|gramme|grammes"),
    _u("mass", "mg", "1/1000", 0),
    _u("mass", "kg", 1000, 3, "kilo|kilos|kilogram|kilograms|kgs"),
    _u("mass", "lb", POUND_G, 2, "lbs|pound|pounds|lbm"),
    _u("mass", "oz", POUND_G / 16, 2, "ounce|ounces"),
    # On a spring tester "lb" and "kg" can only be forces, so under this dimension they are.
    _u("force", "N", 1, 1, "newton|newtons"),
    _u("force", "kN", 1000, 2),
    _u("force", "kgf", GRAVITY, 2, "kg|kp|kgs|kilo|kilos|kilopond"),
    _u("force", "lbf", LBF_N, 1, "lb|lbs|pound|pounds"),
    _u("torque", "N·m", 1, 1, "Nm|newton metre|newton metres|newton meter|newton meters"),
    _u("torque", "kgf·m", GRAVITY, 2, "kgfm|kgm|mkg|mkgf|mkp|kpm"),
    _u("torque", "kgf·cm", GRAVITY / 100, 0, "kgfcm|kgcm|cmkg|cmkgf|kpcm"),
    _u("torque", "lbf·ft", LBF_FT_NM, 1, "lbft|lbsft|ftlb|ftlbs|ftlbf|foot pound|foot pounds|pound foot|pound feet"),
    _u("torque", "lbf·in", LBF_FT_NM / 12, 0, "lbin|lbsin|inlb|inlbs|inlbf|inch pound|inch pounds|pound inch"),
    _u("pressure", "kPa", 1, 1),
    _u("pressure", "Pa", "1/1000", 0),
    _u("pressure", "hPa", "1/10", 1),
    _u("pressure", "MPa", 1000, 3),
    _u("pressure", "bar", 100, 2, "bars"),
    _u("pressure", "mbar", "1/10", 0, "millibar|millibars"),
    _u("pressure", "psi", PSI_KPA, 1, "lbf/in2|lb/in2|lbs/in2|lbf/sqin|lb/sqin"),
    _u("pressure", "kgf/cm²", GRAVITY * 10, 2, "kg/cm2|kp/cm2|at"),
    _u("pressure", "mmHg", MMHG_KPA, 0, "torr"),
    _u("pressure", "inHg", MMHG_KPA * INCH_MM, 1, '"Hg'),
    _u("temperature", "°C", 1, 1, "C|degC|deg C|celsius"),
    _u("temperature", "°F", "5/9", 1, "F|degF|deg F|fahrenheit", offset="-160/9"),
    _u("temperature", "K", 1, 2, "kelvin", offset="-273.15"),
    _u("angle", "°", 1, 1, "deg|degs|degree|degrees"),
    _u("volume", "cm³", 1, 2, "cc|ccm|ml|cubic cm|cubic centimetre|cubic centimetres"),
    _u("volume", "mm³", "1/1000", 0),
    _u("volume", "L", 1000, 3, "litre|litres|liter|liters|ltr|dm3"),
    _u("volume", "in³", INCH_MM**3 / 1000, 3, "cuin|ci|cid|cubic inch|cubic inches"),
    _u("time", "h", 1, 1, "hr|hrs|hour|hours"),
    _u("time", "min", "1/60", 1, "mins|minute|minutes"),
    _u("time", "s", "1/3600", 1, "sec|secs|second|seconds"),
    _u("distance", "km", 1, 0, "kilometre|kilometres|kilometer|kilometers|kms"),
    _u("distance", "mi", FOOT_M * 5280 / 1000, 0, "mile|miles"),
    _u("distance", "m", "1/1000", 0, "metre|metres|meter|meters"),
    _u("distance", "ft", FOOT_M / 1000, 0, "'|foot|feet"),
    _u("speed", "rpm", 1, 0, "1/min|/min|min-1|min1|r/min|rev/min|revs|U/min"),
    _u("speed", "Hz", 60, 2, "1/s|/s|rev/s|r/s"),
    _u("velocity", "m/s", 1, 2, "m/sec|mps"),
    _u("velocity", "km/h", "1000/3600", 1, "kph|kmh"),
    _u("velocity", "ft/min", FOOT_M / 60, 0, "fpm"),
    _u("stiffness", "N/mm", 1, 2),
    _u("stiffness", "N/m", "1/1000", 0),
    _u("stiffness", "kgf/mm", GRAVITY, 3, "kg/mm"),
    _u("stiffness", "lbf/in", LBF_N / INCH_MM, 1, "lb/in|lbs/in|lb/inch|lbf/inch"),
    _u("percent", "%", 1, 1, "percent|per cent|pct"),
    _u("stress", "MPa", 1, 0, "N/mm2"),
    _u("stress", "GPa", 1000, 1, "kN/mm2"),
    _u("stress", "psi", PSI_KPA / 1000, 0, "lbf/in2|lb/in2"),
    _u("stress", "ksi", PSI_KPA, 1),
    _u("density", "kg/m³", 1, 3),
    _u("density", "g/cm³", 1000, 3, "g/cc|kg/L|kg/dm3|g/ml"),
    _u("expansion", "1/K", 1, 8, "/K|K-1|K1|m/m/K|mm/mm/K|1/°C|/°C|/C|1/C|m/m/°C|mm/mm/°C"),
    _u("expansion", "µm/m/K", "1/1000000", 2, f"µm/(m·K)|ppm/K|ppm/°C|µm/m/°C|{_TIMES_MILLIONTH}"),
    _u("expansion", "1/°F", "9/5", 8, "/°F|/F|in/in/°F|in/in/F"),
    _u("flow", "L/min", 1, 2, "lpm|litre/min|litres/min"),
    _u("flow", "cm³/min", "1/1000", 0, "cc/min|ml/min"),
    _u("flow", "ft³/min", (FOOT_M * 10) ** 3, 3, "cfm|cuft/min"),
    _u("count", "", 1, 0),
    _u("number", "", 1, 3),
    _u("money", "", 1, 2),
)

#: Units of which nothing at the top end of a small engine has a thousand (common practice, no source): ``5,966 mm`` is no
#: six metres. Metres and feet stay out: an altitude has thousands.
NO_THOUSANDS = frozenset(
    {("length", name) for name in ("mm", "cm", "in")}
    | {("torque", name) for name in ("N·m", "kgf·m", "lbf·ft")}
    | {("pressure", "bar"), ("percent", "%")}
)

_BETWEEN = re.compile(r"(?<=[^\W\d_]) ?[·⋅•∙.*×-] ?(?=[^\W\d_])")
_TO_PLAIN = str.maketrans({"µ": "u", "μ": "u", "²": "2", "³": "3", "^": "", " ": "", "(": "", ")": ""})


def plain(spelling: str) -> str:
    """The spelling without what does not tell units apart: spaces, dots between letters, raised figures."""
    return _BETWEEN.sub("", spelling.strip()).removesuffix(".").translate(_TO_PLAIN)


def _index() -> tuple[dict[str, dict[str, Unit]], dict[str, dict[str, Unit]]]:
    exact: dict[str, dict[str, Unit]] = {}
    loose: dict[str, dict[str, Unit]] = {}
    for unit in UNITS:
        for spelling in (unit.name, *unit.spellings):
            key = plain(spelling)
            if exact.setdefault(unit.dimension, {}).setdefault(key, unit) is not unit:
                raise AssertionError(f"{spelling} means two units of {unit.dimension}")
            loose.setdefault(unit.dimension, {}).setdefault(key.casefold(), unit)
    return exact, loose


_EXACT, _LOOSE = _index()
NAMED: Mapping[tuple[str, str], Unit] = MappingProxyType({(u.dimension, u.name): u for u in UNITS})
DIMENSIONS: tuple[str, ...] = tuple(_EXACT)
INSIDE: Mapping[str, str] = MappingProxyType({d: next(u.name for u in UNITS if u.dimension == d) for d in DIMENSIONS})
_MILLIPASCAL = "mPa"  # a thousand million times off is not a slip of the shift key


@lru_cache(maxsize=1024)
def find(spelling: str, dimension: str) -> Unit | None:
    """The unit of this dimension that the spelling means, capitals first taken at their word, then overlooked."""
    key = plain(spelling)
    found = _EXACT[dimension].get(key)
    if found is not None or key == _MILLIPASCAL:
        return found
    return _LOOSE[dimension].get(key.casefold())


def other_kinds(spelling: str) -> tuple[str, ...]:
    """The dimensions in which this exact spelling is a unit."""
    key = plain(spelling)
    return tuple(d for d, units in _EXACT.items() if key and key in units)


def nearest(spelling: str, dimension: str) -> str | None:
    """The name of the unit that was most likely meant by an unknown spelling."""
    from difflib import get_close_matches

    known = _LOOSE[dimension]
    close = get_close_matches(plain(spelling).casefold(), list(known), n=1, cutoff=0.5)
    return known[close[0]].name if close else None


def units_of(dimension: str) -> tuple[str, ...]:
    """The units of a dimension by name, the inside unit first; nothing for an unknown dimension."""
    return tuple(u.name for u in UNITS if u.dimension == dimension and u.name)


def by_name(unit: str) -> tuple[Unit, ...]:
    """Every meaning of a unit: those whose own name it is before those that merely may be spelled so."""
    meant = [u for u in (find(unit, d) for d in DIMENSIONS) if u is not None]
    return tuple(sorted(meant, key=lambda u: u.name != unit))
