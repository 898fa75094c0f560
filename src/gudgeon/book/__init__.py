"""What the maker says of one engine family: layout, limits, fasteners, shims, parts. It grows by use."""

from gudgeon.book.book import Book, Rows, digest
from gudgeon.book.engine import Aims, CamEvent, Caution, Geometry, Materials, Seat, ShimSystem, Spring
from gudgeon.book.fasteners import FastenerRow
from gudgeon.book.limits import LimitRow
from gudgeon.book.parse import parse_book, read_rows
from gudgeon.book.parts import PartRow
from gudgeon.book.write import empty_book, with_limit

__all__ = [
    "Aims",
    "Book",
    "CamEvent",
    "Caution",
    "FastenerRow",
    "Geometry",
    "LimitRow",
    "Materials",
    "PartRow",
    "Rows",
    "Seat",
    "ShimSystem",
    "Spring",
    "digest",
    "empty_book",
    "parse_book",
    "read_rows",
    "with_limit",
]
