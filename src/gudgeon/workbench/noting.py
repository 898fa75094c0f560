"""Photos of a job: kept when taken, linked by the note that names them, shown only where an entry of the job names them."""

from __future__ import annotations

from msgspec import Struct

from gudgeon.anatomy import say
from gudgeon.job.entries import Finding, Note
from gudgeon.problem import refuse
from gudgeon.workbench.bench import Workbench


class PhotoView(Struct, frozen=True, kw_only=True):
    """A photo, and the entry that names it."""

    sha256: str
    entry: int
    by: str
    where: str
    words: str


def keep_photo(bench: Workbench, number: str, data: bytes) -> str:
    """Keep a photo for a note that follows; its digest."""
    bench.loaded(number)
    if not data:
        raise refuse("photo", "The photo is empty.", "Take it again.")
    return bench.pictures.put(data)


def photos_of(bench: Workbench, number: str) -> tuple[PhotoView, ...]:
    """The photos of a job in the order in which they were noted; those of notes taken back are not among them."""
    lines = {line.seq: line for line in bench.view(number).entries if not line.retracted}
    found = []
    for entry in bench.loaded(number).entries:
        fact = entry.typed.body
        if isinstance(fact, Note | Finding) and entry.seq in lines:
            where = say(fact.where) if fact.where else ""
            found += [
                PhotoView(sha256=sha, entry=entry.seq, by=entry.typed.by, where=where, words=fact.words)
                for sha in fact.photos
            ]
    return tuple(found)


def job_photo(bench: Workbench, number: str, sha256: str) -> bytes:
    """The picture itself, where an entry of this job names it."""
    named = any(p.sha256 == sha256 for p in photos_of(bench, number))
    data = bench.pictures.get(sha256) if named else None
    if data is None:
        raise refuse("photo", "No entry of this job has this photo.", "Choose it from the list.")
    return data
