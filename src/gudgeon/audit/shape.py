"""What every check of a book must say of itself, and what it says when something contradicts."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal, Protocol

from gudgeon import units
from gudgeon.book.book import Rows
from gudgeon.problem import Said, said
from gudgeon.shelf.parse import Shelf
from gudgeon.units import Quantity

Severity = Literal["error", "warning"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """A contradiction in a book: its line, the row it is about, what does not fit, the arithmetic, what to do."""

    severity: Severity
    line: int
    where: str
    what: Said
    arithmetic: str
    remedy: Said
    check: str = ""

    def __str__(self) -> str:
        sums = f" ({self.arithmetic})" if self.arithmetic else ""
        return f"{self.severity}: {self.where}: {self.what}{sums} {self.remedy}"


class Check(Protocol):
    """One file in `kinds/`: key, name, why a workshop checks it, and the check itself over the rows that parsed."""

    KEY: str
    NAME: str
    WHY: str

    def check(self, rows: Rows, shelf: Shelf | None) -> Iterable[Finding]:
        """What contradicts."""
        ...


def found(
    severity: Severity, line: int, where: str, what: str, remedy: str, arithmetic: str = "", **values: str | int | float
) -> Finding:
    """A finding with its two sentences."""
    return Finding(
        severity=severity,
        line=line,
        where=where,
        what=said(what, **values),
        arithmetic=arithmetic,
        remedy=said(remedy, **values),
    )


def mm(value: float, places: int = 3) -> str:
    """A length in words."""
    return units.show(value, "length", places=places)


def half_steps(*sizes: Quantity) -> float:
    """What rounding to the digits printed may have hidden in a sum of these, in the inside unit."""
    return sum(size.step for size in sizes) / 2 * 1.000001
