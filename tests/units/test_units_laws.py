"""Laws that hold for every text and every unit: exact, keeps what was typed, and refuses instead of failing."""

from __future__ import annotations

from dataclasses import replace
from decimal import Context, Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.problem import Refused
from gudgeon.units import INSIDE, convert, read, read_deviation, read_indication, show, units_of
from gudgeon.units.number import ends
from gudgeon.units.table import DIMENSIONS, NO_THOUSANDS, UNITS, Unit

units = st.sampled_from([u for u in UNITS if u.dimension not in ("count", "temperature")])
whole = st.integers(0, 10**9)
decimals = st.text("0123456789", max_size=8)


def _typed(unit: Unit, whole: int, decimals: str, sign: str, mark: str) -> str:
    return f"{sign}{whole}{mark if decimals else ''}{decimals} {unit.name}".strip()


@given(units, whole, decimals, st.sampled_from(["", "+", "-", "−"]))
def test_value_is_the_exact_product_rounded_once(unit: Unit, whole: int, decimals: str, sign: str) -> None:
    quantity = read(_typed(unit, whole, decimals, sign, "."), unit.dimension)
    size = Fraction(int(f"{whole}{decimals}"), 10 ** len(decimals))
    exact = (-size if sign in ("-", "−") else size) * unit.factor
    assert quantity.exact == exact
    assert quantity.value == exact.numerator / exact.denominator
    assert quantity.step == float(unit.factor / 10 ** len(decimals))
    assert quantity.unit == unit.name


@given(units, whole, decimals)
def test_a_further_zero_divides_the_resolution_by_ten_and_leaves_the_value(
    unit: Unit, whole: int, decimals: str
) -> None:
    first = read(_typed(unit, whole, decimals or "5", "", "."), unit.dimension)
    second = read(_typed(unit, whole, (decimals or "5") + "0", "", "."), unit.dimension)
    assert second.resolution * 10 == first.resolution
    assert second.exact == first.exact


@given(units, whole, decimals)
def test_comma_and_point_mean_the_same_unless_the_comma_is_asked(unit: Unit, whole: int, decimals: str) -> None:
    point = read(_typed(unit, whole, decimals, "", "."), unit.dimension)
    with_comma = _typed(unit, whole, decimals, "", ",")
    if len(decimals) == 3 and 0 < whole < 1000 and (unit.dimension, unit.name) not in NO_THOUSANDS:
        with pytest.raises(Refused):
            read(with_comma, unit.dimension)
    else:
        comma = read(with_comma, unit.dimension)
        assert (comma.number, comma.resolution, comma.value) == (point.number, point.resolution, point.value)


@given(st.sampled_from(UNITS), st.integers(0, 10**6), st.integers(0, 6))
def test_round_trip_through_every_unit_of_the_dimension(unit: Unit, digits: int, places: int) -> None:
    places = 0 if unit.dimension == "count" else places
    start = read(f"{Decimal(digits).scaleb(-places):f} {unit.name}", unit.dimension)
    for name in units_of(start.dimension):
        other = next(u for u in UNITS if (u.dimension, u.name) == (unit.dimension, name))
        back = replace(start, number=start.in_unit(name), unit=name)
        if ends((start.exact - other.offset) / other.factor):
            assert back.exact == start.exact
        assert abs(back.exact - start.exact) <= (abs(start.exact) + abs(other.offset)) / 10**33
        assert back.value == start.value
        assert back.in_unit(unit.name).quantize(start.number) == start.number


@given(st.sampled_from(UNITS), st.integers(0, 10**6))
def test_written_out_and_read_again(unit: Unit, digits: int) -> None:
    start = read(f"{digits} {unit.name}", unit.dimension)
    again = read(str(start), unit.dimension)
    assert (again.number, again.unit, again.resolution) == (start.number, start.unit, start.resolution)


