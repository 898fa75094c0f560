"""What other programs read of a job: the demo's jobs by the published schema and an independent validator, and hard jobs."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import jsonschema
import pytest
from openpyxl import load_workbook

from demo.telling import all_three
from gudgeon.demo.run import JOBS
from gudgeon.job.entries import JobOpened, Note, Reading
from gudgeon.problem import Refused
from gudgeon.view.whole import schema
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.data_out import ENDINGS, export, tables
from gudgeon.workbench.trade import record_csv
from workbench.engine import BOOK, HAND, SHELF
from workbench.memory import workbench

ROOT = Path(__file__).resolve().parents[2]
EVIL = '=1+1;@x "\t<b>\u202eabc🔧'


@pytest.fixture(scope="module")
def told() -> Workbench:
    return all_three()


def small() -> Workbench:
    bench = workbench()
    bench.put_shelf(SHELF)
    bench.open_job(JobOpened(number="T-1", engine_number=EVIL, machine=EVIL), bench.add_book(BOOK), HAND)
    return bench


def rows(bench: Workbench, number: str, table: str = "readings") -> list[dict[str, str]]:
    data = export(bench, number, ".csv", table)  # type: ignore[arg-type]
    return list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"), newline="")))


def test_the_published_schema_is_that_of_the_structs() -> None:
    kept = (ROOT / "docs" / "job.schema.json").read_text(encoding="utf-8")
    assert kept == json.dumps(schema(), indent=1, ensure_ascii=False) + "\n", "run: python tools/make_schema.py"
    jsonschema.Draft202012Validator.check_schema(json.loads(kept))


@pytest.mark.parametrize("number", JOBS)
def test_every_demo_job_is_valid_by_the_schema_and_a_broken_one_is_not(told: Workbench, number: str) -> None:
    job = json.loads(export(told, number, ".json"))
    validator = jsonschema.Draft202012Validator(
        json.loads((ROOT / "docs" / "job.schema.json").read_text(encoding="utf-8"))
    )
    assert list(validator.iter_errors(job)) == []
    assert len(job["landed"]) == job["ledger"]["head"] and job["job"]["number"] == number
    for broken in (
        job | {"ledger": job["ledger"] | {"head": "12"}},
        {key: value for key, value in job.items() if key != "characteristics"},
        job | {"landed": [*job["landed"][:-1], job["landed"][-1] | {"seq": "last"}]},
    ):
        assert list(validator.iter_errors(broken))


def test_every_reading_and_verdict_stands_in_csv_and_workbook_alike(told: Workbench) -> None:
    book = load_workbook(io.BytesIO(export(told, JOBS[0], ".xlsx")))
    for sheet in tables(told, JOBS[0])[:2]:
        read = rows(told, JOBS[0], sheet.name.lower())
        cells = list(book[sheet.name].iter_rows(values_only=True))
        assert tuple(cells[0]) == sheet.head == tuple(read[0]) and len(cells) == len(sheet.rows) + 1 == len(read) + 1
        for line, row in zip(read, cells[1:], strict=True):
            for key, cell in zip(sheet.head, row, strict=True):
                assert line[key].removeprefix("'") == ("" if cell is None else str(cell).removeprefix("'")) or float(
                    line[key]
                ) == pytest.approx(float(cell or 0))


def test_a_deviation_stands_as_typed_beside_the_size_it_means(told: Workbench) -> None:
    row = next(r for r in rows(told, JOBS[0]) if r["as typed"] == "+26")
    assert (row["value, mm"], row["unit typed"], row["measurand"]) == ("88.026", "µm", "bore_diameter")
    assert float(row["±, mm"]) > 0 and row["at"].startswith("2026-")


def test_a_job_without_a_reading_and_one_with_two_thousand() -> None:
    bench = small()
    assert rows(bench, "T-1") == [] and len(rows(bench, "T-1", "verdicts")) > 0
    assert load_workbook(io.BytesIO(export(bench, "T-1", ".xlsx"))).sheetnames == ["Readings", "Verdicts", "Gauges"]
    text = "measurand,where,text,unit,gauge\n" + "lash,c1.in.left,0.12/0.13,mm,FEEL\n" * 2_000
    record_csv(bench, "T-1", text, HAND)
    assert len(rows(bench, "T-1")) == 2_000
    assert load_workbook(io.BytesIO(export(bench, "T-1", ".xlsx")))["Readings"].max_row == 2_001
    assert len(json.loads(export(bench, "T-1", ".json"))["record"]["readings"]) == 2_000


def test_hostile_words_stay_words_everywhere() -> None:
    bench = small()
    bench.record("T-1", [Note(words=EVIL), Reading(measurand="lash", where="c1.in.left", text="0.12/0.13", unit="mm",
                                                   gauge="FEEL")], HAND)  # fmt: skip
    for ending in ENDINGS:
        assert export(bench, "T-1", ending)
    assert json.loads(export(bench, "T-1", ".json"))["job"]["machine"] == EVIL


@pytest.mark.parametrize("ending", ["", ".pdf", ".XLS", "zip", "." + "x" * 900])
def test_another_ending_is_refused_with_those_that_are_known(ending: str) -> None:
    with pytest.raises(Refused, match=r"\.zip, \.csv, \.xlsx, \.json"):
        export(small(), "T-1", ending)


def test_a_ledger_that_does_not_verify_gives_no_data() -> None:
    bench = small()
    held = vars(bench.ledgers)["rows_of"]["T-1"]
    held[2] = type(held[2])(seq=3, line=held[2].line.replace("rules", "Rules"), digest=held[2].digest)
    for ending in ENDINGS:
        with pytest.raises(Refused, match="changed after it landed"):
            export(bench, "T-1", ending)
