"""Pictures as files named by their digest: checked, upright, small, and without what a camera writes of place and owner."""

from __future__ import annotations

import hashlib
import io
import os
import re
import struct
import threading
from pathlib import Path

from PIL import Image, UnidentifiedImageError

from gudgeon.problem import Refused, refuse

MOST_BYTES = 30 * 1024 * 1024
MOST_PIXELS = 40_000_000
LONGEST_SIDE = 2048
QUALITY = 85
#: What a tablet's camera or a screen makes; each is re-encoded, none is served as it came.
FORMATS = ("JPEG", "PNG", "WEBP", "GIF", "BMP")
#: What the library raises on pictures with flipped bytes: some of its parts trust what they read.
DAMAGED = (OSError, SyntaxError, ValueError, TypeError, IndexError, KeyError, OverflowError, struct.error)
#: How a picture is turned upright, by Exif's tag *orientation* (CIPA DC-008, 4.6.5).
_ORIENTATION = 0x0112
_TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
_DIGEST = re.compile(r"[0-9a-f]{64}")


class FilePictures:
    """The pictures of one folder; a file never changes."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def put(self, data: bytes) -> str:
        """Keep a picture and give its digest."""
        return self._keep(cleaned(data))

    def adopt(self, data: bytes) -> str:
        """Keep a picture of an archive byte for byte, so that entries still name it; only what `put` could have stored."""
        cleaned(data)
        with Image.open(io.BytesIO(data), formats=FORMATS) as picture:
            if picture.format != "JPEG" or max(picture.size) > LONGEST_SIDE or picture.getexif():
                raise _refuse("The picture is not one that Gudgeon stored.", "Have the job exported again.")
        return self._keep(data)

    def _keep(self, stored: bytes) -> str:
        digest = hashlib.sha256(stored).hexdigest()
        file = self._folder / f"{digest}.jpg"
        if not file.exists():
            try:
                self._write(file, stored)
            except OSError as wrong:
                raise _not_written(wrong) from wrong
        return digest

    def get(self, sha256: str) -> bytes | None:
        """The bytes of a picture, always JPEG, or none."""
        file = self._folder / f"{sha256}.jpg"
        return file.read_bytes() if _DIGEST.fullmatch(sha256) and file.is_file() else None

    def _write(self, file: Path, stored: bytes) -> None:
        self._folder.mkdir(exist_ok=True)
        part = file.with_name(f"{file.stem}.{os.getpid()}.{threading.get_ident()}.part")
        try:
            with part.open("wb") as writer:
                writer.write(stored)
                writer.flush()
                os.fsync(writer.fileno())
            part.replace(file)
        finally:
            part.unlink(missing_ok=True)


def cleaned(data: bytes) -> bytes:
    """The picture as it is kept, or :class:`Refused`."""
    if len(data) > MOST_BYTES:
        raise _refuse("The picture has {given} MB.", "Send at most {most} MB.", len(data) // 2**20, MOST_BYTES // 2**20)
    try:
        with Image.open(io.BytesIO(data), formats=FORMATS) as picture:
            _measure(picture)
            picture.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
            return _encoded(picture)
    except Image.DecompressionBombError:
        raise _refuse(
            "The picture is too large.", "Send at most {most} million pixels.", 0, MOST_PIXELS // 10**6
        ) from None
    except UnidentifiedImageError:
        raise _refuse("This is no picture that can be read.", "Send a JPEG, PNG or WebP picture.") from None
    except DAMAGED:
        raise _refuse("The picture is damaged.", "Take it or save it again.") from None


def _measure(picture: Image.Image) -> None:
    """Refuse by what the header says, before anything is decoded."""
    width, height = picture.size
    if width * height > MOST_PIXELS:
        raise _refuse(
            "The picture has {given} million pixels.",
            "Send at most {most}.",
            round(width * height / 1e6),
            MOST_PIXELS // 10**6,
        )
    if picture.format != "MPO" and getattr(picture, "n_frames", 1) > 1:
        raise _refuse(
            "The picture moves: it has {given} frames.", "Send a still picture.", getattr(picture, "n_frames", 1)
        )


def _encoded(picture: Image.Image) -> bytes:
    """Decoded, turned upright, on white where it was clear, at most so long; nothing of the old file comes along."""
    upright = _upright(picture)
    if upright.mode in ("P", "PA", "LA", "RGBA", "RGBa") or "transparency" in upright.info:
        clear = upright.convert("RGBA")
        upright = Image.new("RGB", clear.size, "white")
        upright.paste(clear, mask=clear.getchannel("A"))
    plain = upright.convert("RGB")
    plain.thumbnail((LONGEST_SIDE, LONGEST_SIDE), Image.Resampling.LANCZOS)
    bare = Image.frombytes("RGB", plain.size, plain.tobytes())
    kept = io.BytesIO()
    bare.save(kept, "JPEG", quality=QUALITY, optimize=True)
    return kept.getvalue()


def _upright(picture: Image.Image) -> Image.Image:
    """Turned as the camera says; a picture whose camera data is damaged stays as it is."""
    picture.load()
    try:
        turn = _TURNS.get(picture.getexif().get(_ORIENTATION, 1))
    except DAMAGED:
        turn = None
    return picture if turn is None else picture.transpose(turn)


def _refuse(what: str, remedy: str, given: int = 0, most: int = 0) -> Refused:
    return refuse("picture", what, remedy, given=given, most=most)


def _not_written(wrong: OSError) -> Refused:
    return refuse(
        "picture",
        "The picture could not be kept: {why}.",
        "Look whether the disk is full and the data folder is yours to write.",
        why=wrong.strerror or str(wrong),
    )
