"""A paper against Typst alone on the same template and data: cold in a process of its own, warm, and in memory."""

from __future__ import annotations

import json
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from gudgeon.figures.strip import StripSpec, limit_strip
from gudgeon.papers import evidence
from gudgeon.papers.blocks import Block, Figure, Heading, KeyValues, PageBreak, Para, Table, TitleBlock
from gudgeon.papers.pdf import pdf
from gudgeon.view.record import ReadingView

Row = tuple[str, float, float | None]
ROUNDS, COLD_ROUNDS, READINGS, SERIES, JUDGED = 7, 5, 600, 24, 36
SHEET_PAGES, RECORD_PAGES = 3, 12


def sheet() -> tuple[Block, ...]:
    """Three pages as a job has them: facts, a page of limit strips, a page of figures in a table."""
    title = TitleBlock(paper="Record", engine="Invented 100", job="B-1", ledger="entry 1", date="2026-01-02")
    strips = tuple((f"size {n}", _strip(n), _strip(n + 3)) for n in range(7))
    rows = tuple(
        (f"size {n}", "intake", f"{5 + n / 1000:.3f}", "5.012", "≤ 5.070 mm", "serviceable", "1–6") for n in range(46)
    )
    facts = KeyValues(tuple((f"fact {n}", "words " * 12) for n in range(12)))
    return (
        title, facts, Para("words " * 200), PageBreak(), Heading("Strips"),
        Table(head=("what", "as found", "now"), rows=strips), PageBreak(),
        Heading("Sizes"), Table(head=("what", "where", "found", "now", "limit", "word", "entries"), rows=rows, dense=True),
    )  # fmt: skip


def _strip(n: int) -> Figure:
    return Figure(svg=limit_strip(StripSpec(value=5 + n / 100, new_low=5, high=5.2, width=330)), alt=f"size {n}")


def record() -> tuple[Block, ...]:
    """A technical record of twelve pages: readings, each a line of its own, and what was judged from them."""
    found = [
        ReadingView(
            seq=n, at="2026-01-02T10:00:00Z", by="k1", measurand="stem", name="stem diameter", place="c1", part="", where="intake",
            point="top, along the pin", text=f"4.{900 + n % 99}", unit="mm", gauge=f"MIC-{n // SERIES}", temperature="", confirmed=(),
            counts="fresh", reasons=(),
        )
        for n in range(READINGS)
    ]  # fmt: skip
    title = TitleBlock(paper="Technical record", engine="Invented 100", job="B-1", ledger="entry 1", date="2026-01-02")
    judged = tuple(
        (f"stem diameter, intake {n}", f"4.{900 + n} ± 0.003 mm", "new 4.975 – 4.990; ≥ 4.960 mm (6-9)",
         "serviceable, chance 1.000, 6 of 6 points", "MIC-25 0.00115; entry 108 0.00096", f"{n}–{n + 5}")
        for n in range(JUDGED)
    )  # fmt: skip
    head = ("what, where", "value", "limits (page)", "verdict", "where the doubt comes from", "entries")
    table = Table(head=head, rows=judged, widths=(2.3, 1.8, 2.9, 2.1, 2.9, 1.2), dense=True)
    return (title, Heading("Judged"), table, Heading("Readings"), evidence.readings(found, whole=True))


def bare(folder: Path) -> Callable[[], bytes]:
    """Typst alone on what our pipeline hands it: template, fonts and data, all in files."""
    from gudgeon.papers import typesetting
    from gudgeon.papers.payload import payload

    data = payload(sheet(), frozenset()) | {"language": "en", "fonts": typesetting.FACES}
    (folder / "data.json").write_text(json.dumps(data), encoding="utf-8")
    (folder / "sheet.typ").write_bytes(typesetting._template("sheet.typ"))
    fonts = Path(typesetting.__file__).parent / "fonts"
    (folder / "bare.py").write_text(BARE.format(folder=str(folder), fonts=str(fonts)), encoding="utf-8")
    names: dict[str, object] = {}
    exec(compile((folder / "bare.py").read_text(encoding="utf-8"), "bare.py", "exec"), names)
    return names["made"]  # type: ignore[return-value]


BARE = """
from pathlib import Path
import typst
FOLDER = Path({folder!r})
FONTS = typst.Fonts(include_system_fonts=False, font_paths=[{fonts!r}])
def made():
    return typst.compile((FOLDER / "sheet.typ").read_bytes(), font_paths=FONTS, ignore_system_fonts=True, format="pdf",
                         sys_inputs={{"sheet": (FOLDER / "data.json").read_text()}}, pdf_standards=["ua-1"], timestamp=0)
if __name__ == "__main__":
    import time
    began = time.perf_counter()
    made()
    print(time.perf_counter() - began)
"""


