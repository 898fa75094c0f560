"""What was typed into a page of the grid: read cell by cell, and kept as one edition, or as nothing at all."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from msgspec.structs import replace

from gudgeon.book.book import digest
from gudgeon.book.cells import Changed, refused_cells, with_cells
from gudgeon.book.write import counted_on
from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.problem import Problem, Refused, refuse, said
from gudgeon.units import read
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.grid import (
    DITTO,
    PAGES,
    UNITS,
    Beside,
    GridPage,
    anatomy_of,
    findings_by_limit,
    first_row,
    grid,
    raw_limits,
    shown,
    sides_of,
    unit_of,
    usual_unit,
    way_of,
)
from gudgeon.workbench.growing import ends
from gudgeon.workbench.starting import kept_books

Row = dict[str, Any]
_CELLS = ("from", "to", "limit")


def book_grid(bench: Workbench, sha256: str, page: str = "", unit: str = "") -> GridPage:
    """A page of a kept book's limits, as it stands."""
    text = text_of(bench, sha256)
    page, unit = page or next(iter(PAGES)), unit if unit in UNITS else usual_unit(text)
    if page not in PAGES:
        raise refuse("page", "The grid has no page {page}.", "Use one of: {known}.", page=page, known=", ".join(PAGES))
    return grid(text, page, unit, shown(text, page, unit), {}, _beside(bench, sha256, text))


def tried(bench: Workbench, sha256: str, page: str, typed: Mapping[str, str]) -> tuple[GridPage, str]:
    """The page as typed, each refused cell with its reason, the audit of what was read; and the text that would be kept."""
    text = text_of(bench, sha256)
    unit = typed.get("unit", "") if typed.get("unit", "") in UNITS else usual_unit(text)
    before = shown(text, page, unit) if page in PAGES else {}
    cells = before | {key: value.strip()[:200] for key, value in typed.items() if key in before}
    cells = _carried(page, cells, before)
    wrong: dict[str, str] = {}
    newest = newest_of(bench, sha256)
    target = text_of(bench, newest)
    changes = _changes(text, target, page, unit, cells, before, wrong)
    problems: tuple[Problem, ...] = ()
    try:
        target = with_cells(target, changes)
    except Refused as refused:
        problems = refused.problems
    seen = grid(text, page, unit, cells, wrong, _beside(bench, sha256, target))
    return _with(seen, problems, len(changes)), target


def keep(bench: Workbench, sha256: str, page: str, typed: Mapping[str, str]) -> GridPage:
    """Keep what was typed as one new edition; where any cell is refused nothing is kept and everything stays typed."""
    seen, text = tried(bench, sha256, page, typed)
    if seen.refused or not seen.changed:
        return seen
    new = bench.add_book(counted_on(text))
    return _with(book_grid(bench, new, page, seen.unit), (), seen.changed)


def text_of(bench: Workbench, sha256: str) -> str:
    """The text of a kept book."""
    text = bench.library.book(sha256)
    if text is None:
        raise refuse("book", "No such book is kept.", "Look at the list of books.")
    return text


def newest_of(bench: Workbench, sha256: str) -> str:
    """The newest edition of the same book: what was kept on another bench meanwhile is not lost."""
    name = bench.book(sha256).name
    return next((card.sha256 for card in kept_books(bench) if card.name == name and card.newest), sha256)


def _with(seen: GridPage, problems: tuple[Problem, ...], changed: int) -> GridPage:
    return replace(seen, problems=problems, changed=changed)


def _beside(bench: Workbench, sha256: str, text: str) -> Beside:
    book, shelf = bench.book(sha256), bench.shelf() if bench.library.shelf().strip() else None
    return Beside(sha256=sha256, name=book.name, edition=book.edition, newest=newest_of(bench, sha256),
                  findings=findings_by_limit(text, shelf, book.name), photos=bench.library.photos(book.name))  # fmt: skip


def _carried(page: str, cells: dict[str, str], before: Mapping[str, str]) -> dict[str, str]:
    """The page of the book is typed once: a row that is filled without one takes that of the row above it."""
    last, carried = "", dict(cells)
    for key in PAGES.get(page, ("", ()))[1]:
        at = f"{key}.page"
        filled = any(v for name, v in cells.items() if name.startswith(f"{key}.") and name.endswith(_CELLS))
        touched = any(cells[n] != before[n] for n in cells if n.startswith(f"{key}."))
        if filled and touched and not cells.get(at):
            carried[at] = last
        last = cells.get(at) or last
    return carried


def _changes(
    text: str,
    target: str,
    page: str,
    unit: str,
    cells: dict[str, str],
    before: Mapping[str, str],
    wrong: dict[str, str],
) -> list[Changed]:
    anatomy, limits, latest = anatomy_of(text), raw_limits(text), raw_limits(target)
    found: list[Changed] = []
    for key in PAGES[page][1] if page in PAGES else ():
        sides = sides_of(key, anatomy)
        if not sides or all(cells[n] == before[n] for n in before if n.startswith(f"{key}.")):
            continue
        wanted = _wanted(key, sides, unit, cells, wrong)
        old = {side: first_row(limits, key, side) for side in ("", *sides)}
        if any(first_row(latest, key, side) != old[side] for side in old):
            wrong[f"{key}.{sides[0]}.from"] = str(said(
                "This limit was changed on another bench meanwhile. Look at the newest edition first."))  # fmt: skip
        elif wanted is not None:
            found += _moved(key, sides, old, wanted, latest)
    return found


