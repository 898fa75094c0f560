"""Editions of a book: every one is kept, a job stays on its own until somebody puts it on another, seeing what differs."""

from __future__ import annotations

import json
import tomllib
from typing import Any

from msgspec import Struct

from gudgeon.anatomy import expand, say
from gudgeon.book.book import digest
from gudgeon.book.parse import parse_book
from gudgeon.book.schema import schema
from gudgeon.job.entries import BookPinned
from gudgeon.problem import refuse
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.comparing import DifferenceLine, compare
from gudgeon.workbench.ports import Landed, Library


class Edition(Struct, frozen=True, kw_only=True):
    """One kept edition of a name; `this` marks the text that was asked for."""

    edition: str
    sha256: str
    this: bool


class BookShown(Struct, frozen=True, kw_only=True):
    """A book as JSON: its digest, its editions, every place and slot in words, and its tables as typed."""

    format: str
    name: str
    edition: str
    sha256: str
    editions: tuple[Edition, ...]
    places: dict[str, str]
    slots: dict[str, str]
    tables: dict[str, Any]


def editions(library: Library, text: str) -> tuple[Edition, ...]:
    """Every kept edition of the book that has this text's name, as the library lists them."""
    name, own = parse_book(text).name, digest(text)
    return tuple(
        Edition(edition=edition, sha256=sha, this=sha == own) for sha, n, edition in library.books() if n == name
    )


def shown(text: str, kept: tuple[Edition, ...] = ()) -> BookShown:
    """A book as JSON."""
    book = parse_book(text)
    engine, single = expand(book.layout), book.layout.cylinders == 1
    return BookShown(
        format="book/1",
        name=book.name,
        edition=book.edition,
        sha256=digest(text),
        editions=kept,
        places={place: say(place, single=single) for place in engine.places},
        slots={slot: say(slot, single=single) for slot in engine.slots},
        tables=tomllib.loads(text.removeprefix("\ufeff")),
    )


def book_schema() -> str:
    """The JSON Schema of a book, as the committed file has it."""
    return json.dumps(schema(), indent=2, ensure_ascii=False) + "\n"


def if_pinned(bench: Workbench, number: str, sha256: str) -> tuple[DifferenceLine, ...]:
    """What differs between the edition a job stands on and another; refused where its readings would lose their places."""
    own = bench.loaded(number).book()
    old, new = bench.library.book(own), bench.library.book(sha256)
    if new is None or old is None:
        raise refuse("book", "No book with the digest {sha} is kept.", "Add it again.", sha=sha256[:12])
    gone = [s for s in expand(bench.book(own).layout).slots if s not in expand(bench.book(sha256).layout).slots]
    if gone:
        raise refuse(f"job {number}", "The other book's engine has no {slot}.", "Pin a book of the same engine.",
                     slot=say(gone[0]))  # fmt: skip
    return compare(old, new)


def pin(bench: Workbench, number: str, sha256: str, hand: Hand) -> Landed:
    """Put a job on another edition, by an entry of its own; refused where it stands on it already."""
    if sha256 == bench.loaded(number).book():
        raise refuse(f"job {number}", "It stands on this edition already.", "Nothing is to be done.")
    if_pinned(bench, number, sha256)
    book = bench.book(sha256)
    return bench.record(number, (BookPinned(name=book.name, edition=book.edition, sha256=sha256),), hand)[0]
