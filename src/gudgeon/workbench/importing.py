"""A copied table becomes limits: each row is offered with its likely limit, and nothing is written until accepted."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import takewhile
from typing import Literal

from gudgeon.book.parse import parse_book
from gudgeon.book.write import counted_on, with_row
from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.exchange.tables import Table, TableRow, read_table
from gudgeon.problem import Problem, Refused, refuse
from gudgeon.units import Quantity, read
from gudgeon.workbench.naming import named, side_in

_HEADINGS = {
    "item": r"item|part|description|measurement",
    "limit": r"limit|service|wear",
    "new": r"standard|std|new|nominal|specification",
    "page": r"page|p\.",
}
_DASHES = re.compile(r"\s*[‐‑‒–—―−]\s*|(?<=\d)\s*-\s*(?=[\d.,])|\s+-\s+|\s*[~～]\s*|\s*\.\.\.?\s*(?=\d)|\s+to\s+")
_MOST = re.compile(r"\b(?:max(?:imum)?\.?|less than|under|up to|not over)|≤|<", re.IGNORECASE)
_LEAST = re.compile(r"\b(?:min(?:imum)?\.?|more than|over|at least)|≥|>", re.IGNORECASE)
_NONE = re.compile(r"[\s‐‑‒–—―−-]*|n/?a|none", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """What a row likely means; `question` is what a technician must answer before it is sure."""

    row: str
    item: str
    characteristic: str
    side: str
    new: tuple[str, ...] = ()
    limit: tuple[str, ...] = ()
    also_new: tuple[str, ...] = ()
    also_limit: tuple[str, ...] = ()
    way: Literal["", "least", "most"] = ""
    page: str = ""
    sure: bool = False
    question: str = ""
    problems: tuple[Problem, ...] = ()

    @property
    def cells(self) -> dict[str, str | tuple[str, ...]]:
        """The row of the book that it would become."""
        row: dict[str, str | tuple[str, ...]] = {"of": self.characteristic, "side": self.side, "page": self.page}
        if CHARACTERISTICS[self.characteristic].rule == "setting":
            ends = self.limit if len(self.limit) == 2 else self.new
            also = self.also_limit if len(self.also_limit) == 2 else self.also_new
            row |= {"least": ends[0], "most": ends[1]} if ends else {}
            return row | ({"also_least": also[0], "also_most": also[1]} if len(also) == 2 else {})
        if self.new:
            row["new"] = self.new
        if self.limit and self.way:
            row[self.way] = self.limit[0]
        if len(self.also_new) == 2 and self.new:
            row["also_new"] = self.also_new
        return row | ({f"also_{self.way}": self.also_limit[0]} if len(self.also_limit) == 1 and self.way in row else {})


@dataclass(frozen=True, slots=True, kw_only=True)
class Fate:
    """What became of a row: kept, skipped, or in need of an answer, and why."""

    row: str
    item: str
    fate: Literal["kept", "skipped", "needs an answer"]
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Columns:
    item: int = 0
    new: int = -1
    limit: int = -1
    also_new: int = -1
    also_limit: int = -1
    page: int = -1
    units: tuple[str, ...] = ()

    def unit(self, column: int) -> str:
        """The unit that the heading of a column names, else the one that all headings share."""
        own = self.units[column] if 0 <= column < len(self.units) else ""
        named = {unit for unit in self.units if unit}
        return own or (next(iter(named)) if len(named) == 1 else "")


def offers(table: Table) -> tuple[Offer, ...]:
    """Every row but headings and sections, with its likely limit; one with a cell that could not be read is not sure."""
    comma, unread = _decimal_commas(table), _unread(table)
    columns, section, item, found, seen = _Columns(), "", "", list[Offer](), dict[tuple[str, str], str]()
    for row in table.rows:
        heading = _heading(row)
        if heading is not None:
            columns, section, item = heading, "", ""
        elif not any(row.cells[1:]) and _row_of(row.where) not in unread:
            section, item = row.cells[0], ""
        else:
            item = _at(row, columns.item) or item
            one = _offer(row, columns, section, item, comma)
            key = (one.characteristic, one.side)
            if one.characteristic and key in seen:
                one = replace(one, sure=False, question=f"{seen[key]} already says this; which of the two holds?")
            lost = unread.get(_row_of(row.where), ())
            one = replace(one, sure=False, problems=(*one.problems, *lost)) if lost else one
            if not one.problems:
                seen.setdefault(key, one.row)
            found.append(one)
    return tuple(found)


def _row_of(where: str) -> str:
    """The row of a cell: ``Sheet!B3`` stands in that of ``Sheet!A3``."""
    return re.sub(r"![A-Z]+(?=[0-9]+$)", "!", where)


def _unread(table: Table) -> dict[str, tuple[Problem, ...]]:
    """What could not be read, by its row: half a row is not taken."""
    found: dict[str, tuple[Problem, ...]] = {}
    for problem in table.problems:
        at = _row_of(problem.where)
        found[at] = (*found.get(at, ()), problem)
    return found


def accept(
    text: str, found: Iterable[Offer], which: Literal["sure", "all", "none"] = "sure"
) -> tuple[str, tuple[Fate, ...]]:
    """The book's text with the accepted rows, as one edition, comments and order kept; and the fate of every row."""
    parse_book(text)
    new, fates = text, list[Fate]()
    for one in found:
        if not one.characteristic or one.problems or not (one.new or one.limit):
            why = "; ".join(str(p) for p in one.problems) or one.question or "no figure"
            fates.append(Fate(row=one.row, item=one.item, fate="skipped", why=why))
        elif which == "none" or (which == "sure" and not one.sure):
            fates.append(Fate(row=one.row, item=one.item, fate="needs an answer", why=one.question or "not accepted"))
        else:
            try:
                new = with_row(new, one.cells)
                fates.append(Fate(row=one.row, item=one.item, fate="kept"))
            except Refused as refused:
                fates.append(Fate(row=one.row, item=one.item, fate="skipped", why=str(refused)))
    return (counted_on(new) if new != text else text), tuple(fates)


