"""What a database says when it cannot, in the words of the bench."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from django.db import Error, connection

from gudgeon.problem import Refused, refuse

# SQLite's primary result codes, https://www.sqlite.org/rescode.html
_BUSY, _READONLY, _IOERR, _CORRUPT, _FULL, _CANTOPEN, _NOTADB = 5, 8, 10, 11, 13, 14, 26

_WORDS = {
    _BUSY: ("The database is in use by another program: {why}; nothing was written.", "Close it there and try again."),
    _READONLY: (
        "The database may not be written: {why}; nothing was written.",
        "Give your account the right to write.",
    ),
    _IOERR: (
        "The disk did not take what was written, it may be full: {why}; nothing was written.",
        "Make room on the disk, look whether it is well, and send it again.",
    ),
    _CORRUPT: ("The database is damaged: {why}.", "Restore a checked copy."),
    _FULL: ("The disk is full: {why}; nothing was written.", "Make room on the disk and send it again."),
    _CANTOPEN: ("The database cannot be opened: {why}.", "Look whether the data folder is there and yours to write."),
    _NOTADB: ("The database is damaged: {why}.", "Restore a checked copy."),
}


@contextmanager
def told(where: str) -> Iterator[None]:
    """Whatever the database refuses becomes a :class:`Refused`; the transaction was rolled back before."""
    try:
        yield
    except (Error, sqlite3.Error) as wrong:
        if not connection.in_atomic_block:
            connection.close()  # the next one opens anew
        raise in_words(where, wrong) from wrong


def in_words(where: str, wrong: Exception) -> Refused:
    """The problem behind an error of the database."""
    code = getattr(wrong.__cause__ or wrong, "sqlite_errorcode", None)
    why = str(wrong).strip().splitlines()[0] if str(wrong).strip() else type(wrong).__name__
    if "DiskFull" in type(wrong.__cause__).__name__:
        code = _FULL
    if code is not None and code & 0xFF in _WORDS:
        what, remedy = _WORDS[code & 0xFF]
        return refuse(where, what, remedy, why=why)
    return refuse(
        where,
        "The database does not answer: {why}; nothing was written.",
        "Try again; if it stays so, stop the bench and start it again.",
        why=why,
    )
