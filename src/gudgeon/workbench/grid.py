"""One page of a book's limits as a grid: intake beside exhaust, each cell as typed, the audit beside its row."""

from __future__ import annotations

import tomllib
from bisect import bisect_right
from collections import Counter
from collections.abc import Mapping
from typing import Any

from msgspec import Struct

from gudgeon.anatomy import Anatomy, expand, say
from gudgeon.audit.catalogue import audit
from gudgeon.audit.shape import Finding
from gudgeon.book import judged
from gudgeon.book.book import Rows
from gudgeon.book.parse import read_rows
from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.problem import Problem, refuse
from gudgeon.shelf.parse import Shelf
from gudgeon.workbench.owning import FindingView

#: The pages of the grid: every limit stands on one of them, beside what a maker's book prints with it.
PAGES: Mapping[str, tuple[str, tuple[str, ...]]] = {
    "lash": ("lash and tests", ("lash", "timing_marks", "oil_at_cams", "leak_down", "compression")),
    "valves": (
        "valves, guides, seats",
        ("stem_diameter", "guide_bore", "stem_guide_clearance", "wobble", "stem_runout", "valve_margin", "seat_width",
         "seat_runout", "contact", "seal_test", "tip_height", "tip_projection", "recession"),
    ),
    "springs": ("springs", ("spring_free_length", "spring_load", "spring_tilt", "installed_height")),
    "cams": (
        "cams, followers, chain",
        ("lobe_height", "base_circle", "journal_diameter", "journal_clearance", "cam_runout", "cam_axial_play",
         "follower_bore", "shaft_diameter", "follower_clearance", "chain_length", "tensioner_travel"),
    ),
    "faces": ("faces, squish", ("head_flatness", "barrel_flatness", "squish", "valve_to_piston")),
    "bore": (
        "bore, piston, pin",
        ("bore_diameter", "out_of_round", "taper", "piston_diameter", "piston_clearance", "pin_diameter", "pin_bore",
         "pin_piston_clearance", "small_end_bore", "pin_rod_clearance", "big_end_play"),
    ),
    "rings": ("rings", ("ring_gap", "side_clearance")),
}  # fmt: skip
UNITS = ("mm", "in")
_SIDES = {"": "", "in": "intake", "ex": "exhaust"}
#: What a technician writes in the second column for "as in the first".
DITTO = ("=", '"', "″", "〃", "”", "“", "''", "ditto")


class Cell(Struct, frozen=True, kw_only=True):
    """A cell: the name of its field, what stands in it, and why it was refused."""

    name: str
    value: str
    said: str = ""


class Group(Struct, frozen=True, kw_only=True):
    """New from, to and limit of one side; `kind` is range, setting (no limit of its own) or words."""

    side: str
    name: str
    kind: str
    first: Cell
    to: Cell
    limit: Cell
    words: tuple[str, ...] = ()


class GridRow(Struct, frozen=True, kw_only=True):
    """One limit: its sides, the page and the method that it is printed with, and what the audit says of it."""

    key: str
    name: str
    unit: str
    groups: tuple[Group, ...]
    page: Cell
    method: Cell
    photo: str = ""
    findings: tuple[FindingView, ...] = ()
    also: tuple[str, ...] = ()


class Tab(Struct, frozen=True, kw_only=True):
    """A page of the grid: how many of its limits are in the book."""

    key: str
    name: str
    filled: int
    wanted: int


class GridPage(Struct, frozen=True, kw_only=True):
    """What the grid shows; `elsewhere` counts what the audit says of other pages."""

    sha256: str
    name: str
    edition: str
    newest: str
    page: str
    unit: str
    tabs: tuple[Tab, ...]
    columns: tuple[str, ...]
    rows: tuple[GridRow, ...]
    elsewhere: int = 0
    problems: tuple[Problem, ...] = ()
    changed: int = 0

    @property
    def refused(self) -> bool:
        """Whether anything on it could not be taken."""
        cells = (c for r in self.rows for g in r.groups for c in (g.first, g.to, g.limit))
        return bool(self.problems) or any(c.said for c in cells) or any(r.page.said or r.method.said for r in self.rows)


def raw_limits(text: str) -> list[dict[str, Any]]:
    """The limit rows as they are typed in a book's text."""
    return list(tomllib.loads(text.removeprefix("\ufeff")).get("limit", []))


def anatomy_of(text: str) -> Anatomy:
    """The engine that a book's text describes."""
    rows, problems = read_rows(text)
    if rows.layout is None:
        raise refuse("book", "It names no layout.", str(problems[0]) if problems else "Pick its layout.")
    return expand(rows.layout)


