"""What a bench needs beyond plain values: deviations, feelers, and how values are shown."""

from __future__ import annotations

from decimal import Decimal

import pytest

from gudgeon.problem import Refused
from gudgeon.units import convert, dimension_of, read, read_deviation, read_indication, show

MASTER = read("88.000 mm", "length")


@pytest.mark.parametrize(
    ("text", "unit", "direction", "shown", "resolution"),
    [
        ("+26", "µm", 1, "88.026 mm", "0.001"),
        ("+26", "µm", -1, "87.974 mm", "0.001"),
        ("26", "µm", 1, "88.026 mm", "0.001"),
        ("−4", "µm", 1, "87.996 mm", "0.001"),
        ("0", "µm", 1, "88.000 mm", "0.001"),
        ("+2.5", "µm", 1, "88.0025 mm", "0.0001"),
        ("+0.03", "mm", 1, "88.030 mm", "0.01"),
        ("+0.03 mm", "µm", 1, "88.030 mm", "0.01"),
        ("+1 thou", "µm", 1, "88.0254 mm", "0.0254"),
    ],
)
def test_deviation_from_a_master(text: str, unit: str, direction: int, shown: str, resolution: str) -> None:
    quantity = read_deviation(text, master=MASTER, unit=unit, direction=direction)
    assert str(quantity) == shown
    assert quantity.text == text
    assert quantity.resolution == Decimal(resolution)
    assert quantity.unit == "mm"


def test_a_metric_dial_on_an_inch_master_loses_no_digit() -> None:
    quantity = read_deviation("+26", master=read("3.4646 in", "length"), unit="µm")
    assert str(quantity) == "88.02684 mm"  # 3.4646 × 25.4 = 88.00084, and 0.026
    assert (quantity.value, quantity.resolution) == (88.02684, Decimal("0.001"))


@pytest.mark.parametrize(("text", "unit", "direction"), [("+26", "psi", 1), ("+26", "µm", 2), ("up", "µm", 1)])
def test_deviation_refused(text: str, unit: str, direction: int) -> None:
    with pytest.raises(Refused):
        read_deviation(text, master=MASTER, unit=unit, direction=direction)


@pytest.mark.parametrize(
    ("text", "low", "high", "no_gap"),
    [
        ("0.12", "0.12 mm", "0.12 mm", False),
        ("0,12", "0.12 mm", "0.12 mm", False),
        ("-0.02", "−0.02 mm", "−0.02 mm", False),
        ("0.12/0.13", "0.12 mm", "0.13 mm", False),
        ("0,12 / 0,13 mm", "0.12 mm", "0.13 mm", False),
        ("0.12-0.13", "0.12 mm", "0.13 mm", False),
        ("0.12 – 0.13", "0.12 mm", "0.13 mm", False),
        ("0.12 to 0.13", "0.12 mm", "0.13 mm", False),
        ("0.12…0.13", "0.12 mm", "0.13 mm", False),
        ("5/6 thou", "5 thou", "6 thou", False),
        ("4/8 thou", "4 thou", "8 thou", False),
        ('.004/.005"', "0.004 in", "0.005 in", False),
        ("1/16 in", "1/16 in", "1/16 in", False),
        ("1-1/2 in", "1 1/2 in", "1 1/2 in", False),
        (">0.30", "0.30 mm", "None", False),
        ("> 12 thou", "12 thou", "None", False),
        ("<0.03", "None", "0.03 mm", False),
        ("no gap", "None", "None", True),
        ("  NO  GAP ", "None", "None", True),
        ("tight", "None", "None", True),
        ("None", "None", "None", True),
    ],
)
def test_indication(text: str, low: str, high: str, no_gap: bool) -> None:
    indication = read_indication(text, "length", unit="mm")
    assert (str(indication.low), str(indication.high), indication.no_gap) == (low, high, no_gap)
    assert indication.text == text


def test_one_value_has_equal_ends() -> None:
    indication = read_indication("0.12", "length", unit="mm")
    assert indication.low is not None
    assert indication.low == indication.high


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("0.13/0.12", "Did you mean 0.12/0.13?"),
        ("0.12/0.120", "two different leaves"),
        ("0.12/0.13/0.14", "is no unit of length"),
        ("0.12/", "is no unit of length"),
        ("/0.12", "is not a number"),
        ("0.12/0.13 psi", "length is wanted"),
        (">", "Nothing was typed"),
        ("<>0.3", "is not a number"),
        ("gap", "is not a number"),
        ("1,234/1,235 µm", "may mean 1.234 or 1234"),
    ],
)
def test_indication_refused(text: str, why: str) -> None:
    with pytest.raises(Refused) as caught:
        read_indication(text, "length", unit="mm", where="c1.in.left")
    assert why in str(caught.value)
    assert str(caught.value).startswith("c1.in.left: ")


@pytest.mark.parametrize(
    ("value", "dimension", "unit", "places", "words"),
    [
        (0.076, "length", None, None, "0.076 mm"),
        (-0.02, "length", None, 2, "−0.02 mm"),
        (-0.0001, "length", None, None, "0.000 mm"),
        (0.0125, "length", None, None, "0.013 mm"),
        (-0.0125, "length", None, None, "−0.013 mm"),
        (88.044, "length", "in", None, "3.4663 in"),
        (0.026, "length", "micron", 0, "26 µm"),
        (1e-7, "length", None, None, "0.000 mm"),
        (1e22, "length", None, 0, "10000000000000000000000 mm"),
        (20.0, "temperature", "°F", None, "68.0 °F"),
        (30.0, "angle", None, None, "30.0°"),
        (85.0, "percent", None, 0, "85 %"),
        (12.0, "torque", "kgf·m", None, "1.22 kgf·m"),
        (4.0, "count", None, None, "4"),
        (12.5, "money", None, None, "12.50"),
        (1.15e-05, "expansion", "µm/m/K", None, "11.50 µm/m/K"),
    ],
)
def test_shown(value: float, dimension: str, unit: str | None, places: int | None, words: str) -> None:
    assert show(value, dimension, unit=unit, places=places) == words


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_no_number_is_never_shown_or_converted(value: float) -> None:
    with pytest.raises(Refused):
        show(value, "length")
    with pytest.raises(Refused):
        convert(value, "mm", "in")


@pytest.mark.parametrize(
    ("text", "tidy"),
    [
        ("  41,80mm", "41.80 mm"),
        ("-0.00", "0.00 mm"),
        ("−0,020", "−0.020 mm"),
        ('1-1/16"', "1 1/16 in"),
        ("-3/8 in", "−3/8 in"),
        ("2 micron", "2 µm"),
    ],
)
def test_a_quantity_in_words(text: str, tidy: str) -> None:
    assert str(read(text, "length", unit="mm")) == tidy


def test_a_fraction_on_a_decimal_master_keeps_every_digit() -> None:
    quantity = read_deviation("+1/16 in", master=read("2.030 in", "length"), unit="in")
    assert str(quantity) == "2.0925 in"


def test_what_no_float_can_hold_is_refused() -> None:
    with pytest.raises(Refused):
        convert(1e308, "m", "µm")


def test_unknown_or_unlike_units_are_refused() -> None:
    for bad in [lambda: convert(1.0, "mm", "psi"), lambda: convert(1.0, "mm", "furlong"),
                lambda: convert(1.0, "furlong", "mm"), lambda: dimension_of("furlong"), lambda: dimension_of(""),
                lambda: show(1.0, "girth"), lambda: show(1.0, "length", unit="psi"),
                lambda: MASTER.in_unit("psi")]:  # fmt: skip
        with pytest.raises(Refused):
            bad()