def _wanted(
    key: str, sides: tuple[str, ...], unit: str, cells: Mapping[str, str], wrong: dict[str, str]
) -> dict[str, Row] | None:
    """The rows, by side, that the cells of a limit mean; none where any of them is refused."""
    ditto = [side for side in sides[1:] if cells.get(f"{key}.{side}.from", "").casefold() in DITTO]
    rows: dict[str, Row] = {}
    refused = dict[str, str]()
    for side in sides:
        if side in ditto:
            continue
        row, problems = read_group(key, unit, {c: cells.get(f"{key}.{side}.{c}", "") for c in _CELLS})
        refused |= {f"{key}.{side}.{cell}": f"{p.what} {p.remedy}" for cell, p in problems.items()}
        if row:
            rows["" if ditto and side == sides[0] else side] = row
    if ditto and "" not in rows and not refused:
        refused[f"{key}.{ditto[0]}.from"] = str(said("It is like the first column, which is empty."))
    shared = {cell: cells.get(f"{key}.{cell}", "") for cell in ("page", "method")}
    wrong |= refused
    return None if refused else {side: row | shared for side, row in rows.items()}


def read_group(key: str, unit: str, cells: Mapping[str, str]) -> tuple[Row, dict[str, Problem]]:
    """The cells of one side as a row of the book, or each refused cell with its problem; an empty row is none."""
    kind = CHARACTERISTICS[key]
    if not any(cells.values()):
        return {}, {}
    if kind.dimension == "words":
        row: Row = {"expect": cells["from"]}
        problems = refused_cells("limit", {"of": key} | row)
        return row, {"from": next(iter(problems.values()))} if problems else {}
    sizes, problems = _sizes(kind.dimension, unit_of(key, unit), cells)
    if problems:
        return {}, problems
    if ("from" in sizes) != ("to" in sizes):
        gap = "to" if "from" in sizes else "from"
        return {}, {gap: _said("A range has two ends.", "Type the other one, or put this under limit.")}
    if kind.rule == "setting":
        row = {"least": sizes.get("from"), "most": sizes.get("to")}
        names = {"least": "from", "most": "to", "": "from"}
    else:
        row = {"new": [sizes["from"], sizes["to"]] if "from" in sizes else None, way_of(key): sizes.get("limit")}
        names = {"new": "from", way_of(key): "limit", "": "from"}
    row = {cell: value for cell, value in row.items() if value}
    return row, {names.get(cell, "from"): p for cell, p in refused_cells("limit", {"of": key} | row).items()}


def _sizes(dimension: str, unit: str, cells: Mapping[str, str]) -> tuple[dict[str, str], dict[str, Problem]]:
    sizes: dict[str, str] = {}
    problems: dict[str, Problem] = {}
    for cell in _CELLS:
        text = cells.get(cell, "")
        if not text:
            continue
        try:
            sizes[cell] = str(read(text, dimension, unit=unit or None, where=cell))
        except Refused as refused:
            try:  # a whole range in the first cell, as it is copied from a page
                if cell != "from" or cells.get("to"):
                    raise refused
                sizes["from"], sizes["to"] = ends(text, dimension, unit)
            except Refused:
                problems[cell] = refused.problems[0]
    return sizes, problems


def _said(what: str, remedy: str) -> Problem:
    return Problem(where="", what=said(what), remedy=said(remedy))


def _moved(
    key: str, sides: tuple[str, ...], old: Mapping[str, Row | None], wanted: Mapping[str, Row], latest: list[Row]
) -> list[Changed]:
    """How the rows of a limit get from what they were to what is wanted: changed, added, or taken out."""
    changes = []
    value_keys = ("least", "most") if CHARACTERISTICS[key].rule == "setting" else ("new", way_of(key), "expect")
    for side in dict.fromkeys(("", *sides)):
        row, now = old[side], wanted.get(side)
        if row is not None and now is None:
            changes.append(Changed(table="limit", row=_index(latest, row), gone=True))
        elif now is not None and row is None:
            like = (
                old[""] or next((r for r in old.values() if r and not wanted.get(str(r.get("side", "")))), None) or {}
            )
            rest = {k: v for k, v in like.items() if k not in (*value_keys, "also_new", "also_least", "also_most")}
            changes.append(Changed(table="limit", cells=rest | {"of": key, "side": side} | now))
        elif row is not None and now is not None:
            cells = dict.fromkeys(value_keys, "") | now
            if any(row.get(cell, "") != value for cell, value in cells.items()):
                changes.append(Changed(table="limit", row=_index(latest, row), cells=cells))
    return changes


def _index(latest: list[Row], row: Row) -> int:
    return next(n for n, one in enumerate(latest) if one == row)


def book_file(bench: Workbench, sha256: str) -> tuple[str, str]:
    """The name and the text of a book's file: what may be given away; photos stay in the workshop."""
    text, book = text_of(bench, sha256), bench.book(sha256)
    name = "".join(c if c.isalnum() else "-" for c in f"{book.name} {book.edition}".lower()).strip("-")
    return f"{name or digest(text)[:12]}.toml", text