def sides_of(key: str, anatomy: Anatomy) -> tuple[str, ...]:
    """The columns of a limit: intake and exhaust, the rings, or one; none where the engine has no such thing."""
    places = CHARACTERISTICS[key].where(anatomy)
    found = dict.fromkeys(side for place in places for side in _side(place))
    return tuple(found) if len(found) > 1 else ("",) if places else ()


def _side(place: str) -> tuple[str, ...]:
    pieces = place.split(".")[1:]
    if "ring" in pieces:
        return (pieces[-1],)
    return tuple(side for side in ("in", "ex") if side in pieces) or ("",)


def usual_unit(text: str) -> str:
    """Millimetres, unless most of a book's limits are printed in inches."""
    said = Counter(str(v).rsplit(" ", 1)[-1] for row in raw_limits(text) for k in ("new", "least", "most")
                   for v in _listed(row.get(k)))  # fmt: skip
    return "in" if said["in"] > said["mm"] else "mm"


def _listed(value: Any) -> list[Any]:
    return list(value) if isinstance(value, list) else [] if value is None else [value]


def unit_of(key: str, unit: str) -> str:
    """The unit of a row: lengths in the page's, everything else in its own."""
    kind = CHARACTERISTICS[key]
    return unit if kind.dimension == "length" else "" if kind.dimension == "words" else kind.unit


def way_of(key: str) -> str:
    """Which end a limit of wear or a guard has."""
    return "least" if CHARACTERISTICS[key].wants[0].statistic == "smallest" else "most"


def shown(text: str, page: str, unit: str) -> dict[str, str]:
    """What stands in the cells of a page, by field: what is typed is held against this."""
    anatomy, limits, cells = anatomy_of(text), raw_limits(text), dict[str, str]()
    for key in PAGES[page][1]:
        sides = sides_of(key, anatomy)
        rows = {side: first_row(limits, key, side) for side in ("", *sides)}
        whole = next((r for r in rows.values() if r), {})
        cells |= {f"{key}.page": str(whole.get("page", "")), f"{key}.method": str(whole.get("method", ""))}
        for side in sides:
            cells |= _cells_of(key, side, rows.get(side) or {}, unit)
        if len(sides) > 1 and rows[""]:
            own = [side for side in sides if rows[side]]
            if sides[0] not in own:
                cells |= _cells_of(key, sides[0], rows[""], unit)
            cells |= {f"{key}.{side}.from": "=" for side in sides[1:] if side not in own}
    return cells


def first_row(limits: list[dict[str, Any]], key: str, side: str) -> dict[str, Any] | None:
    """The row of a limit for a side: where two methods are printed, the first."""
    return next((row for row in limits if row.get("of") == key and row.get("side", "") == side), None)


def _cells_of(key: str, side: str, row: Mapping[str, Any], unit: str) -> dict[str, str]:
    kind, at = CHARACTERISTICS[key], f"{key}.{side}"
    if kind.dimension == "words":
        return {f"{at}.from": str(row.get("expect", ""))}
    own = unit_of(key, unit)
    ends = (row.get("least"), row.get("most")) if kind.rule == "setting" else tuple(row.get("new") or (None, None))
    limit = None if kind.rule == "setting" else row.get(way_of(key))
    values = zip(("from", "to", "limit"), (*ends, limit), strict=False)
    return {f"{at}.{cell}": _bare(value, own) for cell, value in values}


def _bare(value: Any, unit: str) -> str:
    return "" if value is None else str(value).removesuffix(unit).strip() if unit else str(value)


def grid(
    text: str, page: str, unit: str, cells: Mapping[str, str], said: Mapping[str, str], beside: Beside
) -> GridPage:
    """The page with these cells and these refusals in it."""
    if page not in PAGES:
        raise refuse("page", "The grid has no page {page}.", "Use one of: {known}.", page=page, known=", ".join(PAGES))
    anatomy = anatomy_of(text)
    keys = [key for key in PAGES[page][1] if sides_of(key, anatomy)]
    rows = tuple(_row(text, key, unit, anatomy, cells, said, beside) for key in keys)
    wide = max((row.groups for row in rows), key=len, default=())
    return GridPage(
        sha256=beside.sha256, name=beside.name, edition=beside.edition, newest=beside.newest, page=page, unit=unit,
        tabs=_tabs(text, anatomy), columns=tuple(g.name for g in wide), rows=rows,
        elsewhere=sum(len(f) for key, f in beside.findings.items() if key not in keys),
    )  # fmt: skip


