"""Checked copies of the database, taken while it is in use, and put back.

A copy is put back *into* the file in use, as one transaction, so that other connections see it whole and a break in the middle
leaves what was there; exchanging the file under them would leave them writing to the old one. Only where the file in use
is no database any more is it exchanged.
"""

from __future__ import annotations

import os
import re
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from django.db import connection

from gudgeon.problem import Problem, Refused, refuse
from gudgeon.storage.append import WRITING
from gudgeon.storage.checking import check
from gudgeon.storage.tables import bring_up_to_date, refuse_later
from gudgeon.storage.trouble import told
from gudgeon.workbench.ports import Clock, Copy

#: So many are kept of each kind: checked, and unchecked (what was damaged when it was copied).
KEPT = 10
_NAME = re.compile(r"(\d{4}-\d\d-\d\dT)(\d\d)-(\d\d)-(\d\dZ)(?:-(\d+))?(-unchecked)?\.sqlite3")


class SqliteCopies:
    """The copies in one folder, and in a second place if one is named."""

    def __init__(
        self, database: Path, folder: Path, clock: Clock, *, pictures: Path, second: Path | None = None
    ) -> None:
        self._database = database
        self._folder = folder
        self._clock = clock
        self._pictures = pictures
        self._second = second

    def make(self) -> Copy:
        """A copy that passed its check; a damaged database is copied too, and said."""
        copy, problems = self._keep()
        _prune(self._folder)
        if problems:
            raise Refused(problems)
        if self._second is not None:
            self._carry(copy.name, self._second)
        return copy

    def all(self) -> tuple[Copy, ...]:
        """The newest first."""
        return _listed(self._folder)

    def restore(self, name: str) -> None:
        """Put a copy back after checking it; what it replaces is kept as a copy."""
        if name not in {copy.name for copy in self.all()}:
            raise refuse("copy", "There is no copy {name}.", "Choose one from the list of copies.", name=name[:80])
        copy = self._folder / name
        problems = check(copy)
        if problems:
            raise Refused(problems)
        with closing(sqlite3.connect(copy)) as database:
            refuse_later(database.execute("SELECT app, name FROM django_migrations").fetchall())
        with WRITING, told("copy"):
            if self._database.exists():
                self._keep()
            connection.close()
            try:
                _put_back(copy, self._database)
            except OSError as wrong:
                raise refuse(
                    "copy",
                    "The copy could not be put back: {why}.",
                    "End every program that has the database open, and try again.",
                    why=wrong.strerror or str(wrong),
                ) from wrong
            bring_up_to_date()
        _prune(self._folder)

    def _keep(self) -> tuple[Copy, tuple[Problem, ...]]:
        """Copy and check; the name says whether it passed."""
        if not self._database.exists():
            raise refuse(
                "copy", "There is no database {file} to copy.", "Start the bench once.", file=str(self._database)
            )
        with told("copy"), _made(self._folder), _aside(self._folder) as aside:
            problems = _copied(self._database, aside / "copy")
            name = self._free_name("-unchecked" if problems else "")
            (aside / "copy").replace(self._folder / name)
        return next(copy for copy in self.all() if copy.name == name), problems

    def _free_name(self, suffix: str) -> str:
        stamp = self._clock.now().replace(":", "-")
        taken = {copy.name.removesuffix(".sqlite3").removesuffix("-unchecked") for copy in self.all()}
        n, stem = 1, stamp
        while stem in taken:
            n, stem = n + 1, f"{stamp}-{n + 1}"
        return f"{stem}{suffix}.sqlite3"

    def _carry(self, name: str, second: Path) -> None:
        """The same copy, and the pictures that are not there yet, in the second place."""
        with _made(second / "pictures"):  # the place itself is never made: an unplugged disk must be noticed
            _copy_file(self._folder / name, second / name)
            for picture in sorted(self._pictures.glob("*.jpg")):
                if not (second / "pictures" / picture.name).exists():
                    _copy_file(picture, second / "pictures" / picture.name)
            _prune(second)


