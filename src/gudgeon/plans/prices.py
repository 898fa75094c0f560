"""What a part costs here: the workshop's own price beats the book's."""

from __future__ import annotations

from gudgeon.plans.shape import Given


def price_of(given: Given, number: str) -> float | None:
    """The price of a part number, if anybody says one."""
    own = given.shelf.price(number)
    if own is not None:
        return own.value
    row = given.book.part(number)
    return row.price.value if row is not None and row.price is not None else None
