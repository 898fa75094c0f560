"""What a paper is made of, before anyone knows whether it becomes a PDF or a page.

Text in a block is typed text: it is data to the end and is never read as markup.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from gudgeon.problem import refuse

COMES_FIRST = "The maker's manual, local codes and licensed practice come first."
Align = Literal["left", "right", "centre"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TitleBlock:
    """The block at the foot of every sheet, in the manner of ISO 7200.

    `code` is a drawing that a camera reads, `mark` what it says: job, paper, ledger and content, for whoever checks the file.
    """

    paper: str
    engine: str
    job: str
    book: str = ""
    by: str = ""
    ledger: str = ""
    date: str = ""
    for_whom: str = ""
    workshop: str = ""
    code: str = ""
    mark: str = ""


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading under the sheet's title; level 1 or 2."""

    text: str
    level: int = 1


@dataclass(frozen=True, slots=True)
class Para:
    """A paragraph; line ends in it are kept; `dense` where much must stand on one sheet."""

    text: str
    tone: Literal["plain", "strong", "context", "dense"] = "plain"


@dataclass(frozen=True, slots=True)
class Notice:
    """Words that must be read from across the room."""

    text: str


@dataclass(frozen=True, slots=True)
class Caution:
    """A danger at the step where it waits."""

    text: str

    def words(self) -> str:
        """The caution with the sentence every caution ends in."""
        text = self.text.strip()
        if text.lower().rstrip(".").endswith(COMES_FIRST.lower().rstrip(".")):
            return text
        return f"{text}{'' if text.endswith(('.', '!')) else '.'} {COMES_FIRST}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A drawing from `figures`, with its words; `width_mm` 0 fills the column."""

    svg: str
    alt: str
    width_mm: float = 0.0
    caption: str = ""

    def __post_init__(self) -> None:
        if not self.svg.startswith("<svg") or not self.alt.strip():
            raise refuse("figure", "A figure lacks its drawing or its words.", "Give SVG text and a sentence for it.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """A photo by the digest of its file; whoever makes the sheet brings the file, or says in its place that it is gone."""

    sha256: str
    caption: str
    data: bytes = field(default=b"", repr=False)


Cell = str | Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table with a head that repeats on every sheet; `widths` are shares, all equal when empty; `dense` for evidence.

    `groups` are words over the rows from that one on; they repeat like the head.
    """

    head: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    widths: tuple[float, ...] = ()
    align: tuple[Align, ...] = ()
    empty: str = "none"
    dense: bool = False
    groups: tuple[tuple[int, str], ...] = ()

    def __post_init__(self) -> None:
        n = len(self.head)
        uneven = [i + 1 for i, row in enumerate(self.rows) if len(row) != n]
        bad = len(self.widths) not in (0, n) or len(self.align) not in (0, n) or any(w <= 0 for w in self.widths)
        if not n or uneven or bad:
            what = "A table of {n} columns has other widths or alignments, or other cells in rows {rows}."
            raise refuse("table", what, "Give one for each column.", n=n, rows=", ".join(map(str, uneven)) or "-")

    def parts(self) -> tuple[tuple[str, tuple[tuple[Cell, ...], ...]], ...]:
        """The rows by the words over them; before the first such words there are none."""
        starts = ((0, ""), *self.groups) if not self.groups or self.groups[0][0] > 0 else self.groups
        ends = (*(at for at, _ in starts[1:]), len(self.rows))
        return tuple((words, self.rows[at:end]) for (at, words), end in zip(starts, ends, strict=True))


@dataclass(frozen=True, slots=True)
class KeyValues:
    """Facts by name."""

    pairs: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fields:
    """Lines to write on, each with its label and, where known, its unit."""

    labels: tuple[str, ...]
    columns: int = 1


@dataclass(frozen=True, slots=True)
class Signature:
    """Who signs: a line each for name, signature and date."""

    roles: tuple[str, ...]
    statement: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckItem:
    """One thing to tick."""

    text: str
    done: bool = False


@dataclass(frozen=True, slots=True)
class Checklist:
    """Things to tick, in order."""

    items: tuple[CheckItem, ...]


@dataclass(frozen=True, slots=True)
class PageBreak:
    """What follows begins on a new sheet."""


@dataclass(frozen=True, slots=True)
class Columns:
    """Blocks side by side."""

    columns: tuple[tuple[Block, ...], ...]


@dataclass(frozen=True, slots=True)
class Together:
    """Blocks that stay on one sheet: what is small enough to do so."""

    blocks: tuple[Block, ...]


Block = (
    TitleBlock
    | Heading
    | Para
    | Notice
    | Caution
    | Figure
    | Photo
    | Table
    | KeyValues
    | Fields
    | Signature
    | Checklist
    | PageBreak
    | Columns
    | Together
)


def title_of(blocks: tuple[Block, ...]) -> TitleBlock:
    """The one title block of a paper."""
    found = [b for b in blocks if isinstance(b, TitleBlock)]
    if len(found) != 1:
        what = "A paper has {n} title blocks."
        raise refuse("paper", what, "Give exactly one, so that each sheet says what it belongs to.", n=len(found))
    return found[0]