@given(st.integers(0, 99), st.integers(1, 127), st.sampled_from([2, 4, 8, 16, 32, 64, 128]))
def test_inch_fractions(whole: int, top: int, bottom: int) -> None:
    text = f"{whole} {top}/{bottom} in"
    if top >= bottom:
        with pytest.raises(Refused):
            read(text, "length")
        return
    quantity = read(text, "length")
    assert quantity.exact == (whole + Fraction(top, bottom)) * Fraction("25.4")
    assert Fraction(quantity.resolution) == Fraction(1, bottom)
    assert read(str(quantity), "length").exact == quantity.exact


NASTY = "0123456789.,+-−/eE mμµ\"'°CNFKin½²⁻\u202f\xa0*<>()x"


@given(st.one_of(st.text(), st.text(NASTY), st.text(max_size=3).map(lambda t: "4" + t)), st.sampled_from(DIMENSIONS))
def test_any_text_is_read_or_refused(text: str, dimension: str) -> None:
    for default in (None, INSIDE[dimension] or None):
        for reader in (read, read_indication):
            try:
                reader(text, dimension, unit=default)
            except Refused as refused:
                assert all(str(p.what) and str(p.remedy) for p in refused.problems)


@given(st.text(), st.text())
def test_any_unit_text_is_known_or_refused(one: str, two: str) -> None:
    for unit in (one, two):
        with pytest.raises(Refused):
            read("41.80", "length", unit=unit + "?")
    try:
        convert(1.0, one, two)
    except Refused:
        return


@given(st.floats(), st.sampled_from(UNITS), st.data())
def test_any_float_is_converted_or_refused(value: float, unit: Unit, data: st.DataObject) -> None:
    other = (
        data.draw(st.sampled_from([u for u in UNITS if u.dimension == unit.dimension and u.name]))
        if unit.name
        else unit
    )
    try:
        result = convert(value, unit.name, other.name)
    except Refused:
        assert not unit.name or not abs(value) < 1e290
        return
    exact = (Fraction(value) * unit.factor + unit.offset - other.offset) / other.factor
    assert result == exact.numerator / exact.denominator


@given(st.floats(), st.sampled_from(UNITS), st.one_of(st.none(), st.integers(0, 12)))
def test_shown_values_are_plain_and_close(value: float, unit: Unit, places: int | None) -> None:
    try:
        words = show(value, unit.dimension, unit=unit.name or None, places=places)
    except Refused:
        assert value - value != 0  # NaN or infinite
        return
    number = words.removesuffix(unit.name).strip().replace("−", "-")
    assert "e" not in number.lower()
    places = unit.places if places is None else places
    assert len(number.partition(".")[2]) == places
    inside = Fraction(number) * unit.factor + unit.offset
    assert abs(inside - Fraction(repr(value))) <= unit.factor / 2 / 10**places + abs(inside) / 10**30


@given(st.integers(-500, 500), st.integers(0, 99_999), st.sampled_from([1, -1]))
def test_deviation_is_the_sum(counts: int, hundredths: int, direction: int) -> None:
    master = read(f"{Decimal(hundredths).scaleb(-3):f}", "length", unit="mm")
    there = read_deviation(f"{counts:+}", master=master, unit="µm", direction=direction)
    assert there.exact == master.exact + direction * Fraction(counts, 1000)
    back = read_deviation(f"{counts:+}", master=there, unit="µm", direction=-direction)
    assert back.exact == master.exact


def test_the_callers_decimal_context_changes_nothing() -> None:
    before = read("123456789.123456789 in", "length")
    with localcontext(Context(prec=2)):
        after = read("123456789.123456789 in", "length")
        assert (after.number, after.value, str(after)) == (before.number, before.value, str(before))
        assert after.in_unit("mm") == before.in_unit("mm")
        assert str(read("99 1/128 in", "length")) == "99 1/128 in"
        assert show(123.4567, "length") == "123.457 mm"
