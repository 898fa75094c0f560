"""Spellings people use, and the texts that are refused because they have no meaning or more than one."""

from __future__ import annotations

from decimal import Decimal

import pytest

from gudgeon.problem import Refused
from gudgeon.units import read

# text, dimension, default unit, number, unit, resolution
SPELLINGS = [
    ("41.80", "length", "mm", "41.80", "mm", "0.01"),
    ("41.8", "length", "mm", "41.8", "mm", "0.1"),
    ("41,80", "length", "mm", "41.80", "mm", "0.01"),
    ("150", "length", "mm", "150", "mm", "1"),
    ("0,125", "length", "mm", "0.125", "mm", "0.001"),
    (",125", "length", "mm", "0.125", "mm", "0.001"),
    ("5,966", "length", "mm", "5.966", "mm", "0.001"),
    ("-88,044 mm", "length", "in", "-88.044", "mm", "0.001"),
    ("0,001 in", "length", "mm", "0.001", "in", "0.001"),
    ("3,465 in", "length", "mm", "3.465", "in", "0.001"),
    ("12,500", "torque", "N·m", "12.500", "N·m", "0.001"),
    ("1,013 bar", "pressure", "kPa", "1.013", "bar", "0.001"),
    ("1234,567", "length", "mm", "1234.567", "mm", "0.001"),
    ("1,2345", "length", "mm", "1.2345", "mm", "0.0001"),
    ("1.234", "length", "mm", "1.234", "mm", "0.001"),
    ("1.234,5", "length", "mm", "1234.5", "mm", "0.1"),
    ("1,234.5", "length", "mm", "1234.5", "mm", "0.1"),
    ("1.234.567,8", "distance", "km", "1234567.8", "km", "0.1"),
    ("12 450", "distance", "km", "12450", "km", "1"),
    ("12\u202f450,5 km", "distance", None, "12450.5", "km", "0.1"),
    ("5 thou", "length", "mm", "5", "thou", "1"),
    ("5 THOU", "length", "mm", "5", "thou", "1"),
    ('.004"', "length", "mm", "0.004", "in", "0.001"),
    ("0.004 in.", "length", "mm", "0.004", "in", "0.001"),
    ("0.004″", "length", "mm", "0.004", "in", "0.001"),
    ("4 mil", "length", None, "4", "thou", "1"),
    ("1/16 in", "length", "mm", "0.0625", "in", "0.0625"),
    ("1/16", "length", "in", "0.0625", "in", "0.0625"),
    ("1 1/2 in", "length", None, "1.5", "in", "0.5"),
    ("1-1/2 in", "length", None, "1.5", "in", "0.5"),
    ("1½ in", "length", None, "1.5", "in", "0.5"),
    ("½″", "length", None, "0.5", "in", "0.5"),
    ("−1 3/128 inch", "length", None, "-1.0234375", "in", "0.0078125"),
    ("5000ft", "length", None, "5000", "ft", "1"),
    ("26 µm", "length", None, "26", "µm", "1"),
    ("26 μm", "length", None, "26", "µm", "1"),
    ("26um", "length", None, "26", "µm", "1"),
    ("26 microns", "length", None, "26", "µm", "1"),
    ("32 µin", "length", None, "32", "µin", "1"),
    ("+26", "length", "µm", "26", "µm", "1"),
    ("−0.02", "length", "mm", "-0.02", "mm", "0.01"),
    ("–0.02", "length", "mm", "-0.02", "mm", "0.01"),
    ("- 0.02", "length", "mm", "-0.02", "mm", "0.01"),
    ("-0.00", "length", "mm", "0.00", "mm", "0.01"),
    ("\xa041.80\xa0mm ", "length", None, "41.80", "mm", "0.01"),
    ("41.80\tmm", "length", None, "41.80", "mm", "0.01"),
    ("４１．８０ｍｍ", "length", None, "41.80", "mm", "0.01"),
    ("41.80 ㎜", "length", None, "41.80", "mm", "0.01"),
    ("41.80 Mm", "length", None, "41.80", "mm", "0.01"),
    ("12Nm", "torque", None, "12", "N·m", "1"),
    ("12 N-m", "torque", None, "12", "N·m", "1"),
    ("12 N.m", "torque", None, "12", "N·m", "1"),
    ("12 N m", "torque", None, "12", "N·m", "1"),
    ("12 N⋅m", "torque", None, "12", "N·m", "1"),
    ("12 nm", "torque", None, "12", "N·m", "1"),
    ("37 ft-lb", "torque", None, "37", "lbf·ft", "1"),
    ("37 ft·lbf", "torque", None, "37", "lbf·ft", "1"),
    ("37 lb-ft", "torque", None, "37", "lbf·ft", "1"),
    ("37 lb·ft", "torque", None, "37", "lbf·ft", "1"),
    ("37 ft. lbs.", "torque", None, "37", "lbf·ft", "1"),
    ("37 foot-pounds", "torque", None, "37", "lbf·ft", "1"),
    ("104 in-lb", "torque", None, "104", "lbf·in", "1"),
    ("104 lbf.in", "torque", None, "104", "lbf·in", "1"),
    ("1.2 kgf·m", "torque", None, "1.2", "kgf·m", "0.1"),
    ("1.2 m-kg", "torque", None, "1.2", "kgf·m", "0.1"),
    ("120 kgf·cm", "torque", None, "120", "kgf·cm", "1"),
    ("45 lb", "force", None, "45", "lbf", "1"),
    ("20.5 kg", "force", None, "20.5", "kgf", "0.1"),
    ("45 lb", "mass", None, "45", "lb", "1"),
    ("11 kgf/cm²", "pressure", None, "11", "kgf/cm²", "1"),
    ("11 kg/cm2", "pressure", None, "11", "kgf/cm²", "1"),
    ("11 kgf/cm^2", "pressure", None, "11", "kgf/cm²", "1"),
    ("150 PSI", "pressure", None, "150", "psi", "1"),
    ("1.5 Mpa", "pressure", None, "1.5", "MPa", "0.1"),
    ("10.3 BAR", "pressure", None, "10.3", "bar", "0.1"),
    ("20 °C", "temperature", None, "20", "°C", "1"),
    ("20 ℃", "temperature", None, "20", "°C", "1"),
    ("20ºC", "temperature", None, "20", "°C", "1"),
    ("20 ° C", "temperature", None, "20", "°C", "1"),
    ("-5 C", "temperature", None, "-5", "°C", "1"),
    ("68F", "temperature", None, "68", "°F", "1"),
    ("293.15 k", "temperature", None, "293.15", "K", "0.01"),
    ("45°", "angle", None, "45", "°", "1"),
    ("45.5 deg", "angle", None, "45.5", "°", "0.1"),
    ("371 cc", "volume", None, "371", "cm³", "1"),
    ("371 cm³", "volume", None, "371", "cm³", "1"),
    ("371 ml", "volume", None, "371", "cm³", "1"),
    ("0.568 L", "volume", None, "0.568", "L", "0.001"),
    ("22.6 cu in", "volume", None, "22.6", "in³", "0.1"),
    ("9500 rpm", "speed", None, "9500", "rpm", "1"),
    ("9500 1/min", "speed", None, "9500", "rpm", "1"),
    ("9 500 min⁻¹", "speed", None, "9500", "rpm", "1"),
    ("18 lbf/in", "stiffness", None, "18", "lbf/in", "1"),
    ("18.4 N/mm", "stiffness", None, "18.4", "N/mm", "0.1"),
    ("12%", "percent", None, "12", "%", "1"),
    ("640 N/mm²", "stress", None, "640", "MPa", "1"),
    ("205 GPa", "stress", None, "205", "GPa", "1"),
    ("7.85 g/cm³", "density", None, "7.85", "g/cm³", "0.01"),
    ("11.5e-6 /K", "expansion", None, "0.0000115", "1/K", "0.0000001"),
    ("11.5 µm/m/K", "expansion", None, "11.5", "µm/m/K", "0.1"),
    ("11.5 µm/(m·K)", "expansion", None, "11.5", "µm/m/K", "0.1"),
    ("11.5·10⁻⁶ /K", "expansion", None, "11.5", "µm/m/K", "0.1"),
    ("11.5 × 10^-6/K", "expansion", None, "11.5", "µm/m/K", "0.1"),
    ("11.5e-6 K⁻¹", "expansion", None, "0.0000115", "1/K", "0.0000001"),
    ("412 h", "time", None, "412", "h", "1"),
    ("4", "count", None, "4", "", "1"),
    ("12,50", "money", None, "12.50", "", "0.01"),
    ("1.5e3", "number", None, "1500", "", "100"),
]


