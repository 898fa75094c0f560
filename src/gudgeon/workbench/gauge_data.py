"""Readings out of a file that a gauge collected: each row is offered with the place it goes to, and all land or none.

How a gauge writes its files is asked once and remembered on the shelf. Nothing is guessed that could move a decimal sign.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import msgspec

from gudgeon.anatomy import say
from gudgeon.exchange.tables import TableRow, read_table
from gudgeon.job.entries import Reading
from gudgeon.measurands.own import measurands
from gudgeon.measurands.shape import Measurand
from gudgeon.plans.shape import Given
from gudgeon.problem import Problem, Refused, refuse, said
from gudgeon.shelf.columns import Columns
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.shelf.parse import TABLES
from gudgeon.shelf.typed import check as checked
from gudgeon.shelf.write import with_row
from gudgeon.units import INSIDE, convert, units_of
from gudgeon.workbench.asks import point_words
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.checks import check
from gudgeon.workbench.ports import Landed
from gudgeon.workbench.shelving import shelf_text
from gudgeon.workbench.slips import Asked
from gudgeon.workbench.trade import land_all

MOST = 20_000
#: How many rows may stand above the headings: the gauge's name, a date.
MOST_ABOVE = 30
_NUMBER = re.compile(r"[+\-−]?\d*[.,]?\d+")
#: A point behind a comma shows that the comma parts columns, unless it may part thousands.
_POINT = re.compile(r",(?!\d{3}\.)\d*\.\d|\d\.\d+,")
State = Literal["ready", "asked", "refused", "passed over"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """One row: the reading that it would become, and what stands against it. `slip` is what a hand may confirm."""

    row: str
    state: State
    reading: Reading | None = None
    words: str = ""
    why: str = ""
    slip: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """What a file holds for a job: its rows, and the columns by which it was read."""

    columns: Columns
    measurand: str
    rows: tuple[Offered, ...]

    def count(self, state: State) -> int:
        """How many rows are so."""
        return sum(row.state == state for row in self.rows)


def columns_of(cells: dict[str, str]) -> Columns:
    """The columns from what was typed, or every problem of it."""
    given = {key: value.strip() for key, value in cells.items() if key in Columns.model_fields and value.strip()}
    found, problems = checked(Columns, given, path=(), lines={}, name="columns")
    if found is None:
        raise Refused(problems)
    return found


def remembered(bench: Workbench, gauge: str) -> Columns | None:
    """How this gauge wrote its files the last time."""
    return next((c for c in bench.shelf().columns if c.gauge == gauge), None)


def remember(bench: Workbench, columns: Columns) -> None:
    """Keep with the shelf how a gauge writes its files."""
    if remembered(bench, columns.gauge) == columns:
        return
    index = next((n for n, c in enumerate(bench.shelf().columns) if c.gauge == columns.gauge), None)
    cells = {name: getattr(columns, name) for name in TABLES["columns"].model_fields}
    bench.put_shelf(with_row(shelf_text(bench), "columns", cells, index))


def offer(bench: Workbench, number: str, data: bytes, name: str, columns: Columns, measurand: str) -> Offer:
    """Every row of the file with what it would become; nothing is written."""
    given = bench.worked(number).given
    kind = measurands(given.state.anatomy).get(measurand)
    if kind is None or kind.dimension == "words":
        raise refuse("measurand", "No gauge measures {what}.", "Choose one from the list.", what=measurand or "nothing")
    card = bench.card(columns.gauge, given.state)
    if card is None:
        raise refuse("gauge", "The shelf has no gauge {gauge}.", "Put it on the shelf first.", gauge=columns.gauge)
    table = read_table(data, name, most=MOST, separator=_separator(data, columns, name))
    if table.problems:
        raise Refused(table.problems)
    where = _Where.found(table.rows, columns, name)
    read = _Reader(given=given, kind=kind, card=card, columns=columns, at=where, padded=data.startswith(b"PK"))
    rows = read.rows(table.rows)
    if all(row.state == "passed over" for row in rows):
        raise refuse(name, "It holds no reading.", "Look at which column holds the value.")
    return Offer(columns=columns, measurand=measurand, rows=tuple(_checked(bench, given, card, row) for row in rows))


def accept(
    bench: Workbench,
    number: str,
    offered: Offer,
    hand: Hand,
    *,
    confirmed: Collection[str] = (),
    left_out: Collection[str] = (),
) -> tuple[Landed, ...]:
    """Land every row that was not left out, or none: a row that is asked needs its confirmation, by its name."""
    readings: list[Reading] = []
    problems: list[Problem] = []
    for row in offered.rows:
        if row.row in left_out or row.state == "passed over":
            continue
        if row.state == "ready" and row.reading:
            readings.append(row.reading)
        elif row.state == "asked" and row.row in confirmed and row.reading:
            readings.append(_confirmed(row.reading, row.slip))
        else:
            remedy = (
                said("Confirm it, or leave the row out.") if row.slip else said("Correct it, or leave the row out.")
            )
            problems.append(Problem(where=row.row, what=said("{why}", why=row.why), remedy=remedy))
    if problems:
        raise Refused(problems)
    if not readings:
        raise refuse("rows", "Every row was left out.", "Leave fewer out.")
    landed = land_all(bench, number, readings, hand)
    remember(bench, offered.columns)
    return landed


def _confirmed(reading: Reading, slip: str) -> Reading:
    """The reading with the slip that a hand says is none."""
    return msgspec.structs.replace(reading, confirmed=(slip,))


def _checked(bench: Workbench, given: Given, card: GaugeCard, row: Offered) -> Offered:
    if row.reading is None:
        return row
    try:
        check(row.reading, given, card)
    except Asked as asked:
        return replace(row, state="asked", why=str(asked.problems[0].what), slip=asked.slip.key)
    except Refused as refused:
        return replace(row, state="refused", why="; ".join(f"{p.what} {p.remedy}" for p in refused.problems))
    return row


def _separator(data: bytes, columns: Columns, name: str) -> str:
    """Where the rows of a text are split. A comma that may be a decimal sign as well is asked about, never guessed."""
    if data.startswith(b"PK"):
        return ""
    if columns.separator:
        return "\t" if columns.separator == "tab" else columns.separator
    lines = [line for line in data.decode("utf-8-sig", "replace").splitlines() if line.strip()][: MOST_ABOVE * 2]
    for sign in "\t;":
        if 2 * sum(sign in line for line in lines) > len(lines):
            return sign
    bare = [re.sub(r'"[^"]*"', "", line) for line in lines]
    if not any("," in line for line in bare):
        return ""
    if all(re.fullmatch(r"[^,]*\d,\d[^,]*|[^,]*", line) and not _POINT.search(line) for line in bare):
        if not columns.decimal:
            raise refuse(name, "A comma stands between digits: 12,34 is one size or two columns?",
                         "Say what the decimal sign is.")  # fmt: skip
        return ";" if columns.decimal == "," else ","
    return ","


@dataclass(frozen=True, slots=True, kw_only=True)
class _Where:
    """The positions of the columns, and the first row below the headings; -1 is no such column."""

    value: int
    where: int
    point: int
    unit: int
    first: int
    width: int

    @classmethod
    def found(cls, rows: Sequence[TableRow], columns: Columns, name: str) -> _Where:
        """Where the named columns stand: counted ones need no headings."""
        kind_units = {unit for dimension in INSIDE for unit in units_of(dimension)}
        unit = "" if columns.unit in kind_units else columns.unit
        wanted = [columns.value, columns.where, columns.point, unit]
        if all(not w or w.isdecimal() for w in wanted):
            places = [int(w) - 1 if w else -1 for w in wanted]
            first = next((n for n, row in enumerate(rows) if re.search(r"\d", _at(row, places[0]))), len(rows))
            return cls(value=places[0], where=places[1], point=places[2], unit=places[3], first=first, width=0)
        for n, row in enumerate(rows[:MOST_ABOVE]):
            heads = [cell.casefold() for cell in row.cells]
            if columns.value.casefold() in heads or (columns.value.isdecimal() and _all_in(wanted, heads)):
                return cls._named(row, heads, wanted, first=n + 1)
        seen = ", ".join(rows[0].cells[:12])
        raise refuse(name, "No row of headings names {value}.", "Headings: {seen}. Name one of them, or count the columns.",
                     value=columns.value[:40], seen=seen[:200])  # fmt: skip

    @classmethod
    def _named(cls, row: TableRow, heads: list[str], wanted: list[str], first: int) -> _Where:
        missing = [w for w in wanted if w and not w.isdecimal() and w.casefold() not in heads]
        twice = [w for w in wanted if heads.count(w.casefold()) > 1]
        if missing or twice:
            raise refuse(row.where, "Headings missing: {missing}; twice: {twice}.", "Headings: {seen}.",
                         missing=", ".join(missing) or "none", twice=", ".join(twice) or "none",
                         seen=", ".join(row.cells)[:200])  # fmt: skip
        value, where, point, unit = (
            -1 if not w else int(w) - 1 if w.isdecimal() else heads.index(w.casefold()) for w in wanted
        )
        return cls(value=value, where=where, point=point, unit=unit, first=first, width=len(heads))


def _all_in(wanted: list[str], heads: list[str]) -> bool:
    return all(w.casefold() in heads for w in wanted if w and not w.isdecimal())


def _at(row: TableRow, column: int) -> str:
    return row.cells[column] if 0 <= column < len(row.cells) else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Reader:
    """Reads rows: place, point, and text, with the digits that the gauge showed."""

    given: Given
    kind: Measurand
    card: GaugeCard
    columns: Columns
    at: _Where
    padded: bool

    def rows(self, rows: Sequence[TableRow]) -> list[Offered]:
        """Every row below the headings."""
        anatomy = self.given.state.anatomy
        route = [(place, point) for place in self.kind.where(anatomy) for point in self.kind.points(anatomy, place)]
        taken = Counter[str]()
        found = [Offered(row=row.where, state="passed over", why="above the values") for row in rows[: self.at.first]]
        for row in rows[self.at.first :]:
            try:
                found.append(self._row(row, route, taken))
            except Refused as refused:
                why = "; ".join(f"{p.what} {p.remedy}" for p in refused.problems)
                found.append(Offered(row=row.where, state="refused", why=why))
        return found

    def _row(self, row: TableRow, route: list[tuple[str, str]], taken: Counter[str]) -> Offered:
        if self.at.width and len(row.cells) > self.at.width:
            raise refuse(row.where, "It has {n} cells under {of} headings: does a value hold the sign that parts them?",
                         "Export it with semicolons or tabs.", n=len(row.cells), of=self.at.width)  # fmt: skip
        text = _at(row, self.at.value)
        if not text:
            return Offered(row=row.where, state="passed over", why="no value")
        place, point = self._place(row, route, taken)
        unit = self.columns.unit if self.at.unit < 0 else _at(row, self.at.unit)
        text, note = self._digits(self._sign(text, row.where), unit or self.card.unit)
        reading = Reading(measurand=self.kind.key, where=place, point=point, text=text, unit=unit or self.card.unit,
                          gauge=self.card.id)  # fmt: skip
        single = self.given.state.anatomy.layout.cylinders == 1
        words = ", ".join(w for w in (say(place, single=single), point_words(point)) if w)
        return Offered(row=row.where, state="ready", reading=reading, words=words, why=note)

    def _place(self, row: TableRow, route: list[tuple[str, str]], taken: Counter[str]) -> tuple[str, str]:
        """Where it was read: as the row says, else the next of the route."""
        if self.at.where < 0:
            taken[""] += 1
            if taken[""] > len(route):
                raise refuse(row.where, "It is value {n}; this engine has {of} places to read.",
                             "Name the column that says the place.", n=taken[""], of=len(route))  # fmt: skip
            return route[taken[""] - 1]
        said_place = _at(row, self.at.where)
        places = list(dict.fromkeys(place for place, _point in route))
        place = _known(said_place, {p: (p, say(p), say(p, single=True)) for p in places}, row.where, "place")
        points = [point for there, point in route if there == place]
        if self.at.point >= 0:
            names = {p: (p or "-", point_words(p)) for p in points}
            return place, _known(_at(row, self.at.point), names, row.where, "point")
        taken[place] += 1
        if taken[place] > len(points):
            raise refuse(row.where, "{place} has {of} points, and this is value {n}.", "Name the column that says the point.",
                         place=say(place), of=len(points), n=taken[place])  # fmt: skip
        return place, points[taken[place] - 1]

    def _sign(self, text: str, where: str) -> str:
        """The text with a point, as a comma of three digits means two things; refused where its sign is another than agreed."""
        other = {".": ",", ",": "."}.get(self.columns.decimal, "")
        if other and other in text:
            raise refuse(where, "{text} has another decimal sign than {sign}.", "Say which one this gauge writes.",
                         text=text[:40], sign=self.columns.decimal)  # fmt: skip
        return text.replace(",", ".") if self.columns.decimal == "," else text

    def _digits(self, text: str, unit: str) -> tuple[str, str]:
        """A workbook loses zeros at the end: as many digits as the gauge shows, where its card says so."""
        size = self.card.resolution
        if not self.padded or size is None or not _NUMBER.fullmatch(text) or unit not in units_of(self.kind.dimension):
            return text, ""
        step = f"{convert(size.value, INSIDE[self.kind.dimension], unit):.9f}".rstrip("0")
        places, (_whole, sign, shown) = len(step.partition(".")[2]), text.replace(",", ".").partition(".")
        if len(shown) >= places:
            return text, ""
        return text + ("" if sign else ".") + "0" * (places - len(shown)), "digits by the resolution of the gauge"


def _known(given: str, names: Mapping[str, tuple[str, ...]], where: str, what: str) -> str:
    """The key that a word of the file means: the key itself, or as it is said."""
    key = " ".join(given.casefold().split())
    found = [k for k, words in names.items() if key in {w.casefold() for w in words if w}]
    if len(found) != 1:
        raise refuse(where, "{given} is no {what} here.", "Known: {known}.", given=given[:40] or "An empty cell", what=what,
                     known=", ".join(w[0] for w in names.values())[:300])  # fmt: skip
    return found[0]


def choices(
    bench: Workbench, number: str, gauge: str = ""
) -> tuple[tuple[tuple[str, str], ...], tuple[tuple[str, str], ...]]:
    """The gauges of the shelf, and what they, or the one that was chosen, can read of this engine, each by key and name."""
    gauges = tuple((card.id, card.name) for card in bench.shelf().gauges)
    kinds = {card.kind for card in bench.shelf().gauges if gauge in ("", card.id)}
    read = measurands(bench.worked(number).given.state.anatomy).values()
    known = tuple((k.key, k.name) for k in read if k.dimension != "words" and kinds & set(k.gauges))
    return gauges, tuple(sorted(known, key=lambda one: one[1]))