def take_in(
    text: str, data: bytes, name: str, which: Literal["sure", "all", "none"] = "sure"
) -> tuple[str, tuple[Fate, ...]]:
    """The book's text with a file's rows in it, and the fate of every row and of every cell that could not be read."""
    table = read_table(data, name)
    found = offers(table)
    new, fates = accept(text, found, which)
    told = {_row_of(one.row) for one in found}
    unread = (Fate(row=p.where, item="", fate="skipped", why=f"{p.what} {p.remedy}") for p in table.problems
              if _row_of(p.where) not in told)  # fmt: skip
    return new, (*fates, *unread)


def _heading(row: TableRow) -> _Columns | None:
    """The columns of a row of headings: at least one of a new range or a limit, and no figure in it."""
    if len(row.cells) < 2 or any(re.search(r"\d", cell) for cell in row.cells):
        return None
    at: dict[str, int] = {}
    again: dict[str, int] = {}
    for n, cell in enumerate(row.cells):
        kind = next((k for k, words in _HEADINGS.items() if re.search(rf"\b(?:{words})\b", cell.casefold())), "")
        if kind:
            (again if kind in at else at).setdefault(kind, n)
    if "new" not in at and "limit" not in at:
        return None
    named = (re.search(r"\b(mm|in|inch|N)\b(?!take)", cell) for cell in row.cells)
    units = tuple(found[1] if found else "" for found in named)
    return _Columns(item=at.get("item", 0), new=at.get("new", -1), limit=at.get("limit", -1), page=at.get("page", -1),
                    also_new=again.get("new", -1), also_limit=again.get("limit", -1), units=units)  # fmt: skip


def _offer(row: TableRow, columns: _Columns, section: str, item: str, comma: bool) -> Offer:
    item = " ".join(t for t in (item, *_beside(row, columns)) if t)
    key, sure = named(item)
    if not key and section:
        key, sure = named(f"{section} {item}")[0], False
    whole = Offer(row=row.where, item=item, characteristic=key, side=side_in(item) or side_in(section),
                  page=_at(row, columns.page))  # fmt: skip
    if not key:
        return replace(whole, question="Nothing that is judged has a name like this; which limit is it?")
    new, limit = (
        (_at(row, columns.new), _at(row, columns.limit)) if columns.new + columns.limit > -2 else _by_shape(row)
    )
    dimension = CHARACTERISTICS[key].dimension
    try:
        ends = _sizes(new, dimension, columns.unit(columns.new), row.where, comma)
        edge = _sizes(limit, dimension, columns.unit(columns.limit), row.where, comma)
    except Refused as refused:
        return replace(whole, problems=refused.problems)
    question = "" if sure else f"Is this the {CHARACTERISTICS[key].name}?"
    whole = replace(whole, also_new=_also(row, columns, "also_new", new, ends, comma),
                    also_limit=_also(row, columns, "also_limit", limit, edge, comma))  # fmt: skip
    return _judged(whole, ends, edge, f"{new} {limit}" if not edge else limit, question)