@pytest.mark.parametrize(("text", "dimension", "default", "number", "unit", "resolution"), SPELLINGS)
def test_spelling(text: str, dimension: str, default: str | None, number: str, unit: str, resolution: str) -> None:
    quantity = read(text, dimension, unit=default)
    assert (quantity.text, quantity.number, quantity.unit, quantity.dimension, quantity.resolution) == (
        text,
        Decimal(number),
        unit,
        dimension,
        Decimal(resolution),
    )


LENGTH = [
    ("", "Nothing was typed"),
    ("   ", "Nothing was typed"),
    ("\n\t", "Nothing was typed"),
    ("mm", "is not a number"),
    ("five mm", "is not a number"),
    ("nan", "is not a number"),
    ("inf", "is not a number"),
    ("-inf", "is not a number"),
    ("~41.8", "is not a number"),
    ("±0.02", "is not a number"),
    ("M6", "is not a number"),
    ("#5", "is not a number"),
    ("--5", "is not a number"),
    ("+-5", "is not a number"),
    ("__import__('os')", "is not a number"),
    ("(41.8)", "is not a number"),
    ("٤١٫٨", "is not a number"),
    ("Ⅷ mm", "is not a number"),
    (".", "ends in a decimal sign"),
    (",", "ends in a decimal sign"),
    ("41.", "ends in a decimal sign"),
    ("41, mm", "ends in a decimal sign"),
    ("1,234 µm", "may mean 1.234 or 1234"),
    ("-88,044 m", "may mean -88.044 or -88044"),
    ("12,000 thou", "may mean 12.000 or 12000"),
    ("1.2.3", "more than one decimal sign"),
    ("1,2,3", "more than one decimal sign"),
    ("1,234,567", "more than one decimal sign"),
    ("41..80", "more than one decimal sign"),
    ("1.23,4", "no one meaning"),
    ("1,234.5,6", "no one meaning"),
    ("12,34.5", "no one meaning"),
    ("1234,567.8", "no one meaning"),
    ("9**9**9", "is no unit of length"),
    ("0x10", "is no unit of length"),
    ("1_000", "is no unit of length"),
    ("41.8 mm 3", "is volume; length is wanted"),
    ("41.8 mm 4", "is no unit of length"),
    ("41 80", "is no unit of length"),
    ("41.80 41.81", "is no unit of length"),
    ("5 ft 2 in", "is no unit of length"),
    ("41.8±0.1", "is no unit of length"),
    ("41.8;", "is no unit of length"),
    ("41.8 mm²", "is no unit of length"),
    ("41.8 * 2", "is no unit of length"),
    ("41.8-mm-", "is no unit of length"),
    ("5²", "a sign that no value has (superscript two)"),
    ("5 mmm", "Did you mean mm?"),
    ("5 inchs", "Did you mean in?"),
    ("5 thuo", "Did you mean thou?"),
    ("5 micorns", "Did you mean µm?"),
    ("5 psi", "is pressure or stress; length is wanted"),
    ("5 N·m", "is torque; length is wanted"),
    ("20 °C", "is temperature; length is wanted"),
    ("5 kg", "is mass or force; length is wanted"),
    ("1e3", "has an exponent"),
    ("4E-2 mm", "has an exponent"),
    ("1e999", "beyond anything"),
    ("1e-99999999999 mm", "beyond anything"),
    ("1/2", "is a fraction, which is read for inches"),
    ("1/2 mm", "is a fraction, which is read for inches"),
    ("1/3 in", "not a fraction of an inch"),
    ("1/0 in", "not a fraction of an inch"),
    ("0/16 in", "not a fraction of an inch"),
    ("17/16 in", "not a fraction of an inch"),
    ("1/256 in", "not a fraction of an inch"),
    ("1.5/2 in", "is no unit of length"),
    ("1/16.5 in", "is no unit of length"),
    ("1/2/4 in", "is no unit of length"),
    ("💥", "a sign that no value has (collision symbol)"),
    ("41.80 💥", "a sign that no value has"),
    ("5⑤", "a sign that no value has"),
    ("4²5", "a sign that no value has"),
    ("41.\x0080", "a sign that no value has"),
    ("41\x1b[2J", "a sign that no value has"),
    ("41.8\n42.0", "a sign that no value has"),
    ("41\u200b.8", "a sign that no value has (zero width space)"),
    ("\u202e8.14", "a sign that no value has"),
    ("\ufeff41.8", "a sign that no value has"),
    ("4" * 61, "61 characters long"),
    ("9" * 10_000, "10000 characters long"),
    (" " * 10_000, "10000 characters long"),
]
OTHERS = [
    ("41.80", "length", None, "has no unit"),
    ("41.80", "length", "", "has no unit"),
    ("41.80", "length", "psi", "“psi” is pressure or stress; length is wanted"),
    ("41.80", "length", "furlong", "is no unit of length"),
    ("41.80", "girth", "mm", "no kind of quantity called “girth”"),
    ("5 mm", "count", None, "is length; count is wanted"),
    ("2.5", "count", None, "is not a count"),
    ("-1", "count", None, "is not a count"),
    ("-300 °C", "temperature", None, "colder than absolute zero"),
    ("-1 K", "temperature", None, "colder than absolute zero"),
    ("12 mPa", "pressure", None, "is no unit of pressure"),
    ("12 psig", "pressure", None, "is no unit of pressure"),
    ("12 psia", "pressure", None, "is no unit of pressure"),
    ("12 mm", "torque", None, "is length; torque is wanted"),
    ("12 lb", "torque", None, "is mass or force; torque is wanted"),
    ("12 ft-lb", "force", None, "is torque; force is wanted"),
    ("1e3 N", "force", None, "has an exponent"),
    ("1e100", "number", None, "beyond anything"),
    ("12", "percent", None, "has no unit"),
    ("12.5 €", "money", None, "is no unit of money"),
]


