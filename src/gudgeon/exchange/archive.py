"""A whole job in one file that stands alone: its ledger line by line, its books, its pictures, and a digest of each.

A ZIP with ``manifest.json``, ``ledger.jsonl`` (the stored lines, byte for byte), ``books/<digest>.toml`` and
``pictures/<digest>.jpg``. Nothing is packed tightly, so that the same job gives the same bytes everywhere and no file can
swell: an archive with any other byte, anywhere, is refused. Nothing of it is believed before it was checked.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256

import msgspec

from gudgeon.job import chain, codec
from gudgeon.problem import Problem, Refused, refuse, said

FORMAT = "archive/1"
LARGEST = 200 * 1024 * 1024
MOST_FILES = 5_000
_NAMES = re.compile(r"manifest\.json|ledger\.jsonl|books/[0-9a-f]{64}\.toml|pictures/[0-9a-f]{64}\.jpg")
_DATE = (1980, 1, 1, 0, 0, 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Archive:
    """What an archive holds: the job's number and title, its lines with their digests, books and pictures by digest."""

    number: str
    title: str
    engine_number: str
    scope: str
    opened_at: str
    lines: tuple[str, ...]
    digests: tuple[bytes, ...]
    books: Mapping[str, str]
    pictures: Mapping[str, bytes]


def pack(archive: Archive) -> bytes:
    """The bytes of an archive; the same job gives the same bytes."""
    files: dict[str, bytes] = {"ledger.jsonl": "".join(f"{line}\n" for line in archive.lines).encode()}
    files |= {f"books/{sha}.toml": text.encode() for sha, text in archive.books.items()}
    files |= {f"pictures/{sha}.jpg": data for sha, data in archive.pictures.items()}
    manifest = Manifest(
        format=FORMAT,
        job=archive.number,
        title=archive.title,
        engine_number=archive.engine_number,
        scope=archive.scope,
        opened_at=archive.opened_at,
        head=len(archive.lines),
        digest=archive.digests[-1].hex() if archive.digests else chain.START.hex(),
        files={name: sha256(data).hexdigest() for name, data in sorted(files.items())},
    )
    files["manifest.json"] = msgspec.json.format(msgspec.json.encode(manifest), indent=1)
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as bundle:
        for name in sorted(files):
            info = zipfile.ZipInfo(name, date_time=_DATE)
            info.create_system, info.create_version, info.extract_version = 3, 20, 20
            info.external_attr = 0o600 << 16
            bundle.writestr(info, files[name])
    return out.getvalue()


def unpack(data: bytes, name: str = "archive") -> Archive:
    """The archive in these bytes, every file held against the manifest and every line against the chain."""
    files = _files(data, name)
    manifest = _manifest(files, name)
    problems = [
        Problem(where=f"{name}, {file}", what=said("It was altered: its digest is another."), remedy=_AGAIN)
        for file, digest in manifest.files.items()
        if sha256(files.get(file, b"")).hexdigest() != digest
    ]
    missing = set(files) - {"manifest.json"} - set(manifest.files)
    problems += [
        Problem(where=f"{name}, {f}", what=said("The manifest does not know it."), remedy=_AGAIN)
        for f in sorted(missing)
    ]
    named = [f for f in files if f.startswith(("books/", "pictures/")) and sha256(files[f]).hexdigest() not in f]
    problems += [Problem(where=f"{name}, {f}", what=said("Its name is not its digest."), remedy=_AGAIN) for f in named]
    if problems:
        raise Refused(problems)
    archive = _archive(files, manifest, name)
    if pack(archive) != data:
        raise refuse(name, "It was altered outside its files.", str(_AGAIN))
    return archive


def _archive(files: Mapping[str, bytes], manifest: Manifest, name: str) -> Archive:
    lines = tuple(files["ledger.jsonl"].decode().split("\n")[:-1])
    digests = tuple(chain.digests(lines))
    if len(lines) != manifest.head or (digests[-1] if digests else chain.START).hex() != manifest.digest:
        raise refuse(name, "Its ledger does not end in the digest of its manifest.", str(_AGAIN))
    _readable(lines, name)
    return Archive(
        number=manifest.job,
        title=manifest.title,
        engine_number=manifest.engine_number,
        scope=manifest.scope,
        opened_at=manifest.opened_at,
        lines=lines,
        digests=digests,
        books={f[6:-5]: files[f].decode() for f in files if f.startswith("books/")},
        pictures={f[9:-4]: files[f] for f in files if f.startswith("pictures/")},
    )


_AGAIN = said("Have it exported and sent again.")


def _files(data: bytes, name: str) -> dict[str, bytes]:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as bundle:
            listed = bundle.infolist()
            if len(listed) > MOST_FILES or sum(i.file_size for i in listed) > LARGEST:
                raise refuse(name, "It is larger than any job.", "Look at where it comes from.")
            strange = [i.filename for i in listed if not _NAMES.fullmatch(i.filename)]
            if strange:
                what = "It holds a file that does not belong there: {file}."
                raise refuse(name, what, "Do not use it.", file=strange[0][:80])
            if any(i.compress_type != zipfile.ZIP_STORED or i.compress_size != i.file_size for i in listed):
                raise refuse(name, "Its files are packed; a Gudgeon archive never is.", "Have the job exported again.")
            return {i.filename: bundle.read(i) for i in listed}
    except (zipfile.BadZipFile, EOFError, OSError, NotImplementedError, RuntimeError, ValueError) as wrong:
        raise refuse(name, "It is no whole archive: {why}.", str(_AGAIN), why=str(wrong)[:120] or "cut off") from None
    except Exception as wrong:
        if isinstance(wrong, Refused):
            raise
        raise refuse(name, "It cannot be read: {why}.", str(_AGAIN), why=type(wrong).__name__) from None


class Manifest(msgspec.Struct, frozen=True, kw_only=True):
    """What an archive says of itself."""

    format: str
    job: str
    title: str
    engine_number: str
    scope: str
    opened_at: str
    head: int
    digest: str
    files: dict[str, str]


def _manifest(files: Mapping[str, bytes], name: str) -> Manifest:
    try:
        manifest = msgspec.json.decode(files["manifest.json"], type=Manifest)
        for file in files:
            if not file.startswith("pictures/"):
                files[file].decode()
    except (KeyError, ValueError, msgspec.MsgspecError):
        raise refuse(name, "Its manifest is missing or broken.", str(_AGAIN)) from None
    if manifest.format != FORMAT or "ledger.jsonl" not in files:
        what = "Its format is {format}, not {known}."
        raise refuse(name, what, "Open it with a newer Gudgeon.", format=manifest.format[:40], known=FORMAT)
    return manifest


def _readable(lines: tuple[str, ...], name: str) -> None:
    problems: list[Problem] = []
    for n, line in enumerate(lines, 1):
        try:
            if codec.decode(line, where=f"{name}, entry {n}").seq != n:
                what = said("It has another number.")
                problems.append(Problem(where=f"{name}, entry {n}", what=what, remedy=_AGAIN))
        except Refused as refused:
            problems += refused.problems
    if problems:
        raise Refused(problems)
