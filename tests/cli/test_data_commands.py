"""Data out and in from the command line: the ending says what is written, and a gauge's file lands whole or not at all."""

from __future__ import annotations

import io
import json
import zipfile
from pathlib import Path

import pytest

from gudgeon.cli.main import main
from gudgeon.job.entries import JobOpened, Reading
from gudgeon.wiring.bench import workbench
from gudgeon.workbench.bench import Workbench
from workbench.engine import BOOK, HAND, SHELF


@pytest.fixture
def bench(folder: Path) -> Workbench:
    """A real workshop with one valves job."""
    wb = workbench()
    wb.put_shelf(SHELF)
    wb.open_job(JobOpened(number="T-1", engine_number="7", machine="pump 2"), wb.add_book(BOOK), HAND)
    wb.record("T-1", (Reading(measurand="lash", where="c1.in.left", text="0.12/0.13", unit="mm", gauge="FEEL"),), HAND)
    return wb


def say(capsys: pytest.CaptureFixture[str], *words: object) -> tuple[int, str, str]:
    """Exit code, output, errors."""
    code = main([str(word) for word in words])
    seen = capsys.readouterr()
    return code, seen.out, seen.err


def test_each_ending_gives_its_file(bench: Workbench, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for ending in ("zip", "csv", "xlsx", "json"):
        assert say(capsys, "job", "export", "T-1", tmp_path / f"j.{ending}")[0] == 0
    assert "0.12/0.13" in (tmp_path / "j.csv").read_text(encoding="utf-8-sig")
    assert json.loads((tmp_path / "j.json").read_bytes())["job"]["number"] == "T-1"
    for ending, name in (("zip", "manifest.json"), ("xlsx", "xl/workbook.xml")):
        assert name in zipfile.ZipFile(io.BytesIO((tmp_path / f"j.{ending}").read_bytes())).namelist()
    say(capsys, "job", "export", "T-1", tmp_path / "v.csv", "--table", "verdicts")
    assert "in setting" in (tmp_path / "v.csv").read_text(encoding="utf-8-sig")
    code, _out, err = say(capsys, "job", "export", "T-1", tmp_path / "j.doc")
    assert code != 0 and ".xlsx" in err and not (tmp_path / "j.doc").exists()


def test_the_files_of_a_gauge_and_its_columns_the_second_time(
    bench: Workbench, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "g.csv"
    file.write_text("Place;Value\nintake left;4,482\nintake left;4,483\n", encoding="utf-8")
    words = ("job", "import-readings", "T-1", file, "--gauge", "MIC", "--measurand", "stem_diameter")
    head = bench.loaded("T-1").head
    code, _out, err = say(capsys, *words)
    assert code != 0 and "value" in err
    code, out, _err = say(capsys, *words, "--value", "Value", "--where", "Place", "--decimal", ",", "--dry-run")
    assert code == 0 and out.count("ready") == 2 and bench.loaded("T-1").head == head
    code, out, _err = say(capsys, *words, "--value", "Value", "--where", "Place", "--decimal", ",")
    assert code == 0 and "entries landed" in out
    code, out, _err = say(capsys, *words)
    assert code == 0 and out.count("ready") == 2
    file.write_text("Place;Value\nintake left;4.482\n", encoding="utf-8")
    code, out, err = say(capsys, *words)
    assert code != 0 and "another decimal sign" in err


def test_an_archive_under_another_number(bench: Workbench, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    say(capsys, "job", "export", "T-1", tmp_path / "j.zip")
    code, _out, err = say(capsys, "job", "import", tmp_path / "j.zip", "--number", "T-9")
    assert code != 0 and "This very job is here already" in err
