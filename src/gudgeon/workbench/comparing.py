"""Books compared and made like one another, as faces ask for it: they never see a book itself."""

from __future__ import annotations

from msgspec import Struct

from gudgeon.book.diff import differences, like
from gudgeon.problem import refuse
from gudgeon.workbench.bench import Workbench


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


def make_like(bench: Workbench, sha256: str, name: str) -> str:
    """Keep a book of another name that is like a kept one; its digest. A name that is taken is refused."""
    text = bench.library.book(sha256)
    if text is None:
        raise refuse("book", "No such book is kept.", "Look at the list of books.")
    if len(name) > 80:
        raise refuse("book", "The name has {n} characters.", "Use at most 80.", n=len(name))
    taken = {known.casefold() for _sha, known, _edition in bench.library.books()}
    if name.strip().casefold() in taken:
        raise refuse(
            "book", "There is a book {name} already.", "Give the new one a name of its own.", name=name.strip()
        )
    return bench.add_book(book_like(text, name))
