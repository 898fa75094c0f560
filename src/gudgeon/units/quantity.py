"""What is typed is kept, what is computed is exact: text ⇄ quantity, deviation from a master, a value in words."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from gudgeon.problem import Refused, refuse
from gudgeon.units.number import DENOMINATORS, WIDE, as_decimal, ends, fold, parse, quoted
from gudgeon.units.table import (
    DIMENSIONS,
    INSIDE,
    NAMED,
    NO_THOUSANDS,
    Unit,
    by_name,
    find,
    nearest,
    other_kinds,
    units_of,
)

#: Least and most, in the inside unit.
Span = tuple[float, float]
_BARE = frozenset({"count", "number", "money"})
_WITH_EXPONENT = frozenset({"expansion", "number"})
_INCHES = frozenset({"in", "ft"})
_COLDEST = Fraction("-273.15")
_EXAMPLE = {"length": "41.80 mm", "expansion": "11.5e-6 /K", "count": "4", "number": "1.25", "money": "12.50"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A value as it was typed; `value` and `step` give it in the inside unit of its dimension, correctly rounded."""

    text: str
    number: Decimal
    unit: str
    dimension: str
    resolution: Decimal

    @property
    def exact(self) -> Fraction:
        """The value in the inside unit, without any rounding."""
        if self.unit == INSIDE.get(self.dimension):
            return Fraction(self.number)
        unit = _own(self)
        return Fraction(self.number) * unit.factor + unit.offset

    @property
    def value(self) -> float:
        """The value in the inside unit."""
        return float(self.exact)

    @property
    def step(self) -> float:
        """What one count of the last digit typed is worth, in the inside unit."""
        return float(Fraction(self.resolution) * _own(self).factor)

    def in_unit(self, unit: str) -> Decimal:
        """The value in another unit: exact where decimals can hold it, else to 34 digits."""
        other = _unit(unit, self.dimension, given=unit, where="unit")
        return as_decimal((self.exact - other.offset) / other.factor)

    def __str__(self) -> str:
        parts = 1 / Fraction(self.resolution)
        if parts in DENOMINATORS and (Fraction(self.number) * parts).denominator == 1:
            return _in_parts(self.number, int(parts)) + f" {self.unit}"
        return _worded(self.number, self.unit)


def _own(quantity: Quantity) -> Unit:
    unit = NAMED.get((quantity.dimension, quantity.unit))
    if unit is None:
        raise refuse(
            "value", "{unit} is no unit of {kind}.", "Read it from text.", unit=quantity.unit, kind=quantity.dimension
        )
    return unit


def _in_parts(number: Decimal, parts: int) -> str:
    """An inch fraction with the denominator that was typed: ``1 2/16``."""
    whole, top = divmod(int(abs(Fraction(number)) * parts), parts)
    return ("−" if number < 0 else "") + (f"{whole} " if whole else "") + f"{top}/{parts}"


def _worded(number: Decimal, unit: str) -> str:
    digits = f"{number:f}".replace("-", "−")
    return digits if not unit else digits + ("°" if unit == "°" else f" {unit}")


def _example(dimension: str) -> str:
    return _EXAMPLE.get(dimension) or f"12.5 {INSIDE[dimension]}"


def _unit(spelling: str, dimension: str, *, given: str, where: str) -> Unit:
    """The unit meant, or the refusal that names the kind it is, or the unit that was likely meant."""
    found = find(spelling, dimension)
    if found is not None:
        return found
    known = ", ".join(units_of(dimension)) or "no unit: the number alone"
    kinds = other_kinds(spelling)
    if kinds:
        raise refuse(
            where,
            "{given} is {found}; {wanted} is wanted.",
            "Give it in one of: {known}.",
            given=quoted(given),
            found=" or ".join(kinds),
            wanted=dimension,
            known=known,
        )
    close = nearest(spelling, dimension)
    meant = f"Did you mean {close}? " if close else ""
    raise refuse(
        where,
        "{given}: {unit} is no unit of {wanted}.",
        "{meant}Give it in one of: {known}.",
        given=quoted(given),
        unit=quoted(spelling),
        wanted=dimension,
        meant=meant,
        known=known,
    )


def _known_dimension(dimension: str, where: str) -> None:
    if dimension not in DIMENSIONS:
        raise refuse(
            where,
            "There is no kind of quantity called {given}.",
            "Use one of: {known}.",
            given=quoted(dimension),
            known=", ".join(DIMENSIONS),
        )


def read(
    text: str, dimension: str, *, unit: str | None = None, where: str = "value", within: Span | None = None
) -> Quantity:
    """The quantity that was typed; a text without a unit takes `unit`, and is refused where there is none to take.

    `within` is what the thing can be, in the inside unit: it settles a comma that may be a decimal one or group
    thousands, and refuses nothing.
    Gauge or absolute pressure is the measurand's business. Under *force*, "lb" and "kg" are read as lbf and kgf.
    """
    _known_dimension(dimension, where)
    folded = fold(text, where)
    if not folded:
        raise refuse(where, "Nothing was typed.", "Type it, for example {example}.", example=_example(dimension))
    typed = parse(folded, given=text, example=_example(dimension), where=where)
    if typed.has_exponent and dimension not in _WITH_EXPONENT:
        raise refuse(where, "{given} has an exponent; {wanted} is read without one.", "Write all its digits.",
                     given=quoted(text), wanted=dimension)  # fmt: skip
    meant = _meant(typed.rest, dimension, unit, text, where)
    if typed.is_fraction and meant.name not in _INCHES:
        raise refuse(where, "{given} is a fraction, which is read for inches and feet only.",
                     "Write decimals, or the unit in.", given=quoted(text))  # fmt: skip
    quantity = Quantity(
        text=text, number=typed.number, unit=meant.name, dimension=dimension, resolution=typed.resolution
    )
    if typed.grouped is not None:
        grouped = replace(quantity, number=typed.grouped, resolution=Decimal(1))
        quantity = _settled(quantity, grouped, within, where)
    _possible(quantity, where)
    return quantity


