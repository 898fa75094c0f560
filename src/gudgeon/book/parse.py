"""A book from its TOML: every row that can be read, and every problem of those that cannot, each with its line."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any, TypeVar

from pydantic import Field

from gudgeon.anatomy import Anatomy, Joint, Layout, expand
from gudgeon.book.book import Book, Rows
from gudgeon.book.engine import Aims, CamEvent, Caution, Geometry, Materials, Seat, ShimSystem, Spring
from gudgeon.book.fasteners import FastenerRow
from gudgeon.book.layout import LayoutTyped
from gudgeon.book.limits import LimitRow
from gudgeon.book.own import OwnCheckRow, OwnMeasureRow, OwnPartRow, OwnStepRow, key_of
from gudgeon.book.owning import Owning, alike
from gudgeon.book.parts import PartRow
from gudgeon.lines import Path, key_lines, line_of
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.operations.catalogue import OPERATIONS
from gudgeon.problem import Problem, Refused, said
from gudgeon.shelf.parse import by_line, table_rows, toml
from gudgeon.shelf.typed import Row, check, nearest, sentence_list

_Row = TypeVar("_Row", bound=Row)


class Title(Row):
    """The head of a book's text."""

    name: str = Field(min_length=1)
    edition: str = "1"
    note: str = ""


ROWS: Mapping[str, tuple[str, type[Row]]] = {
    "cam": ("cam_events", CamEvent),
    "seat": ("seats", Seat),
    "spring": ("springs", Spring),
    "shims": ("shim_systems", ShimSystem),
    "limit": ("limits", LimitRow),
    "fastener": ("fasteners", FastenerRow),
    "part": ("parts", PartRow),
    "caution": ("cautions", Caution),
    "own_part": ("own_parts", OwnPartRow),
    "own_measure": ("own_measures", OwnMeasureRow),
    "own_step": ("own_steps", OwnStepRow),
    "own_check": ("own_checks", OwnCheckRow),
}
TABLES: Mapping[str, tuple[str, type[Row]]] = {
    "geometry": ("geometry", Geometry),
    "aim": ("aims", Aims),
    "materials": ("materials", Materials),
}
KEYS = ("book", "layout", *TABLES, *ROWS)


def parse_book(text: str, name: str = "book") -> Book:
    """The book that a TOML text describes; `Refused` with all its problems at once."""
    rows, problems = read_rows(text, name)
    if problems:
        raise Refused(problems)
    return Book.model_validate(dict(rows))


def read_rows(text: str, name: str = "book") -> tuple[Rows, tuple[Problem, ...]]:
    """What could be read of a book, and every problem in the order of the lines."""
    bare = text.removeprefix("\ufeff")
    raw, problems = toml(bare, name)
    if problems:
        return Rows(text=text), problems
    reading = _Reading(raw, key_lines(bare), name)
    return reading.rows(text), by_line(reading.problems)


