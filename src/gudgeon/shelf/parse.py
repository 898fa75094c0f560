"""The shelf from its TOML: read whole, with every problem and its line at once, or not at all."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from typing import Any, TypeVar

from gudgeon.lines import Path, key_lines, line_of
from gudgeon.problem import Problem, Refused, said
from gudgeon.shelf.columns import Columns
from gudgeon.shelf.defaults import EYE, USUAL_GAUGES
from gudgeon.shelf.gauges import GaugeCard
from gudgeon.shelf.rules import Rules
from gudgeon.shelf.stock import Leftover, Price, ShimStock, Work
from gudgeon.shelf.typed import Typed, check, nearest, sentence_list
from gudgeon.shelf.wrenches import Wrench
from gudgeon.units import Quantity

_Row = TypeVar("_Row", bound=Typed)
TABLES: Mapping[str, type[Typed]] = {
    "gauge": GaugeCard,
    "wrench": Wrench,
    "shim": ShimStock,
    "leftover": Leftover,
    "price": Price,
    "work": Work,
    "columns": Columns,
}
_KEYS = (*TABLES, "rules")


class Shelf(Typed):
    """What the workshop owns: gauges, wrenches, shims, leftover parts, its own prices, and its rules."""

    gauges: tuple[GaugeCard, ...] = ()
    wrenches: tuple[Wrench, ...] = ()
    shims: tuple[ShimStock, ...] = ()
    leftovers: tuple[Leftover, ...] = ()
    prices: tuple[Price, ...] = ()
    works: tuple[Work, ...] = ()
    columns: tuple[Columns, ...] = ()
    rules: Rules = Rules()

    def gauge(self, id: str) -> GaugeCard | None:
        """The gauge of this id; looking is always there."""
        return next((g for g in (*self.gauges, EYE) if g.id == id), None)

    def of_kind(self, kind: str) -> tuple[GaugeCard, ...]:
        """Every gauge of a kind."""
        return tuple(g for g in (*self.gauges, EYE) if g.kind == kind)

    def wrench(self, id: str) -> Wrench | None:
        """The wrench of this id."""
        return next((w for w in self.wrenches if w.id == id), None)

    def wrench_for(self, torque_nm: float) -> Wrench | None:
        """The wrench that is proved at a torque: of several the one whose scale ends lowest."""
        able = [w for w in self.wrenches if w.covers(torque_nm)]
        return min(able, key=lambda w: w.high.exact) if able else None

    def price(self, number: str) -> Quantity | None:
        """What the workshop pays for a part number."""
        return next((p.price for p in self.prices if p.number == number), None)

    def work(self, of: str) -> Work | None:
        """What an operation or a scope costs."""
        return next((w for w in self.works if w.of == of), None)


def usual_shelf() -> Shelf:
    """A new workshop's shelf: the six usual gauges, nothing in the drawers."""
    return Shelf(gauges=USUAL_GAUGES)


def parse_shelf(text: str, name: str = "shelf.toml") -> Shelf:
    """The shelf that a TOML text describes; `Refused` with all problems at once."""
    text = text.removeprefix("\ufeff")
    raw, problems = toml(text, name)
    lines = key_lines(text)
    rows: dict[str, tuple[Any, ...]] = {}
    for key, model in TABLES.items():
        rows[key], found = table_rows(model, raw.get(key, []), key=key, lines=lines, name=name)
        problems += found
    rules, found = check(Rules, raw.get("rules", {}), path=("rules",), lines=lines, name=name)
    problems += (*found, *_unknown(raw, lines, name), *_twice(raw, lines, name))
    if problems or rules is None:
        raise Refused(by_line(problems))
    return Shelf(
        gauges=rows["gauge"],
        wrenches=rows["wrench"],
        shims=rows["shim"],
        leftovers=rows["leftover"],
        prices=rows["price"],
        works=rows["work"],
        columns=rows["columns"],
        rules=rules,
    )


def by_line(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Problems in the order of their lines: ``file:12`` after ``file:3``."""
    return tuple(sorted(problems, key=lambda p: int("0" + p.where.rpartition(":")[2])))


def toml(text: str, name: str) -> tuple[dict[str, Any], tuple[Problem, ...]]:
    """The tables of a TOML text, or the one problem that stopped the reader."""
    try:
        return tomllib.loads(text), ()
    except tomllib.TOMLDecodeError as error:
        words, _, place = str(error).partition(" (at ")
        line = next((n.strip(",)") for n in place.split() if n.strip(",)").isdigit()), "1")
        if "end of document" in place:
            line = str(text.count("\n") + 1)
        return {}, (
            Problem(
                where=f"{name}:{line}",
                what=said("The file cannot be read here: {words}.", words=words.rstrip(".")),
                remedy=said("Look at quotes, brackets, and names written twice."),
            ),
        )


def table_rows(
    model: type[_Row], raw: object, *, key: str, lines: Mapping[Path, int], name: str
) -> tuple[tuple[_Row, ...], tuple[Problem, ...]]:
    """Every row of a table that fits its model, and the problems of those that do not."""
    if not isinstance(raw, list):
        what = said("{key} must be written as rows.", key=key)
        where = f"{name}:{line_of(lines, (key,))}"
        return (), (Problem(where=where, what=what, remedy=said("Write [[{key}]] above each.", key=key)),)
    good: list[_Row] = []
    problems: list[Problem] = []
    for index, row in enumerate(raw):
        found, wrong = check(model, row, path=(key, index), lines=lines, name=name)
        problems += wrong
        good += [found] if found is not None else []
    return tuple(good), tuple(problems)


def _unknown(raw: Mapping[str, Any], lines: Mapping[Path, int], name: str) -> tuple[Problem, ...]:
    return tuple(
        Problem(
            where=f"{name}:{line_of(lines, (key,))}",
            what=said("{key} is not known here.", key=key),
            remedy=said(
                "Did you mean {meant}?" if nearest(key, _KEYS) else "Use one of: {known}.",
                meant=nearest(key, _KEYS),
                known=sentence_list(_KEYS),
            ),
        )
        for key in raw
        if key not in _KEYS
    )


def _twice(raw: Mapping[str, Any], lines: Mapping[Path, int], name: str) -> tuple[Problem, ...]:
    """Two gauges or wrenches of one id could not be told apart in a reading."""
    problems: list[Problem] = []
    seen: dict[object, int] = {}
    for key in ("gauge", "wrench"):
        for index, row in enumerate(raw.get(key, []) if isinstance(raw.get(key), list) else []):
            id = row.get("id") if isinstance(row, dict) else None
            line = line_of(lines, (key, index, "id"))
            if isinstance(id, str) and id in seen:
                what = said("{id} is already the id in line {first}.", id=id, first=seen[id])
                problems.append(Problem(where=f"{name}:{line}", what=what, remedy=said("Give it another id.")))
            seen.setdefault(id, line)
    return tuple(problems)