def _settled(plain: Quantity, grouped: Quantity, within: Span | None, where: str) -> Quantity:
    """Which of the two meanings of ``5,966`` is possible; the question where both are, or neither."""
    if (plain.dimension, plain.unit) in NO_THOUSANDS:
        return plain
    low, high = within or (-math.inf, math.inf)
    possible = [q for q in (plain, grouped) if low <= q.value <= high]
    if len(possible) == 1:
        return possible[0]
    raise refuse(where, "{given} may mean {small} or {large}.",
                 "Which one? Type {small} with a point, or {large} without the comma.", given=quoted(plain.text),
                 small=f"{plain.number}", large=f"{grouped.number}")  # fmt: skip


def _meant(rest: str, dimension: str, default: str | None, given: str, where: str) -> Unit:
    if rest:
        return _unit(rest, dimension, given=given, where=where)
    if default:
        return _unit(default, dimension, given=default, where=where)
    if dimension in _BARE:
        return _unit("", dimension, given=given, where=where)
    raise refuse(
        where,
        "{given} has no unit.",
        "Add one of: {known}.",
        given=quoted(given),
        known=", ".join(units_of(dimension)),
    )


def _possible(quantity: Quantity, where: str) -> None:
    """Refuse what cannot be in any workshop: half a bolt, or colder than absolute zero."""
    if quantity.dimension == "count" and (
        quantity.number < 0 or quantity.number != quantity.number.to_integral_value()
    ):
        raise refuse(where, "{given} is not a count.", "Type a whole number.", given=quoted(quantity.text))
    if quantity.dimension == "temperature" and quantity.exact < _COLDEST:
        raise refuse(where, "{given} is colder than absolute zero (−273.15 °C).", "Type the temperature again.",
                     given=quoted(quantity.text))  # fmt: skip


def read_deviation(text: str, *, master: Quantity, unit: str, direction: int = 1, where: str = "value") -> Quantity:
    """The value a dial set on `master` means: ``+26`` (µm) on 60.000 mm is 60.026 mm.

    A dial that runs backwards has direction −1. The text stays as typed; the resolution is that of the dial, in the
    master's unit. A metric dial on an inch master gives the inside unit (mm), where no digit is lost.
    """
    if direction not in (1, -1):
        raise refuse(where, "A dial cannot run in direction {given}.", "Use 1 or −1.", given=direction)
    dial = read(text, master.dimension, unit=unit, where=where)
    own, inside = _own(master), NAMED[master.dimension, INSIDE[master.dimension]]
    target = own if ends(_own(dial).factor / own.factor) else inside
    moved = direction * Fraction(dial.number) * _own(dial).factor
    total = as_decimal((master.exact + moved - target.offset) / target.factor)
    step = as_decimal(Fraction(dial.resolution) * _own(dial).factor / target.factor)
    kept = (total, step, master.number) if target is own else (total, step)
    places = min(int(n.as_tuple().exponent) for n in kept)
    return Quantity(
        text=text,
        number=WIDE.quantize(total, Decimal((0, (1,), places))),
        unit=target.name,
        dimension=master.dimension,
        resolution=step,
    )


def show(value: float, dimension: str, *, unit: str | None = None, places: int | None = None) -> str:
    """A value given in the inside unit, in words: ``0.076 mm``; no powers of ten, halves rounded away from zero."""
    _known_dimension(dimension, "show")
    target = _unit(unit or INSIDE[dimension], dimension, given=unit or "", where="unit")
    exact = (_finite(value, "show") - target.offset) / target.factor
    step = Decimal((0, (1,), -(target.places if places is None else places)))
    rounded = as_decimal(exact).quantize(step, rounding=ROUND_HALF_UP, context=WIDE)
    return _worded(rounded if rounded else rounded.copy_abs(), target.name)


def _finite(value: float, where: str) -> Fraction:
    """The number a person would read off the float: 0.1 is a tenth."""
    if not math.isfinite(value):
        raise refuse(where, "There is no number here.", "Look for what gave it: no value should get this far.")
    return Fraction(repr(float(value)))


def dimension_of(unit: str) -> str:
    """The dimension a unit belongs to; where it has several ("MPa"), the one named first in the list of units."""
    meant = by_name(unit) if unit else ()
    if not meant:
        raise _no_unit(unit)
    return meant[0].dimension


def _no_unit(unit: str) -> Refused:
    return refuse("unit", "{given} is no unit.", "Use a unit from the list.", given=quoted(unit))


def convert(value: float, from_unit: str, to_unit: str) -> float:
    """A plain number from one unit to another of the same dimension, rounded once."""
    for source in by_name(from_unit):
        target = find(to_unit, source.dimension)
        if target is not None:
            return _convert(value, source, target)
    if not by_name(from_unit) or not by_name(to_unit):
        raise _no_unit(to_unit if by_name(from_unit) else from_unit)
    raise refuse("unit", "{given} cannot become {wanted}.", "Use two units of one kind.", given=from_unit,
                 wanted=to_unit)  # fmt: skip


def _convert(value: float, source: Unit, target: Unit) -> float:
    exact = Fraction(value) if math.isfinite(value) else _finite(value, "convert")
    try:
        return float((exact * source.factor + source.offset - target.offset) / target.factor)
    except OverflowError:
        raise refuse("convert", "{given} {unit} is too large.", "Give a smaller number.", given=value,
                     unit=source.name) from None  # fmt: skip
