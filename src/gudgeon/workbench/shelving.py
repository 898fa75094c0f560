"""The shelf and the rules, changed cell by cell: what is wrong is said at its cell, and nothing is half written."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from hashlib import sha256

from gudgeon.job.entries import GaugePinned, RulesPinned
from gudgeon.problem import Problem, Refused, refuse
from gudgeon.shelf.gauges import GAUGE_KINDS, GaugeCard, flat
from gudgeon.shelf.parse import TABLES, Shelf
from gudgeon.shelf.rules import Rules
from gudgeon.shelf.typed import Typed, by_field
from gudgeon.shelf.write import usual_text, with_row, with_rules, without_row
from gudgeon.units import units_of
from gudgeon.workbench.bench import Hand, Workbench

Cells = Mapping[str, str]
#: The tables that are edited as grids, by the name that their rows have in the file.
GRIDS: Mapping[str, str] = {
    "wrench": "wrenches",
    "shim": "shims",
    "leftover": "leftovers",
    "price": "prices",
    "work": "works",
}
#: The unit that a bare number in a grid's column means.
_UNITS = {("wrench", "low"): "N·m", ("wrench", "high"): "N·m", ("wrench", "error"): "%", ("work", "hours"): "h",
          ("shim", "size"): "mm", ("shim", "measured"): "mm", ("shim", "diameter"): "mm"}  # fmt: skip
_RULE_UNITS = {"leak_down_most": "%", "overrun": "%", "tax_rate": "%", "seal_test_time": "min", "squish_least": "mm",
               "valve_to_piston_in": "mm", "valve_to_piston_ex": "mm"}  # fmt: skip
_SIZES = ("low", "high", "resolution", "permissible_error", "certificate_u", "repeatability", "master", "master_u")
_STUDY = ("repeat_nu", "repeat_by", "repeat_on")
_BARE = re.compile(r"[+\-−]?[\d.,]*\d[\d.,]*")
#: Where a form says what several of its cells contradict, by how the sentence begins.
_AT = {"The range": "high", "Both a cert": "certificate_u", "Nothing says": "permissible_error", "It shows a": "master",
       "A dial": "direction", "A coverage": "k", "The scale": "high", "An error": "error"}  # fmt: skip


class WrongCells(Refused):
    """A form that was refused: `fields` says at which cell what is wrong."""

    def __init__(self, fields: Mapping[str, Problem]) -> None:
        super().__init__(fields.values())
        self.fields = dict(fields)


def shelf_text(bench: Workbench) -> str:
    """The shelf as text; a new workshop's is the six usual gauges."""
    kept = bench.library.shelf()
    return kept if kept.strip() else usual_text()


def seen(bench: Workbench) -> str:
    """By what a form knows that the shelf is still the one it was filled from."""
    return sha256(shelf_text(bench).encode()).hexdigest()[:16]


def gauge_cells(bench: Workbench, gauge: str) -> dict[str, str]:
    """A gauge's card as the cells of its form."""
    return _plain(_gauge(bench.shelf(), gauge))


def kinds() -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The kinds of gauges with the units that each may read in; looking needs no card."""
    return tuple((kind, units_of(dimension)) for kind, dimension in GAUGE_KINDS.items() if kind != "eye")


def put_gauge(bench: Workbench, cells: Cells, *, known: str = "", shown: str = "") -> str:
    """Keep a gauge's card, a new one where `known` is empty; its id. A repeatability typed by hand ends its study."""
    shelf = bench.shelf()
    _still(bench, shown)
    row = {k: v.strip() for k, v in cells.items() if k in GaugeCard.model_fields}
    if known:
        old = _plain(_gauge(shelf, known))
        row["id"] = known
        if row.get("repeatability", old.get("repeatability", "")) != old.get("repeatability", ""):
            row |= dict.fromkeys(_STUDY, "")
        whole = old | row
    else:
        whole = row
    unit = whole.get("unit", "")
    row = {k: _with_unit(v, unit) if k in _SIZES else v for k, v in row.items()}
    whole = whole | row
    wrong = _wrong(GaugeCard, whole, f"gauge {whole.get('id', '')}".strip())
    if not known and shelf.gauge(whole.get("id", "")) is not None:
        problem = refuse("gauge", "{id} is on the shelf already.", "Give it another id.", id=whole["id"]).problems[0]
        wrong.setdefault("id", problem)
    if wrong:
        raise WrongCells(wrong)
    index = next((n for n, g in enumerate(shelf.gauges) if g.id == known), None)
    bench.put_shelf(with_row(shelf_text(bench), "gauge", row, index))
    return whole["id"]


def drop_gauge(bench: Workbench, gauge: str, *, shown: str = "") -> None:
    """Take a gauge off the shelf; jobs that read with it keep its card."""
    _still(bench, shown)
    found = _gauge(bench.shelf(), gauge)
    bench.put_shelf(without_row(shelf_text(bench), "gauge", bench.shelf().gauges.index(found)))


