"""A photo of the book's page beside a value: for this workshop's eyes, by the book's name, never part of its text."""

from __future__ import annotations

from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.problem import refuse
from gudgeon.workbench.bench import Workbench


def put_photo(bench: Workbench, sha256: str, key: str, data: bytes) -> str:
    """Keep a picture and put it beside a limit of this book, in every edition; its digest."""
    book = bench.book(sha256)
    if key not in CHARACTERISTICS:
        raise refuse("photo", "The book has no row {key}.", "Choose a row of the grid.", key=key[:40])
    picture = bench.pictures.put(data)
    bench.library.put_photo(book.name, key, picture)
    return picture


def take_photo_away(bench: Workbench, sha256: str, key: str) -> None:
    """No photo stands beside this limit any more."""
    bench.library.put_photo(bench.book(sha256).name, key, "")


def photo(bench: Workbench, sha256: str, key: str) -> bytes:
    """The photo beside a limit."""
    picture = bench.library.photos(bench.book(sha256).name).get(key, "")
    data = bench.pictures.get(picture) if picture else None
    if data is None:
        raise refuse("photo", "No photo stands beside this row.", "Take one of the book's page.")
    return data


def row_name(key: str) -> str:
    """What a row is called."""
    return CHARACTERISTICS[key].name if key in CHARACTERISTICS else key
