"""A small invented engine and shelf for the browser tests: a bucket twin-valve single with six-place bore limits."""

from __future__ import annotations

from pathlib import Path

from gudgeon.job.entries import JobOpened, Reading
from gudgeon.wiring.bench import assembled
from gudgeon.workbench.bench import Hand, Workbench
from gudgeon.workbench.clock import StoryClock

BOOK = """
[book]
name = "Test 125"
edition = "1"

[layout]
cylinders = 1
arrangement = "single"
cams = "two"
cam_drive = "chain"
bore = "iron"

[layout.in]
valves = 2
follower = "bucket_under"

[layout.ex]
valves = 2
follower = "bucket_under"

[[limit]]
of = "lash"
side = "in"
least = "0.10 mm"
most = "0.15 mm"
page = "3-2"

[[limit]]
of = "lash"
side = "ex"
least = "0.20 mm"
most = "0.25 mm"
page = "3-2"

[[limit]]
of = "stem_diameter"
new = ["4.475 mm", "4.490 mm"]
least = "4.460 mm"
page = "3-9"
"""


def bench(folder: Path) -> Workbench:
    """The workbench of a data folder."""
    return assembled(folder, StoryClock("2026-11-25T08:00:00Z"))


def open_small(folder: Path, number: str = "T-1", scope: str = "valves") -> Workbench:
    """A job on the small engine."""
    wb = bench(folder)
    sha = wb.add_book(BOOK)
    wb.open_job(
        JobOpened(number=number, engine_number="1", scope=scope, machine="pump 2"), sha, Hand(by="t", bench="set-up")
    )
    return wb


def texts(wb: Workbench, number: str = "T-1") -> list[str]:
    """What was typed in the readings that landed, in their order."""
    return [e.typed.body.text for e in wb.loaded(number).entries if isinstance(e.typed.body, Reading)]
