"""What was seen is shown: the photos of findings and notes, each with its entry; one that is gone leaves a sentence, never a gap."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from gudgeon.papers.blocks import Block, Columns, Heading, Para, Photo, Together
from gudgeon.view.record import JobRecord

MOST = 12
JPEG = b"\xff\xd8\xff"


def photos(view: JobRecord, level: int = 2) -> tuple[Block, ...]:
    """The photos in the order in which they were noted, two in a row; beyond so many the rest is counted."""
    seen = [(f.seq, (f.where, f.kind, f.words), f.pictures) for f in view.record.findings]
    seen += [(n.seq, (n.where, "", n.words), n.pictures) for n in view.record.notes]
    found = [
        Photo(sha256=sha, caption=f"entry {seq}: {', '.join(w for w in words if w)}")
        for seq, words, pictures in sorted(seen)
        for sha in pictures
    ]
    if not found:
        return ()
    rows = [
        Together((Columns((*((p,) for p in found[i : i + 2]), ())[:2]),)) for i in range(0, min(len(found), MOST), 2)
    ]
    more = len(found) - MOST
    rest = (Para(f"And {more} more photos, in the job's archive.", "context"),) if more > 0 else ()
    return (Heading("Photos", level), *rows, *rest)


def _row(pair: list[Photo]) -> Block:
    return Together((Columns(((pair[0],), tuple(pair[1:]))),))


def developed(blocks: tuple[Block, ...], picture: Callable[[str], bytes | None]) -> tuple[Block, ...]:
    """The paper with the files of its photos; a photo whose file is gone, or is none, is said in words."""
    return tuple(_developed(block, picture) for block in blocks)


def _developed(block: Block, picture: Callable[[str], bytes | None]) -> Block:
    match block:
        case Photo(sha256=sha, caption=caption):
            data = picture(sha)
            if data is None or not data.startswith(JPEG):
                return Para(f"{caption}\nIts photo ({sha[:8]}) is not in this workshop's folder.", "context")
            return replace(block, data=data)
        case Columns(columns=columns):
            return Columns(tuple(developed(column, picture) for column in columns))
        case Together(blocks=inner):
            return Together(developed(inner, picture))
        case _:
            return block
