"""Two columns for one value are two chances for a misprint: 0.006 in beside 0.015 mm has lost a digit."""

from collections.abc import Iterable, Iterator

from gudgeon.audit.shape import Finding, found, half_steps
from gudgeon.book.book import Rows
from gudgeon.shelf.parse import Shelf
from gudgeon.units import Quantity, units_of

KEY = "unit_columns"
NAME = "unit columns agree"
WHY = "A technician reads the column of his gauge and trusts the other to say the same."


def check(rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
    """Every pair of columns, compared within what rounding can explain."""
    for line, where, one, other in _pairs(rows):
        gap = abs(float(one.exact - other.exact))
        if gap > half_steps(one, other):
            yield found("error", line, where, "{one} and {other} are not the same.",
                        "One of them is a misprint{likely}.",
                        f"{one} = {_in(one, other.unit)}; {other} = {_in(other, one.unit)}",
                        one=str(one), other=str(other), likely=_likely(one, other))  # fmt: skip


def _pairs(rows: Rows) -> Iterator[tuple[int, str, Quantity, Quantity]]:
    for row in rows.limits:
        pairs = [(row.typed_least, row.also_least), (row.typed_most, row.also_most)]
        pairs += list(zip(row.new or (), row.also_new or (), strict=False))
        for one, other in pairs:
            if one is not None and other is not None:
                yield row.line, row.address, one, other
    for bolt in rows.fasteners:
        for torque, also in zip(bolt.torque, bolt.also_torque, strict=False):
            yield bolt.line, bolt.name, torque, also


def _in(size: Quantity, unit: str) -> str:
    return f"{size.in_unit(unit):.4g} {unit}"


def _likely(one: Quantity, other: Quantity) -> str:
    """What a lost decimal or another unit of the same dimension would have made of it."""
    for power in (10, 100, 1000):
        for a, b in ((one, other), (other, one)):
            if abs(float(a.exact * power - b.exact)) <= half_steps(b) + float(a.step) * power / 2:
                return f": {a} may be {a.number * power} {a.unit}"
    for unit in units_of(other.dimension):
        meant = Quantity(text=other.text, number=other.number, unit=unit, dimension=other.dimension,
                         resolution=other.resolution)  # fmt: skip
        if unit != other.unit and abs(float(meant.exact - one.exact)) <= half_steps(meant, one):
            return f": {other.number} may be {unit}"
    return ""
