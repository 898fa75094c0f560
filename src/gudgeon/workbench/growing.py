"""A book that grows by use: two cells typed at the first reading become a row of it.

Statistic, direction and unit are the characteristic's; the technician types the new range and the limit, once.
"""

from __future__ import annotations

import re

from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.problem import refuse
from gudgeon.units import read
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.measuring import own_characteristic

#: What stands between the two ends of a range, the surest first: a dash or a word, a lone hyphen, a stroke.
_BETWEEN = (r"[–—‒―−…~]|\.\.\.?|\bto\b|\bbis\b", r"(?<=[\w\s\"'″′°%])-(?=\s*[\d.,])", r"(?<=[\d\s])/(?=[\s\d.,])")
_UNIT = re.compile(r"[A-Za-zµμ°%\"'″′].*$")


def grow(bench: Workbench, number: str, cells: dict[str, str], hand: Hand) -> str:
    """Add the limit in these cells (measurand, place, unit, new, limit, page) to the job's book; the new book's digest."""
    return bench.add_limit(number, row_of(cells), hand)


def row_of(cells: dict[str, str]) -> dict[str, str | tuple[str, str]]:
    """The book row that two cells mean."""
    key = own_characteristic(cells.get("measurand", ""))
    if not key or CHARACTERISTICS[key].dimension == "words":
        raise refuse("limit", "It has no limit of its own.", "Choose what is judged.")
    kind, unit = CHARACTERISTICS[key], cells.get("unit", "")
    row: dict[str, str | tuple[str, str]] = {"of": key, "side": side_of(cells.get("place", ""))}
    new, limit = cells.get("new", "").strip(), cells.get("limit", "").strip()
    if not new and not limit:
        raise refuse("limit", "Both cells are empty.", "Type the new range, the limit, or both.")
    if kind.rule == "setting":
        low, high = ends(new or limit, kind.dimension, unit)
        return row | {"least": low, "most": high, "page": cells.get("page", "").strip()}
    if new:
        row["new"] = ends(new, kind.dimension, unit)
    if limit:
        side = "least" if kind.wants[0].statistic == "smallest" else "most"
        row[side] = _typed(limit, kind.dimension, unit, "limit")
    return row | {"page": cells.get("page", "").strip()}


def ends(text: str, dimension: str, unit: str) -> tuple[str, str]:
    """The two ends of a range as a technician types it: ``0.10–0.15``, ``0.10 to 0.15``, ``0.10-0.15 mm``."""
    for between in _BETWEEN:
        pieces = [p.strip() for p in re.split(between, text)]
        if len(pieces) == 2 and all(pieces):
            break
    else:
        raise refuse("new range", "{text} has no two ends.", "Type it as 0.10–0.15.", text=text[:60])
    low, high = pieces
    own = _UNIT.search(high)
    if own and not _UNIT.search(low):
        low = f"{low} {own[0]}"
    return _typed(low, dimension, unit, "new range"), _typed(high, dimension, unit, "new range")


def _typed(text: str, dimension: str, unit: str, where: str) -> str:
    return str(read(text, dimension, unit=unit or None, where=where))


def side_of(place: str) -> str:
    """The side a limit is printed for: intake, exhaust, a ring, or none."""
    pieces = place.split(".")
    if "ring" in pieces:
        return pieces[-1]
    return next((side for side in ("in", "ex") if side in pieces), "")
