"""A reader written from docs/archive.md alone sees what Gudgeon wrote, and no byte can be another without its seeing it."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from demo.telling import all_three
from exchange.independent_reader import Broken, read, readings
from gudgeon.demo.run import JOBS
from gudgeon.job.entries import JobOpened, Note, Reading, Retraction
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.trade import export_job
from workbench.engine import BOOK, HAND, SHELF
from workbench.memory import workbench

READER = Path(__file__).with_name("independent_reader.py")


@pytest.fixture(scope="module")
def told() -> Workbench:
    return all_three()


@pytest.fixture(scope="module")
def packed() -> bytes:
    """A small job with every kind of file in it, so that every byte can be tried."""
    bench = workbench()
    bench.put_shelf(SHELF)
    bench.open_job(JobOpened(number="T-1", engine_number="µ7"), bench.add_book(BOOK), HAND)
    lash = Reading(measurand="lash", where="c1.in.left", text="0.12/0.13", unit="mm", gauge="FEEL")
    photo = bench.pictures.put(b"\xff\xd8 no picture, but bytes")
    bench.record("T-1", [lash, lash, Note(words="“seen”", photos=(photo,))], HAND)
    last = [e.typed.id for e in bench.loaded("T-1").entries if isinstance(e.typed.body, Reading)]
    bench.record(
        "T-1", [Retraction(entry=last[0], reason="wrong place"), Retraction(entry=last[1], reason="same")], HAND
    )
    undo = bench.loaded("T-1").entries[-1].typed.id
    bench.record("T-1", [Retraction(entry=undo, reason="it was right")], HAND)
    return export_job(bench, "T-1")


@pytest.mark.parametrize("number", JOBS)
def test_it_reads_every_demo_job_and_sees_the_readings_that_stand(told: Workbench, number: str) -> None:
    manifest, entries, digests = read(export_job(told, number))
    seen = told.view(number)
    assert (manifest["job"], manifest["head"], digests[-1]) == (number, seen.ledger.head, seen.ledger.digest)
    assert [e.digest for e in seen.entries] == [d[: len(e.digest)] for e, d in zip(seen.entries, digests, strict=True)]
    stand = [e.seq for e in seen.entries if e.fact == "reading" and not e.retracted]
    assert [row[0] for row in readings(entries)] == stand and stand


def test_what_was_taken_back_is_not_read_and_what_was_taken_back_again_is(packed: bytes) -> None:
    _manifest, entries, _digests = read(packed)
    assert len([e for e in entries if e["typed"]["body"]["fact"] == "reading/1"]) == 2
    assert [row[1:] for row in readings(entries)] == [("lash", "c1.in.left", "", "0.12/0.13", "mm", "FEEL")]


def test_any_byte_flipped_any_byte_lost_and_any_byte_more_is_seen(packed: bytes) -> None:
    for place in range(len(packed)):
        flipped = bytearray(packed)
        flipped[place] ^= 1 << place % 8
        with pytest.raises(Broken):
            read(bytes(flipped))
    for place in (*range(0, len(packed), 13), len(packed) - 1):
        for data in (packed[:place], packed[:place] + packed[place + 1 :], packed[:place] + b"\0" + packed[place:]):
            with pytest.raises(Broken):
                read(bytes(data))


def test_it_needs_nothing_but_the_standard_library(packed: bytes, tmp_path: Path) -> None:
    names = {a.name for node in ast.walk(ast.parse(READER.read_text(encoding="utf-8"))) if isinstance(node, ast.Import)
             for a in node.names}  # fmt: skip
    assert names <= sys.stdlib_module_names and "from" not in {
        w.split()[0] for w in READER.read_text().splitlines() if w
    }
    file = tmp_path / "job.zip"
    file.write_bytes(packed)
    said = subprocess.run(
        [sys.executable, "-I", "-S", str(READER), str(file)], capture_output=True, text=True, check=True
    )
    assert said.stdout.splitlines()[1].split("\t")[1:3] == ["lash", "c1.in.left"]


def test_the_document_names_every_field_of_the_manifest(packed: bytes) -> None:
    page = (READER.parents[2] / "docs" / "archive.md").read_text(encoding="utf-8")
    manifest, _entries, _digests = read(packed)
    assert all(f"`{field}`" in page for field in manifest) and f"`{manifest['format']}`" in page
