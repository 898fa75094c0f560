"""Files in and out: read whole or refused with why, written whole or not at all."""

from __future__ import annotations

from pathlib import Path

from gudgeon.problem import refuse

LARGEST_FILE = 200 * 1024 * 1024


def read_bytes(path: Path) -> bytes:
    """A file, or why it cannot be read."""
    try:
        if path.stat().st_size > LARGEST_FILE:
            raise refuse(str(path), "It is larger than any job.", "Look at what it is.")
        return path.read_bytes()
    except OSError as wrong:
        raise refuse(str(path), "It cannot be read: {why}.", "Look at the name.", why=wrong.strerror or "?") from None


def read_text(path: Path) -> str:
    """A text file, or why it cannot be read."""
    try:
        return read_bytes(path).decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        raise refuse(str(path), "Byte {n} is no UTF-8.", "Save it as UTF-8.", n=wrong.start) from None


def write_bytes(path: Path, data: bytes) -> None:
    """Write a file whole or not at all."""
    part = path.with_name(path.name + ".part")
    try:
        part.write_bytes(data)
        part.replace(path)
    except OSError as wrong:
        part.unlink(missing_ok=True)
        raise refuse(
            str(path), "It cannot be written: {why}.", "Look at the folder.", why=wrong.strerror or "?"
        ) from None
