"""A copied table on the screen: each row offered with its likely limit, changed by hand where it is wrong, taken at one go."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct
from msgspec.structs import replace

from gudgeon.book.cells import Changed, refused_cells, with_cells
from gudgeon.book.limits import LimitRow
from gudgeon.book.parse import parse_book
from gudgeon.book.write import counted_on
from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.exchange.tables import read_table, read_text
from gudgeon.problem import Problem, Refused, refuse
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.grid import DITTO, PAGES, anatomy_of, first_row, raw_limits, sides_of, way_of
from gudgeon.workbench.gridding import newest_of, read_group, text_of
from gudgeon.workbench.growing import ends
from gudgeon.workbench.importing import Offer, offers

#: What one screen offers at once: a page of a book has fewer, and a form may hold no more fields than this makes.
MOST_OFFERS = 100


class OfferView(Struct, frozen=True, kw_only=True):
    """A row of the table, what it likely means, what stands in the book already, and what must be answered."""

    n: int
    where: str
    item: str
    of: str
    side: str
    new: str
    limit: str
    also: str
    page: str
    take: bool
    question: str
    said: str
    there: str


class Pasted(Struct, frozen=True, kw_only=True):
    """What a table offers; `left_over` says what could not be read of it."""

    sha256: str
    name: str
    edition: str
    offers: tuple[OfferView, ...]
    left_over: tuple[str, ...]
    choices: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]
    sides: tuple[tuple[str, str], ...]
    taken: int = 0

    @property
    def refused(self) -> bool:
        """Whether a row that was to be taken could not be."""
        return any(o.said for o in self.offers)


def pasted(bench: Workbench, sha256: str, text: str, file: tuple[str, bytes] | None) -> Pasted:
    """Every row with a figure of pasted text or of a file, with its likely limit."""
    if file and file[0].lower().endswith(".toml"):
        found, table = _of_book(file[1], file[0]), None
    else:
        table = read_table(file[1], file[0]) if file else read_text(text)
        found = offers(table)
    if not found:
        raise refuse("table", "No row of it holds a figure.", "Copy it with its names and figures.")
    if len(found) > MOST_OFFERS:
        raise refuse("table", "{n} of its rows hold figures.", "Give at most {most} at once: one page of the book.",
                     n=len(found), most=MOST_OFFERS)  # fmt: skip
    limits = raw_limits(text_of(bench, newest_of(bench, sha256)))
    shown = tuple(_view(n, one, limits) for n, one in enumerate(found))
    return _pasted(bench, sha256, shown, tuple(str(p) for p in table.problems) if table else ())


def _of_book(data: bytes, name: str) -> tuple[Offer, ...]:
    """The limits of another book's file, as they stand there."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        raise refuse(name, "It is not UTF-8: byte {at} cannot be read.", "Save it as UTF-8.",
                     at=wrong.start + 1) from None  # fmt: skip
    rows = parse_book(text, name).limits
    sized = [row for row in rows if row.new or row.typed_least or row.typed_most]
    return tuple(_of_row(row, f"{name}, line {row.line}") for row in sized)


def _of_row(row: LimitRow, where: str) -> Offer:
    setting = CHARACTERISTICS[row.of].rule == "setting"
    walls = tuple(str(q) for q in (row.typed_least, row.typed_most) if q)
    also = tuple(str(q) for q in (row.also_least, row.also_most) if q)
    single = row.typed_least if way_of(row.of) == "least" else row.typed_most
    second = row.also_least if way_of(row.of) == "least" else row.also_most
    return Offer(
        row=where, item=row.address.replace("_", " "), characteristic=row.of, side=row.side, page=row.page, sure=True,
        new=walls if setting else tuple(str(q) for q in row.new or ()),
        limit=() if setting or single is None else (str(single),),
        also_new=also if setting else tuple(str(q) for q in row.also_new or ()),
        also_limit=() if setting or second is None else (str(second),),
    )  # fmt: skip


def _pasted(bench: Workbench, sha256: str, shown: tuple[OfferView, ...], left_over: tuple[str, ...] = ()) -> Pasted:
    book, anatomy = bench.book(sha256), anatomy_of(text_of(bench, sha256))
    choices = tuple(
        (name, tuple((k, CHARACTERISTICS[k].name) for k in keys
                     if CHARACTERISTICS[k].dimension != "words" and sides_of(k, anatomy)))
        for name, keys in PAGES.values()
    )  # fmt: skip
    rings = tuple((ring, f"{ring} ring") for ring in anatomy.layout.rings)
    sides = (("", "any side"), ("in", "intake"), ("ex", "exhaust"), *rings)
    return Pasted(sha256=sha256, name=book.name, edition=book.edition, offers=shown, left_over=left_over,
                  choices=choices, sides=sides)  # fmt: skip


def _view(n: int, one: Offer, limits: list[dict[str, object]]) -> OfferView:
    there = first_row(limits, one.characteristic, one.side) if one.characteristic else None
    said = " ".join(str(p) for p in one.problems)
    return OfferView(
        n=n, where=one.row, item=one.item, of=one.characteristic, side=one.side, new=" – ".join(one.new),
        limit=" – ".join(one.limit), also=" / ".join((" – ".join(one.also_new), " – ".join(one.also_limit))).strip(" /"),
        page=one.page, take=one.sure and not one.problems, question=one.question or said, said="", there=_there(there),
    )  # fmt: skip