def grid(bench: Workbench, table: str) -> tuple[dict[str, str], ...]:
    """The rows of a table as cells."""
    return tuple(_plain(row) for row in _rows(bench.shelf(), table))


def put_grid(bench: Workbench, table: str, rows: Sequence[Cells], *, shown: str = "") -> None:
    """Keep a whole table: rows that are there by their place, further ones added, emptied ones taken out."""
    _still(bench, shown)
    model, old = TABLES[table], grid(bench, table)
    keys = tuple(model.model_fields)
    typed = [{k: _with_unit(row.get(k, "").strip(), _UNITS.get((table, k), "")) for k in keys} for row in rows]
    wrong: dict[str, Problem] = {}
    for n, row in enumerate(typed):
        if any(row.values()):
            found = _wrong(model, row, f"{table} {n + 1}")
            wrong |= {f"{key}-{n}": problem for key, problem in found.items()}
            if table == "wrench" and row["id"] in [r["id"] for r in typed[:n]]:
                problem = refuse("wrench", "{id} is there twice.", "Give it another id.", id=row["id"]).problems[0]
                wrong.setdefault(f"id-{n}", problem)
    if wrong:
        raise WrongCells(wrong)
    text = shelf_text(bench)
    for row in typed[len(old) :]:
        text = with_row(text, table, row) if any(row.values()) else text
    for n in range(min(len(old), len(typed)) - 1, -1, -1):
        if not any(typed[n].values()):
            text = without_row(text, table, n)
        elif {k: v for k, v in typed[n].items() if v} != old[n]:
            text = with_row(text, table, typed[n], n)
    bench.put_shelf(text)


def rule_cells(bench: Workbench) -> dict[str, str]:
    """The rules as the cells of their form."""
    return _rule_text(bench.shelf().rules)


def usual_rules() -> dict[str, tuple[str, str]]:
    """The default of every rule, and where it comes from."""
    return {name: (value, Rules.source_of(name)) for name, value in _rule_text(Rules()).items()}


def put_rules(bench: Workbench, cells: Cells, *, shown: str = "") -> None:
    """Keep the rules; an empty cell goes back to its default. Jobs that run keep theirs."""
    _still(bench, shown)
    usual = _rule_text(Rules())
    typed = {k: cells[k].replace("\r\n", "\n").strip() for k in usual if k in cells}
    row = {k: "" if v == usual[k] else _with_unit(v, _RULE_UNITS.get(k, "")) for k, v in typed.items()}
    if "risk" in row:
        row["risk"] = _share(row["risk"])
    wrong = _wrong(Rules, row, "rules")
    if wrong:
        raise WrongCells(wrong)
    bench.put_shelf(with_rules(shelf_text(bench), row))


def pin_rules(bench: Workbench, number: str, hand: Hand) -> None:
    """Let a running job go by today's rules, by an entry of its own."""
    bench.record(number, (RulesPinned(rules=bench.shelf().rules.pinned()),), hand)


def pin_gauge(bench: Workbench, number: str, gauge: str, hand: Hand) -> None:
    """Let a running job read a gauge by today's card, by an entry of its own."""
    card = _gauge(bench.shelf(), gauge)
    bench.record(number, (GaugePinned(gauge=card.id, card=card.pinned()),), hand)


def _still(bench: Workbench, shown: str) -> None:
    if shown and shown != seen(bench):
        raise refuse("shelf", "It was changed elsewhere since this page was opened.",
                     "What you typed still stands here; look at what is new, then save again.")  # fmt: skip


def _gauge(shelf: Shelf, gauge: str) -> GaugeCard:
    found = next((g for g in shelf.gauges if g.id == gauge), None)
    if found is None:
        raise refuse("shelf", "It has no gauge {gauge}.", "Look at the list of gauges.", gauge=gauge)
    return found


def _rows(shelf: Shelf, table: str) -> Iterable[Typed]:
    rows: tuple[Typed, ...] = getattr(shelf, GRIDS[table])
    return rows


def _plain(row: Typed) -> dict[str, str]:
    """A row as cells, with the defaults that a person should see."""
    shown = {k: str(v) for k in ("count", "state") if (v := getattr(row, k, "")) != ""}
    return {**shown, **flat(row)}


def _with_unit(text: str, unit: str) -> str:
    return f"{text} {unit}" if unit and _BARE.fullmatch(text) else text


def _share(text: str) -> str:
    """A risk typed as 5 % is 0.05."""
    number = text.removesuffix("%").strip().replace(",", ".")
    try:
        return f"{float(number) / 100.0:.6g}" if text.endswith("%") else text
    except ValueError:
        return text


def _rule_text(rules: Rules) -> dict[str, str]:
    return rules.pinned() | {"risk": f"{100.0 * rules.risk:.6g} %"}


def _wrong(model: type[Typed], cells: Cells, name: str) -> dict[str, Problem]:
    found = by_field(model, {k: v for k, v in cells.items() if v}, name)
    if "" in found:
        problem = found.pop("")
        first = next((key for begin, key in _AT.items() if problem.what.template.startswith(begin)), "")
        found.setdefault(first, problem)
    return found
