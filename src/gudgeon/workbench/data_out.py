"""What other programs read of a job: readings and verdicts as tables, everything as JSON.

What was typed stands beside what it means; a heading names the unit of its column, so that no cell has to.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Literal

import msgspec

from gudgeon.exchange.sheets import Cell, Sheet, csv_bytes, xlsx_bytes
from gudgeon.job.state import Taken
from gudgeon.measurands.own import measurands
from gudgeon.measurands.shape import Measurand
from gudgeon.problem import Refused, refuse
from gudgeon.units import INSIDE
from gudgeon.verdicts.value import Interpreter
from gudgeon.view.job import CharacteristicView
from gudgeon.view.record import JobRecord, ReadingView
from gudgeon.view.whole import WholeJob
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.recording import recorded
from gudgeon.workbench.trade import export_job

Row = dict[str, Cell]
#: What a file's ending means.
ENDINGS: Mapping[str, str] = {
    ".zip": "the whole job, its books and pictures, to be taken in elsewhere",
    ".csv": "its readings, or its verdicts, as one table",
    ".xlsx": "readings, verdicts and gauges as a workbook",
    ".json": "everything as JSON, by docs/job.schema.json",
}


def export(bench: Workbench, number: str, ending: str, table: Literal["readings", "verdicts"] = "readings") -> bytes:
    """A job as the file whose ending is named; refused where its ledger does not verify."""
    problems = bench.verify(number)
    if problems:
        raise Refused(problems)
    match ending.lower():
        case ".zip":
            return export_job(bench, number)
        case ".csv":
            return csv_bytes(next(s for s in tables(bench, number) if s.name.lower() == table))
        case ".xlsx":
            return xlsx_bytes(tables(bench, number), f"Job {number}")
        case ".json":
            return msgspec.json.encode(whole(bench, number))
        case _:
            known = ", ".join(ENDINGS)
            raise refuse("export", "Nothing is written as {ending}.", "Give a file's name with one of these endings: {known}.",
                         ending=ending[:20] or "a file without an ending", known=known)  # fmt: skip


def whole(bench: Workbench, number: str) -> WholeJob:
    """Everything of a job that other programs may want, and the entries it follows from."""
    record = _record(bench, number)
    fields = {name: getattr(record, name) for name in JobRecord.__struct_fields__}
    return WholeJob(**fields, landed=bench.loaded(number).entries)


def tables(bench: Workbench, number: str) -> tuple[Sheet, ...]:
    """Readings, verdicts and gauges of a job."""
    record, state = _record(bench, number), bench.worked(number).given.state
    taken = {one.entry.seq: one for one in state.readings}
    interpreter, kinds = Interpreter(state.gauges), measurands(state.anatomy)
    readings = (_reading(r, taken[r.seq], interpreter, kinds.get(r.measurand)) for r in record.record.readings)
    return (
        _sheet("Readings", readings, _READING),
        _sheet("Verdicts", (_verdict(c) for c in record.characteristics), _VERDICT),
        _sheet("Gauges", ({name: getattr(c, name) for name in _GAUGE} for c in record.record.cards), _GAUGE),
    )


def _record(bench: Workbench, number: str) -> JobRecord:
    seen = bench.view(number)
    record = recorded(bench.worked(number))
    return msgspec.structs.replace(record, papers=seen.papers)


_READING = ("entry", "at", "by", "measurand", "name", "place", "where", "part", "point", "as typed", "unit typed", "gauge",
            "temperature as typed, °C", "counts", "because")  # fmt: skip
_VERDICT = ("address", "name", "place", "verdict", "as shown", "as found, shown", "as found, verdict", "points wanted",
            "points fresh", "judged by the new range", "page", "rests on entries", "gauges", "probability of conformance",
            "because")  # fmt: skip
_NUMBERS = ("value", "±", "at least", "less than", "new from", "new to", "least", "most", "value as found")
_GAUGE = ("id", "name", "kind", "unit", "error", "source", "due", "zero")


def _sheet(name: str, found: Iterable[Row], first: tuple[str, ...]) -> Sheet:
    """The rows under their headings: those that always stand, then those in which anything stands, unit by unit."""
    rows = list(found)
    more = dict.fromkeys(key for row in rows for key, cell in row.items() if key not in first and cell is not None)
    units = list(dict.fromkeys(key.rpartition(", ")[2] for key in more))
    head = (*first, *(key for unit in units for name in _NUMBERS if (key := f"{name}, {unit}") in more))
    return Sheet(name=name, head=head, rows=tuple(tuple(row.get(key) for key in head) for row in rows))


def _reading(seen: ReadingView, taken: Taken, interpreter: Interpreter, kind: Measurand | None) -> Row:
    """A reading as typed, and the number it means in the unit that everything is computed in."""
    row: Row = {
        "entry": seen.seq,
        "at": seen.at,
        "by": seen.by,
        "measurand": seen.measurand,
        "name": seen.name,
        "place": seen.place,
        "where": seen.where,
        "part": seen.part,
        "point": seen.point,
        "as typed": seen.text,
        "unit typed": seen.unit,
        "gauge": seen.gauge,
        "temperature as typed, °C": seen.temperature,
        "counts": seen.counts,
        "because": "; ".join(dict.fromkeys(seen.reasons)),
    }
    value = interpreter.value(taken, kind) if kind else None
    if kind is None or value is None or kind.dimension == "words":
        return row
    unit = INSIDE[kind.dimension]
    return row | {
        f"value, {unit}": value.sized.value if value.sized else None,
        f"±, {unit}": _doubt(value.sized.u) if value.sized else None,
        f"at least, {unit}": value.above,
        f"less than, {unit}": value.below,
    }


def _verdict(c: CharacteristicView) -> Row:
    found, unit = c.as_found, c.unit or "no unit"
    new_low, new_high = c.new or (None, None)
    return {
        "address": c.address,
        "name": c.name,
        "place": c.place,
        "verdict": c.verdict,
        "as shown": c.said,
        "as found, shown": found.said if found else None,
        "as found, verdict": found.verdict if found else None,
        "points wanted": c.points.wanted,
        "points fresh": c.points.fresh,
        "judged by the new range": "yes" if c.judged_new else "no",
        "page": c.page,
        "rests on entries": " ".join(map(str, c.rests_on)),
        "gauges": " ".join(c.gauges),
        "probability of conformance": c.probability,
        "because": "; ".join(dict.fromkeys((*(r.words for r in c.reasons), *c.notes))),
        f"value, {unit}": c.value,
        f"±, {unit}": _doubt(c.u),
        f"new from, {unit}": new_low,
        f"new to, {unit}": new_high,
        f"least, {unit}": c.low,
        f"most, {unit}": c.high,
        f"value as found, {unit}": found.value if found else None,
    }


def _doubt(u: float | None) -> float | None:
    """The ± that stands on screens and papers, to as many digits as mean anything."""
    return None if u is None else float(f"{2 * u:.3g}")