@pytest.mark.parametrize(("text", "why"), LENGTH)
def test_refused_as_a_length(text: str, why: str) -> None:
    _refused(text, "length", "mm", why)


@pytest.mark.parametrize(("text", "dimension", "default", "why"), OTHERS)
def test_refused_elsewhere(text: str, dimension: str, default: str | None, why: str) -> None:
    _refused(text, dimension, default, why)


def _refused(text: str, dimension: str, default: str | None, why: str) -> None:
    with pytest.raises(Refused) as caught:
        read(text, dimension, unit=default, where="line 7")
    (problem,) = caught.value.problems
    said = str(problem)
    assert why in said
    assert problem.where == "line 7"
    assert str(problem.remedy)
    assert "{" not in said.replace(text, "")
    assert len(said) < 400
    assert said.isprintable()


@pytest.mark.parametrize(
    ("text", "unit", "within", "number"),
    [("1,098", "kPa", (150.0, 2500.0), "1098"), ("1,098", "kPa", (0.0, 10.0), "1.098"),
     ("1,234", "µm", (0.5, 3.0), "1234"), ("5,966", "thou", (100.0, 200.0), "5966")],
)  # fmt: skip
def test_what_the_thing_can_be_settles_a_comma(text: str, unit: str, within: tuple[float, float], number: str) -> None:
    dimension = "pressure" if unit == "kPa" else "length"
    assert str(read(text, dimension, unit=unit, within=within).number) == number


@pytest.mark.parametrize("within", [(0.0, 3.0), (5.0, 6.0), None], ids=["both", "neither", "not known"])
def test_a_comma_is_asked_where_both_meanings_are_possible_or_none_is(within: tuple[float, float] | None) -> None:
    with pytest.raises(Refused, match=r"may mean 1\.234 or 1234"):
        read("1,234", "length", unit="µm", within=within)
