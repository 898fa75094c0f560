"""A book's fasteners as a grid, and where each bolt sits: by the layout, or as they were tapped in order on a drawing."""

from __future__ import annotations

import math
import re
import tomllib
from collections.abc import Mapping
from typing import Any, get_args

from msgspec import Struct

from gudgeon.anatomy import Anatomy
from gudgeon.book.cells import Changed, refused_cells, with_cells
from gudgeon.book.fasteners import State
from gudgeon.book.parse import FASTENED, joints
from gudgeon.book.write import counted_on
from gudgeon.mechanics.tightening import order_from_positions
from gudgeon.problem import Problem, Refused, refuse
from gudgeon.units import read
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.grid import Cell, anatomy_of, findings_by_fastener
from gudgeon.workbench.gridding import newest_of, text_of
from gudgeon.workbench.owning import FindingView

#: What a fastener of a joint is usually called (common practice, no source).
USUAL: Mapping[str, str] = {
    "head": "head nuts", "base": "base bolts", "holder": "cam holder bolts", "cover": "cover bolts",
    "sprocket": "sprocket bolts", "tensioner": "tensioner bolts", "plug": "plug",
    "follower shaft": "follower shaft bolts", "adjuster": "adjuster locknuts",
}  # fmt: skip
CELLS = ("name", "joint", "thread", "grade", "count", "torque", "thread_state", "under_head", "locker", "page")
STATES: tuple[str, ...] = tuple(s for s in get_args(State) if s)
_STAGES = re.compile(r"\s*(?:/|;|,\s|–|—|→|\bthen\b)\s*")
_MOST = 2_000.0


class FastenerLine(Struct, frozen=True, kw_only=True):
    """A row of the grid of fasteners; `n` is its place in the book, -1 where the book has none yet."""

    n: int
    key: str
    cells: dict[str, Cell]
    placed: int
    findings: tuple[FindingView, ...] = ()


class FastenerGrid(Struct, frozen=True, kw_only=True):
    """The grid of a book's fasteners."""

    sha256: str
    name: str
    edition: str
    rows: tuple[FastenerLine, ...]
    joints: tuple[str, ...]
    states: tuple[str, ...] = STATES
    problems: tuple[Problem, ...] = ()
    changed: int = 0

    @property
    def refused(self) -> bool:
        """Whether anything on it could not be taken."""
        return bool(self.problems) or any(c.said for row in self.rows for c in row.cells.values())


class Bolts(Struct, frozen=True, kw_only=True):
    """Where the bolts of one fastener sit, in the order they are tightened, in mm; `drawn` scales them to 0–1."""

    sha256: str
    book: str
    edition: str
    n: int
    name: str
    count: int
    places: tuple[tuple[float, float], ...]
    drawn: tuple[tuple[float, float], ...]
    usual: str
    stages: tuple[str, ...]


def raw_fasteners(text: str) -> list[dict[str, Any]]:
    """The fastener rows as they are typed in a book's text."""
    return list(tomllib.loads(text.removeprefix("\ufeff")).get("fastener", []))


def fastener_grid(bench: Workbench, sha256: str, typed: Mapping[str, str] | None = None) -> tuple[FastenerGrid, str]:
    """The grid as it stands or as it is typed, with every refused cell; and the text that would be kept."""
    text = text_of(bench, sha256)
    anatomy, raw, book = anatomy_of(text), raw_fasteners(text), bench.book(sha256)
    lines = [*raw, *_missing(anatomy, raw), {}]
    changes, rows, target = list[Changed](), list[tuple[int, dict[str, str], dict[str, str]]](), text
    for at, row in enumerate(lines):
        n = at if at < len(raw) else -1
        shown = _shown(row)
        cells = shown | {c: typed[f"{at}.{c}"].strip()[:80] for c in CELLS if f"{at}.{c}" in typed} if typed else shown
        wrong: dict[str, str] = {}
        if cells != shown:
            change = _change(n, row, cells, wrong)
            changes += [change] if change else []
        rows.append((n, cells, wrong))
    problems: tuple[Problem, ...] = ()
    try:
        target = with_cells(text, changes)
    except Refused as refused:
        problems = refused.problems
    shelf = bench.shelf() if bench.library.shelf().strip() else None
    found = findings_by_fastener(target, shelf, book.name)
    grid = FastenerGrid(
        sha256=sha256, name=book.name, edition=book.edition, joints=_joints(anatomy), problems=problems,
        rows=tuple(_line(at, *row, raw, found) for at, row in enumerate(rows)), changed=len(changes),
    )  # fmt: skip
    return grid, target


