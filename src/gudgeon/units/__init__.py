"""Typed text ⇄ exact quantity. The only place where units are known; typed text never reaches a general parser."""

from gudgeon.units.indication import Indication, read_indication
from gudgeon.units.quantity import Quantity, Span, convert, dimension_of, read, read_deviation, show
from gudgeon.units.table import INSIDE, Dimension, units_of

__all__ = [
    "INSIDE",
    "Dimension",
    "Indication",
    "Quantity",
    "Span",
    "convert",
    "dimension_of",
    "read",
    "read_deviation",
    "read_indication",
    "show",
    "units_of",
]