class _Reading:
    """One pass over the tables, gathering problems on the way."""

    def __init__(self, raw: dict[str, Any], lines: Mapping[Path, int], name: str) -> None:
        self.raw, self.lines, self.name = raw, lines, name
        self.problems: list[Problem] = []

    def rows(self, text: str) -> Rows:
        self._unknown_tables()
        title = self._table(Title, "book")
        layout = self._table(LayoutTyped, "layout")
        found: dict[str, Any] = {}
        for key, (field, model) in TABLES.items():
            if key in self.raw:
                table = self._table(model, key)
                found |= {field: table} if table is not None else {}
        for key, (field, row_model) in ROWS.items():
            found[field], wrong = table_rows(
                row_model, self.raw.get(key, []), key=key, lines=self.lines, name=self.name
            )
            self.problems += wrong
        if layout is not None:
            owning = self._owning(layout.layout(), found)
            anatomy = expand(owning.whole)
            found |= {"layout": owning.whole, "parts": (*self._with_slots(found["parts"], anatomy), *owning.parts)}
            found["limits"] = (*found["limits"], *owning.limits)
            self._places(found["limits"], anatomy)
            self._joints(found["fasteners"], anatomy)
        self._cautions(found["cautions"], {key_of(row.name) for row in (*found["own_measures"], *found["own_steps"])})
        self._all_once(found)
        head = {"name": title.name, "edition": title.edition, "note": title.note} if title else {}
        return Rows.model_validate({**head, **found, "text": text})

    def _owning(self, layout: Layout, found: Mapping[str, Any]) -> Owning:
        """What the workshop adds to the layout."""

        def say(row: Row, what: str, remedy: str, **values: str | int) -> None:
            self._say(row.line, what, remedy, **values)

        return Owning(layout=layout, say=say, part_rows=found["own_parts"], measure_rows=found["own_measures"],
                      step_rows=found["own_steps"], check_rows=found["own_checks"])  # fmt: skip

    def _table(self, model: type[_Row] | type[LayoutTyped], key: str) -> Any:
        found, wrong = check(model, self.raw.get(key, {}), path=(key,), lines=self.lines, name=self.name)
        if key not in self.raw:
            self._say(1, "There is no [{key}].", "Write [{key}] and its keys below.", key=key)
        else:
            self.problems += wrong
        return found

    def _say(self, line: int, what: str, remedy: str, **values: str | int) -> None:
        where = f"{self.name}:{line}"
        self.problems.append(Problem(where=where, what=said(what, **values), remedy=said(remedy, **values)))

    def _unknown_tables(self) -> None:
        for key in self.raw:
            if key not in KEYS:
                meant = nearest(key, KEYS)
                remedy = "Did you mean {meant}?" if meant else "Use one of: {known}."
                self._say(line_of(self.lines, (key,)), "{key} is not known here.", remedy, key=key, meant=meant,
                          known=sentence_list(KEYS))  # fmt: skip

    def _with_slots(self, parts: Iterable[PartRow], anatomy: Anatomy) -> tuple[PartRow, ...]:
        """The parts with their slots spelled out."""
        out: list[PartRow] = []
        every = "\n".join(anatomy.slots)
        for part in parts:
            slots: list[str] = []
            for wanted in part.slots:
                hits = alike(wanted, every)
                if not hits:
                    meant = nearest(wanted, anatomy.slots)
                    self._say(part.line, "{part}: the engine has no slot {slot}.",
                              "Did you mean {meant}?" if meant else "Look at the layout.",
                              part=part.number, slot=wanted, meant=meant)  # fmt: skip
                slots += hits
            whole = part.model_copy(update={"slots": tuple(dict.fromkeys(slots))})
            whole._line = part.line
            out.append(whole)
        return tuple(out)

    def _places(self, limits: Iterable[LimitRow], anatomy: Anatomy) -> None:
        known = {"", *anatomy.places, *(piece for place in anatomy.places for piece in place.split(".")[1:])}
        for row in limits:
            if row.side not in known:
                words = sorted(word for word in known if word and "." not in word)
                self._say(row.line, "{of}: the engine has no {side}.", "Use one of: {known}, or a whole place.",
                          of=row.of, side=row.side, known=sentence_list(words))  # fmt: skip

    def _joints(self, fasteners: Iterable[FastenerRow], anatomy: Anatomy) -> None:
        known = joints(anatomy)
        names = sorted({joint.name for joint in known})
        for row in fasteners:
            if row.joint and row.joint not in names:
                self._say(row.line, "{name}: the engine has no joint {joint}.", "Use one of: {known}, or leave it out.",
                          name=row.name, joint=row.joint, known=sentence_list(names))  # fmt: skip
            elif row.place and not any(j.place == row.place and j.name == row.joint for j in known):
                self._say(row.line, "{name}: there is no joint {joint} at {place}.", "Name the place, or leave it out.",
                          name=row.name, joint=row.joint or "of any name", place=row.place)  # fmt: skip

    def _cautions(self, cautions: Iterable[Caution], own: Iterable[str]) -> None:
        known = (*OPERATIONS, *MEASURANDS, *own)
        for row in cautions:
            if row.at not in known:
                meant = nearest(row.at, known)
                self._say(row.line, "There is no operation or measurand {at}.",
                          "Did you mean {meant}?" if meant else "Use one of: {known}.",
                          at=row.at, meant=meant, known=sentence_list(known))  # fmt: skip

    def _all_once(self, found: Mapping[str, Any]) -> None:
        """Nothing that must be told apart stands twice."""
        self._once(found["limits"], lambda row: f"{row.address} {row.method}".strip(), "limit")
        self._once(found["parts"], lambda row: row.number, "part number")
        self._once(found["fasteners"], lambda row: f"{row.name} {row.place}".strip(), "fastener")
        for field in ("cam_events", "seats", "springs", "shim_systems"):
            self._once(found[field], lambda row: row.side or "of both sides", field.replace("_", " ").removesuffix("s"))
        slots: dict[str, PartRow] = {}
        for part in found["parts"]:
            for slot in part.slots:
                first = slots.setdefault(slot, part)
                if first is not part and not _may_share(first, part):
                    self._say(part.line, "{slot} already holds {first} (line {before}).",
                              "Name the engine numbers, thickness or kit that tells them apart.",
                              slot=slot, first=first.number, before=first.line)  # fmt: skip
                    break

    def _once(self, rows: Iterable[_Row], name: Callable[[Any], str], kind: str) -> None:
        seen: dict[str, int] = {}
        for row in rows:
            key = name(row)
            if key in seen:
                self._say(row.line, "The {kind} {key} stands already in line {first}.",
                          "Keep one, or name what tells them apart.", kind=kind, key=key, first=seen[key])  # fmt: skip
            seen.setdefault(key, row.line)


def _may_share(first: PartRow, part: PartRow) -> bool:
    """Two numbers for one slot need something that tells which belongs here."""
    by_engine = bool(first.engine_numbers and part.engine_numbers)
    by_thickness = first.thickness is not None and part.thickness is not None
    by_kit = first.number == part.kit or part.number == first.kit or bool(first.look_alike or part.look_alike)
    return by_engine or by_thickness or by_kit


#: Joints that are held by something with a thread.
FASTENED = ("head", "base", "holder", "cover", "sprocket", "tensioner", "plug", "follower shaft", "adjuster")


def joints(anatomy: Anatomy) -> frozenset[Joint]:
    """Every joint of the engine that a fastener may belong to."""
    screwed = (v for v in anatomy.valves if anatomy.layout.side(v).follower in ("rocker_screw", "pushrod_screw"))
    held = [joint for slot in anatomy.slots.values() for joint in slot.joints if joint.name in FASTENED]
    return frozenset((*held, *(Joint(place=valve, name="adjuster") for valve in screwed)))