def keep_fasteners(bench: Workbench, sha256: str, typed: Mapping[str, str]) -> FastenerGrid:
    """Keep the grid as one edition; where any cell is refused nothing is kept and everything stays typed."""
    _newest(bench, sha256)
    seen, text = fastener_grid(bench, sha256, typed)
    if seen.refused or not seen.changed:
        return seen
    return fastener_grid(bench, bench.add_book(counted_on(text)))[0]


def _newest(bench: Workbench, sha256: str) -> None:
    if newest_of(bench, sha256) != sha256:
        raise refuse("book", "This is not its newest edition.", "Open the newest, and type it there.")


def _joints(anatomy: Anatomy) -> tuple[str, ...]:
    there = {joint.name for joint in joints(anatomy)}
    return tuple(name for name in FASTENED if name in there)


def _missing(anatomy: Anatomy, raw: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """A row for every joint of the engine that the book says nothing of."""
    said = {row.get("joint") for row in raw}
    return [{"name": USUAL[joint], "joint": joint} for joint in _joints(anatomy) if joint not in said]


def _shown(row: Mapping[str, Any]) -> dict[str, str]:
    cells = {c: str(row.get(c, "")) for c in CELLS}
    return cells | {"torque": " / ".join(str(t).removesuffix(" N·m") for t in row.get("torque", ()))}


def _line(
    at: int,
    n: int,
    cells: Mapping[str, str],
    wrong: Mapping[str, str],
    raw: list[dict[str, Any]],
    found: Mapping[str, tuple[FindingView, ...]],
) -> FastenerLine:
    shown = {c: Cell(name=f"{at}.{c}", value=cells[c], said=wrong.get(c, "")) for c in CELLS}
    placed = len(raw[n].get("positions_mm", ())) if n >= 0 else 0
    return FastenerLine(n=n, key=f"f{at}", cells=shown, placed=placed, findings=found.get(cells["name"], ()))


def _change(n: int, row: Mapping[str, Any], cells: Mapping[str, str], wrong: dict[str, str]) -> Changed | None:
    if not any(cells[c] for c in CELLS if c not in ("joint", "name")):
        return Changed(table="fastener", row=n, gone=True) if n >= 0 else None
    new: dict[str, Any] = {c: cells[c] for c in CELLS}
    new["torque"] = _stages(cells["torque"], wrong)
    if cells["count"] and not cells["count"].isdecimal():
        wrong["count"] = "Type a whole number."
    elif cells["count"]:
        new["count"] = int(cells["count"])
    whole = {k: v for k, v in (dict(row) | new).items() if v not in ("", [])}
    for cell, problem in ({} if wrong else refused_cells("fastener", whole)).items():
        wrong[cell if cell in CELLS else "name"] = f"{problem.what} {problem.remedy}"
    return None if wrong else Changed(table="fastener", row=n if n >= 0 else None, cells=new)


def _stages(text: str, wrong: dict[str, str]) -> list[str]:
    try:
        return [str(read(piece, "torque", unit="N·m", where="torque")) for piece in _STAGES.split(text) if piece]
    except Refused as refused:
        wrong["torque"] = f"{refused.problems[0].what} {refused.problems[0].remedy}"
        return []


def bolts(bench: Workbench, sha256: str, n: int, usual: bool = False) -> Bolts:
    """Where the bolts of one row sit: as the book says, or as the layout suggests."""
    book = bench.book(sha256)
    if not 0 <= n < len(book.fasteners):
        raise refuse("fastener", "The book has no such row.", "Look at the list of its fasteners.")
    row = book.fasteners[n]
    bore = book.geometry.bore.value if book.geometry.bore else 80.0
    places, words = row.positions_mm, ""
    if usual or not places:
        places, words = (
            usual_positions(row.count, bore),
            "As the layout suggests: tap them anew where they sit elsewhere.",
        )
        order: tuple[int, ...] = order_from_positions(places) if len(places) > 1 else (1,) * len(places)
    else:
        order = row.order or tuple(range(1, len(places) + 1))
    in_order = tuple(places[i - 1] for i in order if i <= len(places))
    return Bolts(sha256=sha256, book=book.name, edition=book.edition, n=n, name=row.name, count=row.count,
                 places=in_order, drawn=scaled(in_order), usual=words, stages=tuple(str(t) for t in row.torque))  # fmt: skip


def usual_positions(count: int, bore_mm: float) -> tuple[tuple[float, float], ...]:
    """Two rows beside the bores, an odd count round a circle (common practice, no source); shown to be corrected."""
    half = round(0.55 * bore_mm)
    if count == 1:
        return ((0.0, 0.0),)
    if count == 2:
        return ((-half, 0.0), (half, 0.0))
    if count % 2:
        turns = [2 * math.pi * i / count for i in range(count)]
        return tuple((round(half * math.sin(t), 1), round(-half * math.cos(t), 1)) for t in turns)
    columns = count // 2
    xs = [(2 * i - (columns - 1)) * half for i in range(columns)]
    return tuple((float(x), float(y)) for y in (-half, half) for x in xs)


def scaled(places: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
    """Places from 0 to 1 both ways, in true proportion and in the middle."""
    if not places:
        return ()
    xs, ys = [x for x, _y in places], [y for _x, y in places]
    span = max(max(xs) - min(xs), max(ys) - min(ys)) or 1.0
    middle = ((max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2)
    return tuple((0.5 + (x - middle[0]) / span, 0.5 + (y - middle[1]) / span) for x, y in places)


def keep_bolts(bench: Workbench, sha256: str, n: int, typed: str) -> str:
    """Keep where the bolts sit, one a line in the order they are tightened; the new edition's digest."""
    _newest(bench, sha256)
    row = bolts(bench, sha256, n)
    places = [_place(line, at) for at, line in enumerate(typed.strip().splitlines(), 1)]
    if len(places) != row.count:
        raise refuse(row.name, "{given} places for {count} bolts.", "Tap each bolt once, in order.",
                     given=len(places), count=row.count)  # fmt: skip
    if len(set(places)) != len(places):
        raise refuse(row.name, "Two bolts sit in one place.", "Tap each bolt once, in order.")
    cells = {"positions_mm": [list(p) for p in places], "order": list(range(1, len(places) + 1)), "loosen": ""}
    text = with_cells(text_of(bench, sha256), [Changed(table="fastener", row=n, cells=cells)])
    return bench.add_book(counted_on(text))


def _place(line: str, at: int) -> tuple[float, float]:
    pieces = line.replace("−", "-").replace(";", " ").split()
    try:
        x, y = (float(piece) for piece in pieces)
    except ValueError:
        raise refuse(
            f"bolt {at}", "{given} is no place.", "Two numbers in mm: across, down.", given=line[:30]
        ) from None
    if not (abs(x) <= _MOST and abs(y) <= _MOST):  # also refuses what is no number
        raise refuse(f"bolt {at}", "{given} is off the engine.", "Two numbers in mm: across, down.", given=line[:30])
    return round(x, 1), round(y, 1)
