"""The factors against what was published: NIST SP 811 (2008), appendix B, and plain definitions."""

from __future__ import annotations

from decimal import Decimal

import pytest

from gudgeon.units import INSIDE, convert, dimension_of, read, units_of
from gudgeon.units.table import UNITS, by_name

# unit, its NIST SP 811 factor, the unit it is given in, and the last figure the table prints
PUBLISHED = [
    ("lbf·ft", "1.355818", "N·m", 1e-6),
    ("lbf·in", "0.1129848", "N·m", 1e-7),
    ("kgf·m", "9.80665", "N·m", 0.0),
    ("kgf", "9.80665", "N", 0.0),
    ("lbf", "4.448222", "N", 1e-6),
    ("psi", "6894.757", "Pa", 1e-3),
    ("psi", "6.894757", "kPa", 1e-6),
    ("ksi", "6.894757", "MPa", 1e-6),
    ("kgf/cm²", "98066.5", "Pa", 0.0),
    ("bar", "100000", "Pa", 0.0),
    ("mbar", "100", "Pa", 0.0),
    ("mmHg", "133.3224", "Pa", 1e-4),
    ("inHg", "3386.389", "Pa", 1e-3),
    ("in", "25.4", "mm", 0.0),
    ("ft", "304.8", "mm", 0.0),
    ("thou", "0.0254", "mm", 0.0),
    ("µin", "0.0254", "µm", 0.0),
    ("in³", "16.38706", "cm³", 1e-5),
    ("mi", "1.609344", "km", 0.0),
    ("lb", "453.59237", "g", 0.0),
    ("oz", "28.34952", "g", 1e-5),
    ("lbf/in", "0.1751268", "N/mm", 1e-7),
    ("ft³/min", "28.31685", "L/min", 1e-5),
    ("ft/min", "0.00508", "m/s", 0.0),
    ("km/h", "0.2777778", "m/s", 1e-7),
    ("g/cm³", "1000", "kg/m³", 0.0),
    ("L", "1000", "cm³", 0.0),
    ("ml", "1", "cm³", 0.0),
    ("min", "60", "s", 0.0),
    ("h", "3600", "s", 0.0),
    ("kg/L", "1000", "kg/m³", 0.0),
    ("1/°F", "1.8", "1/K", 0.0),
]
#: Units that the table of SP 811 does not list: SI units with a prefix, what is made of one listed factor, plain counts.
OF_THE_SI = {"mm", "µm", "cm", "m", "g", "mg", "kg", "N", "kN", "N·m", "kPa", "Pa", "hPa", "MPa", "GPa", "°C", "K", "°", "cm³",
             "mm³", "s", "km", "m/s", "N/mm", "N/m", "kg/m³", "1/K", "µm/m/K", "L/min", "cm³/min", "Hz"}  # fmt: skip
MADE_OF_LISTED = {"kgf·cm": ("0.0980665", "N·m"), "kgf/mm": ("9.80665", "N/mm")}
COUNTED = {"%", "rpm", ""}
FIXED_POINTS = {"°F"}


@pytest.mark.authority
@pytest.mark.parametrize(("unit", "published", "of", "last_figure"), PUBLISHED)
def test_published_factor(unit: str, published: str, of: str, last_figure: float) -> None:
    assert abs(convert(1.0, unit, of) - float(published)) <= last_figure * 0.5000001


@pytest.mark.authority
@pytest.mark.parametrize(
    ("text", "dimension", "printed"),
    [
        ("1 lbf·ft", "torque", "1.355817948"),
        ("1 lbf·in", "torque", "0.112984829"),
        ("1000 psi", "pressure", "6894.757293"),
        ("1 in³", "volume", "16.387064"),
        ("1 lbf/in", "stiffness", "0.175126835"),
    ],
)
def test_every_printed_figure(text: str, dimension: str, printed: str) -> None:
    last_figure = 10.0 ** -len(printed.partition(".")[2])
    assert abs(read(text, dimension).value - float(printed)) <= last_figure * 0.5000001


@pytest.mark.authority
@pytest.mark.parametrize(
    ("celsius", "other"),
    [("0", "32 °F"), ("100", "212 °F"), ("-40", "-40 °F"), ("0", "273.15 K"), ("20", "68 °F"), ("-273.15", "0 K")],
)
def test_temperature_fixed_points(celsius: str, other: str) -> None:
    assert read(other, "temperature").value == float(celsius)
    assert read(celsius, "temperature", unit="°C").in_unit(other.split()[-1]) == Decimal(other.split()[0])


@pytest.mark.authority
def test_one_bar_in_psi_and_expansion_per_fahrenheit() -> None:
    assert convert(1.0, "bar", "psi") == pytest.approx(14.503774, abs=5e-7)
    # handbook table: grey iron .00059 in/in per 100 °F is 10.6e-6 per kelvin
    assert read("5.9e-6 in/in/°F", "expansion").value == pytest.approx(10.6e-6, abs=0.05e-6)


def test_every_unit_is_of_the_si_or_has_its_published_factor() -> None:
    """A unit that is added without a factor from outside fails here."""
    published = {by_name(unit)[0].name for unit, *_ in PUBLISHED}
    assert published.isdisjoint(OF_THE_SI - {"cm³"})
    assert {u.name for u in UNITS} - published - OF_THE_SI - set(MADE_OF_LISTED) - COUNTED - FIXED_POINTS == set()
    for unit, (factor, of) in MADE_OF_LISTED.items():
        assert convert(1.0, unit, of) == float(factor)


def test_roughness_as_trade_articles_print_it() -> None:
    assert [convert(v, "µin", "µm") for v in (30, 50, 60, 100)] == [0.762, 1.27, 1.524, 2.54]


def test_inside_units() -> None:
    wanted = {"length": "mm", "force": "N", "torque": "N·m", "pressure": "kPa", "temperature": "°C", "volume": "cm³",
              "angle": "°", "mass": "g", "time": "h", "distance": "km", "stiffness": "N/mm", "stress": "MPa",
              "percent": "%", "speed": "rpm", "money": "", "count": "", "number": ""}  # fmt: skip
    assert {d: INSIDE[d] for d in wanted} == wanted
    for dimension, unit in INSIDE.items():
        assert (units_of(dimension) or ("",))[0] == unit
        assert read("1", dimension, unit=unit or None).value == 1.0


def test_a_unit_of_several_kinds_belongs_to_the_first_and_converts_in_each() -> None:
    assert dimension_of("MPa") == "pressure"
    assert dimension_of("kg") == "mass"
    assert dimension_of("N·m") == "torque"
    assert dimension_of("m") == "length"
    assert convert(210.0, "GPa", "MPa") == 210_000.0
    assert convert(1.0, "MPa", "bar") == 10.0
    assert convert(1.0, "N/mm²", "MPa") == 1.0
    assert convert(3.0, "mi", "km") == 4.828032
    assert convert(60.0, "Hz", "rpm") == 3600.0
    assert convert(98.6, "°F", "°C") == 37.0
