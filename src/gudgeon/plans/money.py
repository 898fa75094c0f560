"""Money is added up exactly, and rounded to the cent once a line, as a bill is."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from gudgeon.units import Quantity

CENT = Decimal("0.01")


def exact(amount: float | None) -> Decimal:
    """An amount as it was typed: the shortest decimal that is this number."""
    return Decimal(repr(amount or 0.0))


def cents(amount: Decimal) -> Decimal:
    """Rounded to the cent, half a cent up (common practice, no source)."""
    return amount.quantize(CENT, rounding=ROUND_HALF_UP)


def of_quantity(quantity: Quantity) -> Decimal:
    """A quantity in its inside unit, without a float between."""
    whole = Fraction(quantity.exact)
    return Decimal(whole.numerator) / Decimal(whole.denominator)