def _beside(row: TableRow, columns: _Columns) -> list[str]:
    """What stands between the item and its figures, such as the side in a column of its own."""
    values = [c for c in (columns.new, columns.limit, columns.page) if c > columns.item]
    if not values:
        return list(takewhile(lambda cell: not re.search(r"\d", cell), row.cells[columns.item + 1 :]))
    return [cell for cell in row.cells[columns.item + 1 : min(values)] if cell]


def _judged(whole: Offer, ends: tuple[Quantity, ...], edge: tuple[Quantity, ...], words: str, question: str) -> Offer:
    """The offer with its sizes, and the question that their order asks."""
    kind = CHARACTERISTICS[whole.characteristic]
    setting = kind.rule == "setting"
    if len(ends) == 1 and not edge:
        ends, edge = (), ends
    elif len(ends) == 1 and len(edge) == 2:
        ends, edge = edge, ends
        question = "The range stands under the limit: are the two columns swapped?"
    way: Literal["least", "most"] = "least" if kind.wants[0].statistic == "smallest" else "most"
    said = "most" if _MOST.search(words) else "least" if _LEAST.search(words) else ""
    if said and said != way and edge:
        question = f"It says {said}, yet a {kind.name} has a limit at the other end: which is it?"
    if len(ends) == 1 or (len(edge) == 2 and not setting) or (setting and len(ends) != 2 and len(edge) != 2):
        question = "A range has two ends and a limit one: which figure is which?"
    for pair in (ends, edge):
        if len(pair) == 2 and pair[0].exact > pair[1].exact:
            question = "The ends are swapped, or a digit is lost: what does the page say?"
    if len(ends) == 2 and len(edge) == 1 and not setting:
        wrong = edge[0].exact < ends[1].exact if way == "most" else edge[0].exact > ends[0].exact
        if wrong and not question:
            question = "The limit lies inside the new range or on its other side: are two columns swapped?"
    return replace(whole, new=tuple(map(str, ends)), limit=tuple(map(str, edge)), way=way, question=question,
                   sure=not question)  # fmt: skip


def _by_shape(row: TableRow) -> tuple[str, str]:
    """Without headings a range is new, and the single figure behind it the limit."""
    cells = [cell for cell in row.cells[1:] if re.search(r"\d", cell)]
    if len(cells) == 1:
        return (cells[0], "") if len(_split(cells[0])) == 2 else ("", cells[0])
    return (cells[0], cells[1]) if cells else ("", "")


def _at(row: TableRow, column: int) -> str:
    return row.cells[column] if 0 <= column < len(row.cells) else ""


def _split(cell: str) -> list[str]:
    bare = _LEAST.sub(" ", _MOST.sub(" ", re.sub(r"\([^)]*\)|\[[^\]]*\]", " ", cell))).strip()
    return [piece.strip() for piece in _DASHES.split(bare) if piece.strip()]


def _sizes(cell: str, dimension: str, unit: str, where: str, comma: bool) -> tuple[Quantity, ...]:
    """The one or two sizes of a cell as a book prints them; what stands in brackets is the same in another unit."""
    if _NONE.fullmatch(cell):
        return ()
    pieces = [re.sub(r"(?<=\d),(?=\d)", ".", p) if comma else p for p in _split(cell)]
    if not 1 <= len(pieces) <= 2:
        raise refuse(where, "{cell} is neither a size nor a range.", "Type it as 0.10–0.15 mm.", cell=cell[:40])
    own = re.search(r"(?<=[\d.,])\s*([^\d.,\s/].*)$", pieces[-1])
    return tuple(read(piece, dimension, unit=(own[1] if own else unit) or None, where=where) for piece in pieces)


def _also(
    row: TableRow, columns: _Columns, second: str, cell: str, main: tuple[Quantity, ...], comma: bool
) -> tuple[str, ...]:
    """The same sizes as the book prints them in its other unit: in a column of their own, or in brackets behind."""
    column: int = getattr(columns, second)
    brackets = " ".join(re.findall(r"[(\[]([^)\]]*\d[^)\]]*)[)\]]", cell))
    text = _at(row, column) or brackets
    if not main or not text:
        return ()
    try:
        found = _sizes(text, main[0].dimension, columns.unit(column) if column >= 0 else "", row.where, comma)
    except Refused:
        return ()  # a remark in brackets, not a size
    return tuple(map(str, found)) if len(found) == len(main) and found[0].unit != main[0].unit else ()


def _decimal_commas(table: Table) -> bool:
    """Whether commas are the table's decimal signs: some can be nothing else, and no figure has a point."""
    text = " ".join(cell for row in table.rows for cell in row.cells)
    return bool(re.search(r"(?<![\d,])(?:0,\d+|\d+,(?:\d{1,2}|\d{4,}))(?![\d,])", text)) and not re.search(
        r"\d\.\d", text
    )
