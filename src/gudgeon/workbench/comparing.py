"""Books compared and made like one another, as faces ask for it: they never see a book itself."""

from __future__ import annotations

from msgspec import Struct

from gudgeon.book.diff import differences, like


class DifferenceLine(Struct, frozen=True, kw_only=True):
    """One cell that is not the same in two books."""

    where: str
    cell: str
    old: str
    new: str

    def __str__(self) -> str:
        return f"{self.where}, {self.cell}: {self.old or '–'} → {self.new or '–'}"


def compare(old: str, new: str) -> tuple[DifferenceLine, ...]:
    """What differs between two books' texts, row by row."""
    return tuple(DifferenceLine(where=d.where, cell=d.cell, old=d.old, new=d.new) for d in differences(old, new))


def book_like(text: str, name: str) -> str:
    """A book of another name that is like this one, to be changed from there."""
    return like(text, name)