class Beside(Struct, frozen=True, kw_only=True):
    """What stands beside the cells: which edition, what the audit found by limit, photos by limit."""

    sha256: str
    name: str
    edition: str
    newest: str
    findings: dict[str, tuple[FindingView, ...]]
    photos: dict[str, str]


def _row(
    text: str,
    key: str,
    unit: str,
    anatomy: Anatomy,
    cells: Mapping[str, str],
    said: Mapping[str, str],
    beside: Beside,
) -> GridRow:
    def cell(name: str) -> Cell:
        return Cell(name=f"{key}.{name}", value=cells.get(f"{key}.{name}", ""), said=said.get(f"{key}.{name}", ""))

    kind = CHARACTERISTICS[key]
    shape = "words" if kind.dimension == "words" else "setting" if kind.rule == "setting" else "range"
    sides = sides_of(key, anatomy)
    groups = tuple(Group(side=side, name=_SIDES.get(side, f"{side} ring"), kind=shape,
                         words=judged.words(key), first=cell(f"{side}.from"),
                         to=cell(f"{side}.to"), limit=cell(f"{side}.limit")) for side in sides)  # fmt: skip
    return GridRow(key=key, name=kind.name, unit=unit_of(key, unit), groups=groups, page=cell("page"),
                   method=cell("method"), photo=beside.photos.get(key, ""), findings=beside.findings.get(key, ()),
                   also=_also(text, key, sides))  # fmt: skip


def _also(text: str, key: str, sides: tuple[str, ...]) -> tuple[str, ...]:
    """Rows of this limit that the grid has no cell for: for one place, or by a second method."""
    seen, found = set[str](), list[str]()
    for row in (r for r in raw_limits(text) if r.get("of") == key):
        side = str(row.get("side", ""))
        if (side not in ("", *sides)) or side in seen:
            sizes = ", ".join(
                f"{k} {'–'.join(map(str, _listed(row[k])))}" for k in ("new", "least", "most") if k in row
            )
            found.append(" ".join(t for t in (say(side) if side else "", str(row.get("method", "")), sizes) if t))
        seen.add(side)
    return tuple(found)


def _tabs(text: str, anatomy: Anatomy) -> tuple[Tab, ...]:
    there = {str(row.get("of")) for row in raw_limits(text)}
    tabs = []
    for key, (name, limits) in PAGES.items():
        wanted = [limit for limit in limits if sides_of(limit, anatomy)]
        if wanted:
            tabs.append(Tab(key=key, name=name, filled=sum(w in there for w in wanted), wanted=len(wanted)))
    return tuple(tabs)


def findings_by_limit(text: str, shelf: Shelf | None, name: str) -> dict[str, tuple[FindingView, ...]]:
    """What the audit says, under the limit whose row it stands at; under no name what belongs to no limit."""
    rows, _problems = read_rows(text, name)
    return _found(rows, text, shelf, name, {row.line: row.of for row in rows.limits})


def findings_by_fastener(text: str, shelf: Shelf | None, name: str) -> dict[str, tuple[FindingView, ...]]:
    """What the audit says, under the fastener whose row it stands at."""
    rows, _problems = read_rows(text, name)
    return _found(rows, text, shelf, name, {row.line: row.name for row in rows.fasteners})


def _found(
    rows: Rows, text: str, shelf: Shelf | None, name: str, named: Mapping[int, str]
) -> dict[str, tuple[FindingView, ...]]:
    """The findings by the row at which they stand: the last that begins above their line."""
    others = (
        *rows.limits,
        *rows.fasteners,
        *rows.parts,
        *rows.seats,
        *rows.springs,
        *rows.shim_systems,
        *rows.cam_events,
    )
    starts = sorted({row.line for row in others})
    found: dict[str, tuple[FindingView, ...]] = {}
    for one in audit(text, shelf, name):
        if isinstance(one, Finding):
            at = bisect_right(starts, one.line) - 1
            key = named.get(starts[at], "") if at >= 0 else ""
            view = FindingView(where=one.where, what=str(one.what), arithmetic=one.arithmetic, remedy=str(one.remedy),
                               severity=one.severity)  # fmt: skip
            found[key] = (*found.get(key, ()), view)
    return found


def page_of(key: str) -> str:
    """The page of the grid on which a limit stands."""
    return next((page for page, (_name, limits) in PAGES.items() if key in limits), next(iter(PAGES)))