@contextmanager
def _made(folder: Path) -> Iterator[None]:
    """The folder, made if missing; what the disk refuses in words."""
    try:
        folder.mkdir(exist_ok=True)
        yield
    except OSError as wrong:
        raise refuse(
            "copy",
            "No copy could be put into {folder}: {why}.",
            "Look whether that place is there, has room, and is yours to write.",
            folder=str(folder),
            why=wrong.strerror or str(wrong),
        ) from wrong


@contextmanager
def _aside(folder: Path) -> Iterator[Path]:
    """A place for a copy in the making and its journal; what a killed process left an hour ago or more is swept."""
    with tempfile.TemporaryDirectory(prefix="making-", dir=folder) as aside:
        for left in folder.glob("making-*"):
            if left.stat().st_mtime < Path(aside).stat().st_mtime - 3600:
                shutil.rmtree(left, ignore_errors=True)
        yield Path(aside)


def _listed(folder: Path) -> tuple[Copy, ...]:
    found = []
    for file in folder.glob("*.sqlite3"):
        parts = _NAME.fullmatch(file.name)
        if parts:
            day, hour, minute, second, n, unchecked = parts.groups()
            made_at = f"{day}{hour}:{minute}:{second}"
            copy = Copy(name=file.name, made_at=made_at, size=file.stat().st_size, checked=unchecked is None)
            found.append(((made_at, int(n or 1)), copy))
    return tuple(copy for _, copy in sorted(found, key=lambda pair: pair[0], reverse=True))


def _prune(folder: Path) -> None:
    copies = _listed(folder)
    for kind in (True, False):
        for copy in [copy for copy in copies if copy.checked is kind][KEPT:]:
            (folder / copy.name).unlink(missing_ok=True)


def _copied(database: Path, part: Path) -> tuple[Problem, ...]:
    """A copy as one closed file, and what is wrong with it; what is no database is copied as it lies."""
    try:
        with closing(sqlite3.connect(database)) as source, closing(sqlite3.connect(part)) as copy:
            source.backup(copy)
            copy.execute("PRAGMA journal_mode = DELETE")
    except sqlite3.DatabaseError as wrong:
        if not _is_damage(wrong):
            raise
        _copy_file(database, part)
    return check(part)


def _put_back(copy: Path, database: Path) -> None:
    try:
        with closing(sqlite3.connect(copy)) as source, closing(sqlite3.connect(database, timeout=20)) as target:
            target.execute("PRAGMA synchronous = FULL")
            source.backup(target)
    except sqlite3.DatabaseError as wrong:
        if not _is_damage(wrong):
            raise
        for beside in ("-wal", "-shm"):
            database.with_name(database.name + beside).unlink(missing_ok=True)
        _copy_file(copy, database)


def _is_damage(wrong: sqlite3.DatabaseError) -> bool:
    return wrong.sqlite_errorcode & 0xFF in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)


def _copy_file(source: Path, target: Path) -> None:
    """Whole under its name, or not there."""
    part = target.with_name(target.name + ".part")
    with source.open("rb") as reader, part.open("wb") as writer:
        shutil.copyfileobj(reader, writer)
        writer.flush()
        os.fsync(writer.fileno())
    part.replace(target)


class ElsewhereCopies:
    """Where a database server keeps the data, copies are that server's own."""

    def make(self) -> Copy:
        """Refused."""
        raise self._refused()

    def all(self) -> tuple[Copy, ...]:
        """None that Gudgeon made."""
        return ()

    def restore(self, name: str) -> None:
        """Refused."""
        raise self._refused()

    def _refused(self) -> Refused:
        return refuse(
            "copy",
            "The data lies on a database server, which Gudgeon does not copy.",
            "Use the server's own copies (pg_dump, pg_restore).",
        )