def _table_alone() -> Callable[[], bytes]:
    """Typst alone on a table of the record's cells, as plain as it can be: what so many cells cost whoever sets them."""
    import typst

    from gudgeon.papers import typesetting

    table = next(block for block in record() if isinstance(block, Table) and len(block.rows) == READINGS)
    cells = [cell for row in table.rows for cell in row]
    source = f"""
#set document(title: "t", date: none)
#set text(font: "Source Sans Pro", size: 8.5pt, lang: "en")
#table(columns: (1fr,) * {len(table.head)}, ..json(bytes(sys.inputs.at("cells"))))"""
    fonts = typst.Fonts(include_system_fonts=False, font_paths=[Path(typesetting.__file__).parent / "fonts"])
    inputs = {"cells": json.dumps(cells)}
    return lambda: typst.compile(
        source.encode(), font_paths=fonts, ignore_system_fonts=True, format="pdf", sys_inputs=inputs,
        pdf_standards=["ua-1"], timestamp=0,
    )  # fmt: skip


OURS = """
import time
from gudgeon.papers.blocks import *
from gudgeon.papers.pdf import pdf
blocks = {blocks!r}
began = time.perf_counter()
pdf(blocks)
print(time.perf_counter() - began)
"""


def first(command: list[str]) -> float:
    """How long the first paper of a process takes, what it imports not counted."""
    return min(
        float(subprocess.run(command, check=True, capture_output=True, text=True).stdout) for _ in range(COLD_ROUNDS)
    )


def spent(work: Callable[[], object], rounds: int) -> float:
    """The quickest of several runs, in seconds: what others on the machine took is no part of it."""
    times = []
    for _ in range(rounds):
        began = time.perf_counter()
        work()
        times.append(time.perf_counter() - began)
    return min(times)


def together(one: Callable[[], object], other: Callable[[], object]) -> tuple[float, float]:
    """The least processor time of each, measured in turn: what else the machine does is no part of it."""
    found: tuple[list[float], list[float]] = ([], [])
    for _ in range(2 * ROUNDS):
        for work, times in zip((one, other), found, strict=True):
            began = time.process_time()
            work()
            times.append(time.process_time() - began)
    return min(found[0]), min(found[1])


def memory(command: list[str]) -> float:
    """The most memory that a process of its own took, in kB."""
    probe = "import resource, subprocess, sys; subprocess.run(sys.argv[1:], check=True); "
    probe += "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)"
    ran = subprocess.run([sys.executable, "-c", probe, *command], check=True, capture_output=True, text=True)
    return float(ran.stdout.split()[-1])


def rows() -> list[Row]:
    """The ratios of a paper to bare Typst."""
    import pypdf

    assert resource.getpagesize()  # a system without resource limits has no figure for memory
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        made = bare(folder)
        (folder / "paper.pdf").write_bytes(pdf(sheet()))
        assert len(pypdf.PdfReader(folder / "paper.pdf").pages) == SHEET_PAGES
        whole = record()
        (folder / "record.pdf").write_bytes(pdf(whole))
        assert len(pypdf.PdfReader(folder / "record.pdf").pages) == RECORD_PAGES
        warm, alone = together(partial(pdf, sheet()), made)
        long, short = together(partial(pdf, whole), partial(pdf, sheet()))
        _, table = together(made, _table_alone())
        (folder / "ours.py").write_text(OURS.format(blocks=sheet()), encoding="utf-8")
        ours = [sys.executable, str(folder / "ours.py")]
        theirs = [sys.executable, str(folder / "bare.py")]
        quiet = partial(subprocess.run, check=True, stdout=subprocess.DEVNULL)
        whole_process = spent(partial(quiet, ours), COLD_ROUNDS) / spent(partial(quiet, theirs), COLD_ROUNDS)
        return [
            ("paper of three pages, warm, against Typst alone", warm / alone, 1.5),
            ("first paper of a process, against Typst alone", first(ours) / first(theirs), 1.3),
            ("the same with all that is imported", whole_process, None),
            (f"record of {READINGS} readings, twelve pages, against three pages", long / short, 4.0),
            (f"record of {READINGS} readings, against a table of its readings by Typst alone", long / table, 2.0),
            ("memory of a paper, against Typst alone", memory(ours) / memory(theirs), None),
        ]