def _there(row: Mapping[str, object] | None) -> str:
    if row is None:
        return ""
    new = row.get("new")
    sizes = [" – ".join(map(str, new))] if isinstance(new, list) else []
    return ", ".join([*sizes, *(f"{k} {row[k]}" for k in ("least", "most") if k in row)])


def take(bench: Workbench, sha256: str, typed: Mapping[str, str]) -> tuple[str, Pasted]:
    """Keep the rows that were ticked as one edition; where one of them is refused nothing is kept, and each says why."""
    shown = tuple(_typed(n, typed) for n in range(min(_count(typed), MOST_OFFERS)))
    text = text_of(bench, newest_of(bench, sha256))
    limits, sides = raw_limits(text), {o.of: _sides(o.of, text) for o in shown if o.of in CHARACTERISTICS}
    wrong, changes, seen = dict[int, str](), list[Changed](), dict[tuple[str, str], str]()
    for one in (o for o in shown if o.take):
        try:
            row = row_of(one)
            _place(one, sides[one.of], limits, seen)
            seen[(one.of, one.side)] = one.where
            old = first_row(limits, one.of, one.side)
            changes.append(Changed(table="limit", row=limits.index(old) if old else None, cells=row))
        except Refused as refused:
            wrong[one.n] = " ".join(f"{p.what} {p.remedy}" for p in refused.problems)
    page = _pasted(bench, sha256, tuple(_with(o, wrong.get(o.n, "")) for o in shown))
    if wrong:
        return "", page
    if not changes:
        raise refuse("table", "No row was ticked.", "Tick the rows to take, or leave it.")
    return bench.add_book(counted_on(with_cells(text, changes))), page


def _sides(of: str, text: str) -> tuple[str, ...]:
    return sides_of(of, anatomy_of(text))


def _place(
    one: OfferView, sides: tuple[str, ...], limits: list[dict[str, object]], seen: Mapping[tuple[str, str], str]
) -> None:
    """Refuse a side that the engine or the book has no room for."""
    if one.side and one.side not in sides:
        raise refuse(one.item, "This engine has no such side of it.", "Choose any side, or another one.")
    if not one.side and any(first_row(limits, one.of, side) for side in sides if side):
        raise refuse(one.item, "The book has it side by side already.", "Choose the side that this row is of.")
    if (one.of, one.side) in seen:
        raise refuse(one.item, "{where} says this already.", "Take one of the two.", where=seen[(one.of, one.side)])


def row_of(one: OfferView) -> dict[str, object]:
    """The row of the book that an offer means, as it was changed by hand."""
    if one.of not in CHARACTERISTICS:
        raise refuse(one.item, "No limit was chosen.", "Choose what it is, or leave the row out.")
    kind = CHARACTERISTICS[one.of]
    setting = kind.rule == "setting"
    new, limit = one.new.strip(), one.limit.strip()
    if setting and limit and new:
        raise refuse(one.item, "A setting has one window.", "Leave one of the two cells empty.")
    cells = {"from": new or (limit if setting else ""), "to": "", "limit": "" if setting else limit}
    if cells["from"]:
        cells["from"], cells["to"] = ends(cells["from"], kind.dimension, kind.unit)
    row, problems = read_group(one.of, kind.unit, cells)
    if problems:
        raise Refused(tuple(Problem(where=one.item, what=p.what, remedy=p.remedy) for p in problems.values()))
    if not row:
        raise refuse(one.item, "Both cells are empty.", "Type the new range, the limit, or both.")
    whole = {"of": one.of, "side": one.side} | row | _also(one, row)
    wrong = refused_cells("limit", whole)
    if wrong:
        raise Refused(tuple(Problem(where=one.item, what=p.what, remedy=p.remedy) for p in wrong.values()))
    return whole | ({"page": one.page.strip()} if one.page.strip() else {})


def _also(one: OfferView, row: Mapping[str, object]) -> dict[str, object]:
    """The same in the other unit; `also` holds the new range and the limit, or the one that there is."""
    found: dict[str, object] = {}
    for piece in (p.strip() for p in one.also.split(" / ") if p.strip()):
        dimension = CHARACTERISTICS[one.of].dimension
        if "–" in piece:
            low, high = ends(piece, dimension, "")
            found |= {"also_new": [low, high]} if "new" in row else {"also_least": low, "also_most": high}
        else:
            way = "least" if "least" in row else "most"
            found |= {f"also_{way}": piece}
    return {k: v for k, v in found.items() if k.removeprefix("also_") in row}


def _count(typed: Mapping[str, str]) -> int:
    given = typed.get("rows", "")
    return int(given) if given.isdecimal() and len(given) < 5 else 0


def _typed(n: int, typed: Mapping[str, str]) -> OfferView:
    def cell(name: str, most: int = 80) -> str:
        return typed.get(f"{name}.{n}", "").strip()[:most]

    side = cell("side")
    return OfferView(n=n, where=cell("where"), item=cell("item", 400), of=cell("of"), new=cell("new"),
                     side="" if side in DITTO else side, limit=cell("limit"), also=cell("also"), page=cell("page", 40),
                     take=bool(cell("take")), question="", said="", there="")  # fmt: skip


def _with(one: OfferView, said: str) -> OfferView:
    return replace(one, said=said) if said else one
