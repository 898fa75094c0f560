"""The one folder that holds everything: made once, private, and never where another program moves files about.

A database in a folder that a program keeps in step with another computer, or on a network share whose locks cannot be trusted,
loses entries without a word (https://www.sqlite.org/howtocorrupt.html, sections 1.2 and 2.1). So it is refused.
"""

from __future__ import annotations

import os
import re
import secrets
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from gudgeon.problem import refuse

#: Words in a folder's name that say that its files are kept in step with another place.
SYNCED = re.compile(r"cloud|sync|dropb|[a-z][ _-]?drive\b", re.IGNORECASE)
#: File systems of network shares, as Linux names them in /proc/mounts.
SHARED = re.compile(
    r"(nfs\d*|cifs|smb\d*|smbfs|afs|ceph|9p|ncpfs|davfs\d*|fuse\.(sshfs|rclone|gvfsd-fuse|davfs\d*|.*smb.*))"
)
ANYWAY = "GUDGEON_ALLOW_SHARED_FOLDER"


def data_folder() -> Path:
    """Where the data lies: named by GUDGEON_DATA, else in the home folder, where it is seen."""
    return Path(os.environ.get("GUDGEON_DATA") or Path.home() / "gudgeon-data").expanduser()


def prepare(folder: Path, mounts: str | None = None) -> None:
    """Make the folder and its secret, or refuse the place."""
    _refuse_shared(folder, _read_mounts() if mounts is None else mounts)
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        for part in ("copies", "pictures"):
            (folder / part).mkdir(exist_ok=True)
        _make_secret(folder / "secret.txt")
    except OSError as wrong:
        raise refuse(
            "data folder",
            "The folder {folder} cannot be made or written: {why}.",
            "Name another with GUDGEON_DATA.",
            folder=str(folder),
            why=wrong.strerror or str(wrong),
        ) from wrong


def warning(folder: Path) -> str:
    """What whoever overrode the refusal should read at every start, or nothing."""
    why = shared(folder, _read_mounts())
    return f"WARNING: {folder} is no safe place for the database: {why}. You said {ANYWAY}: keep copies." if why else ""


def shared(folder: Path, mounts: str) -> str:
    """Why the folder is no place for a database, or nothing."""
    place = folder.expanduser().resolve()
    for part in place.parts[1:]:
        if SYNCED.search(part):
            return f"“{part}” looks like a folder that is kept in step with another place"
    if str(place).startswith("\\\\"):
        return "it is a network share"
    kind = _file_system(place, mounts)
    return f"it is a network share ({kind})" if SHARED.fullmatch(kind) else ""


@contextmanager
def alone(folder: Path) -> Iterator[None]:
    """No other process makes tables meanwhile: the lock of an empty SQLite file works on every system, and ends with us."""
    with closing(sqlite3.connect(folder / ".opening", timeout=60, isolation_level=None)) as lock:
        lock.execute("BEGIN EXCLUSIVE")
        yield


def _refuse_shared(folder: Path, mounts: str) -> None:
    why = shared(folder, mounts)
    if why and not os.environ.get(ANYWAY):
        raise refuse(
            "data folder",
            "{folder} is no safe place for the database: {why}. Entries can be lost there without a word.",
            "Name a folder on this computer's own disk with GUDGEON_DATA, and use such a place for second copies"
            " (GUDGEON_SECOND_PLACE). If it is wrong about the folder, set {anyway}=1.",
            folder=str(folder),
            why=why,
            anyway=ANYWAY,
        )


def _read_mounts() -> str:
    try:
        return Path("/proc/mounts").read_text(encoding="utf-8", errors="replace")
    except OSError:
        return ""


def _file_system(place: Path, mounts: str) -> str:
    """The type of the innermost mount that holds the place; a later line covers an earlier one."""
    found, deepest = "", -1
    for line in mounts.splitlines():
        fields = line.split(" ")
        if len(fields) < 3:
            continue
        point = Path(re.sub(r"\\(\d{3})", lambda octal: chr(int(octal[1], 8)), fields[1]))
        if place.is_relative_to(point) and len(point.parts) >= deepest:
            found, deepest = fields[2], len(point.parts)
    return found


def _make_secret(file: Path) -> None:
    """What signs the cookies; nobody else on this computer may read it."""
    if not file.exists():
        with os.fdopen(os.open(file, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "w", encoding="ascii") as writer:
            writer.write(secrets.token_urlsafe(48) + "\n")
