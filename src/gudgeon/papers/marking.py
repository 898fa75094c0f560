"""What binds a paper to its job: a digest of its content, and a mark that says job, kind, ledger and content."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from hashlib import sha256
from urllib.parse import quote, unquote

import segno

from gudgeon.figures.code import square_code
from gudgeon.papers.blocks import Block, KeyValues, TitleBlock, Together, title_of

FORM = "GUDGEON-PAPER:1"
SHORT = 32
#: Facts by these names say when and on which ledger line a paper was made, not what it says.
OF_THE_MOMENT = ("ledger", "digest", "date")
_MARK = re.compile(rf"{FORM}:([^:\s]+):([a-z_]+):(\d+):([0-9a-f]{{{SHORT}}}):([0-9a-f]{{{SHORT}}})")


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """Which job and kind a paper is, the entry and ledger digest it was built on, and the digest of its content."""

    job: str
    paper: str
    head: int
    ledger: str
    content: str

    def __str__(self) -> str:
        return (
            f"{FORM}:{quote(self.job, safe='')}:{self.paper}:{self.head}:{self.ledger[:SHORT]}:{self.content[:SHORT]}"
        )


def marks_in(text: str) -> tuple[Mark, ...]:
    """Every mark that stands in a file's text, each once."""
    found = {m[0]: m for m in _MARK.finditer(text)}
    return tuple(Mark(job=unquote(m[1]), paper=m[2], head=int(m[3]), ledger=m[4], content=m[5]) for m in found.values())


def content(blocks: tuple[Block, ...]) -> str:
    """The digest of what a paper says: all of it but who, when and on which ledger line."""
    return sha256("\n".join(repr(_timeless(b)) for b in blocks).encode("utf-8", "surrogatepass")).hexdigest()


def _timeless(block: Block) -> Block:
    match block:
        case TitleBlock():
            return replace(block, by="", ledger="", date="", code="", mark="")
        case KeyValues(pairs=pairs):
            return KeyValues(tuple(pair for pair in pairs if pair[0] not in OF_THE_MOMENT))
        case Together(blocks=blocks):
            return Together(tuple(map(_timeless, blocks)))
        case _:
            return block


def marked(blocks: tuple[Block, ...], mark: Mark) -> tuple[Block, ...]:
    """The paper with its mark and its code in the title block."""
    title = title_of(blocks)
    sealed = replace(title, mark=str(mark), code=code_svg(str(mark), "code of this paper"))
    return tuple(sealed if b is title else b for b in blocks)


def code_svg(text: str, title: str) -> str:
    """A text as a square code."""
    code = segno.make(text, error="m", micro=False)
    return square_code([[bool(module) for module in row] for row in code.matrix], title)
