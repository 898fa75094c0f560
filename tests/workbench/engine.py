"""A small engine on a workbench in memory, for the views that screens are made from."""

from __future__ import annotations

from tests.workbench.memory import workbench

from gudgeon.job.entries import Body, JobOpened, OperationDone, Reading
from gudgeon.workbench.bench import Hand, Workbench

HAND = Hand(by="t", bench="b")
BOOK = """
[book]
name = "Test 125"
edition = "1"

[layout]
cylinders = 1
arrangement = "single"
cams = "two"
cam_drive = "chain"

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

[[limit]]
of = "lash"
side = "ex"
least = "0.20 mm"
most = "0.25 mm"

[[limit]]
of = "stem_diameter"
new = ["4.475 mm", "4.490 mm"]
least = "4.460 mm"
page = "3-9"

[[fastener]]
name = "head nuts"
joint = "head"
thread = "M9"
count = 4
torque = ["20 N·m", "40 N·m"]
order = [1, 3, 2, 4]

[[fastener]]
name = "head side bolts"
joint = "head"
thread = "M6"
count = 2
torque = ["10 N·m"]
"""
SHELF = """
[[wrench]]
id = "TW-1"
name = "wrench 8–60"
low = "8 N·m"
high = "60 N·m"
error = "4 %"

[[gauge]]
id = "FEEL"
kind = "feeler"
name = "feelers"
unit = "mm"
low = "0.03 mm"
high = "1 mm"
resolution = "0.01 mm"
permissible_error = "0.004 mm"
source = "test"

[[gauge]]
id = "MIC"
kind = "micrometer"
name = "micrometer"
unit = "mm"
low = "0 mm"
high = "25 mm"
resolution = "0.001 mm"
permissible_error = "0.002 mm"
source = "test"
"""


def job(scope: str = "head out", number: str = "T-1") -> Workbench:
    """A workbench with one job open."""
    wb = workbench()
    wb.put_shelf(SHELF)
    sha = wb.add_book(BOOK)
    wb.open_job(JobOpened(number=number, engine_number="7", scope=scope, machine="pump 2"), sha, HAND)
    return wb


def record(wb: Workbench, *bodies: Body) -> None:
    """Write facts into the job."""
    wb.record("T-1", bodies, HAND)


def did(operation: str, where: str, **detail: str) -> OperationDone:
    """Work that was done."""
    return OperationDone(operation=operation, where=where, detail=detail)


def read(measurand: str, where: str, text: str, gauge: str, point: str = "") -> Reading:
    """A reading in millimetres."""
    return Reading(measurand=measurand, where=where, text=text, unit="mm", gauge=gauge, point=point)
