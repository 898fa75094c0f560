"""An invented twin on a workbench in memory, for the tests of checks, ledgers and what is asked."""

from __future__ import annotations

from tests.workbench.memory import workbench

from gudgeon.job.entries import Body, JobOpened, Reading
from gudgeon.problem import Refused
from gudgeon.workbench.bench import Hand, Workbench

HAND = Hand(by="mara", bench="north")
OTHER = Hand(by="ivo", bench="south")
JOB = "B-7"
BOOK = """
[book]
name = "Brackley 410"
[layout]
cylinders = 2
arrangement = "inline"
cams = "two"
cam_drive = "chain"
bore = "plated"
[layout.in]
valves = 1
follower = "bucket_under"
coated = true
[layout.ex]
valves = 1
follower = "bucket_under"
[[shims]]
diameter = "9.0 mm"
smallest = "2.00 mm"
largest = "3.00 mm"
step = "0.05 mm"
count = 21
[[limit]]
of = "lash"
side = "in"
least = "0.12 mm"
most = "0.18 mm"
[[limit]]
of = "lash"
side = "ex"
least = "0.22 mm"
most = "0.28 mm"
[[limit]]
of = "leak_down"
most = "12 %"
[[limit]]
of = "compression"
least = "900 kPa"
[[limit]]
of = "stem_diameter"
new = ["5.460 mm", "5.475 mm"]
least = "5.440 mm"
[[limit]]
of = "stem_guide_clearance"
new = ["0.010 mm", "0.040 mm"]
most = "0.080 mm"
[[limit]]
of = "bore_diameter"
new = ["66.000 mm", "66.015 mm"]
most = "66.060 mm"
[[limit]]
of = "squish"
least = "0.70 mm"
"""
SHELF = """
[[wrench]]
id = "W"
name = "wrench 8-60"
low = "8 N·m"
high = "60 N·m"
error = "4 %"
"""


def gauge(id: str, kind: str, unit: str = "mm", error: str = "0.002 mm", **more: str) -> str:
    """A gauge of the shelf, as its text says it."""
    cells = {"id": id, "kind": kind, "name": f"{kind} {id}", "unit": unit, "permissible_error": error,
             "repeatability": error, "source": "invented"} | more  # fmt: skip
    return (
        "\n[[gauge]]\n"
        + "\n".join(f'{k} = "{v}"' if v not in ("true",) else f"{k} = {v}" for k, v in cells.items())
        + "\n"
    )


GAUGES = (
    gauge("feel", "feeler", error="0.003 mm", resolution="0.01 mm", low="0.03 mm", high="1 mm")
    + gauge("mic", "micrometer", low="0 mm", high="25 mm", resolution="0.001 mm")
    + gauge("hole", "small-hole gauge", low="3 mm", high="13 mm")
    + gauge("dial", "bore gauge", unit="µm", deviation="true", master="66.000 mm", low="50 mm", high="80 mm")
    + gauge("leak", "leak tester", unit="%", error="1 %")
    + gauge("comp", "compression gauge", unit="kPa", error="15 kPa")
)


def shop(scope: str = "whole top end", book: str = BOOK) -> Workbench:
    """A workbench with one job open."""
    bench = workbench()
    bench.put_shelf(SHELF + GAUGES)
    bench.open_job(JobOpened(number=JOB, engine_number="31", scope=scope, machine="pump 4"), bench.add_book(book), HAND)
    return bench


def read(
    measurand: str, where: str, text: str, with_: str, point: str = "", unit: str = "mm", **more: object
) -> Reading:
    """A reading."""
    return Reading(measurand=measurand, where=where, point=point, text=text, unit=unit, gauge=with_, **more)  # type: ignore[arg-type]


def again(bench: Workbench) -> Workbench:
    """Another workbench over the same ports, which has kept nothing."""
    return Workbench(ledgers=bench.ledgers, library=bench.library, pictures=bench.pictures, copies=bench.copies,
                     people=bench.people, clock=bench.clock)  # fmt: skip


def refused(bench: Workbench, body: Body, hand: Hand = HAND) -> Refused:
    """The refusal of a fact, which must say where, what and the remedy, and leave nothing behind."""
    before = bench.ledgers.rows(JOB)
    try:
        bench.record(JOB, [body], hand)
    except Refused as wrong:
        assert bench.ledgers.rows(JOB) == before, "something landed"
        assert wrong.problems and all(
            p.where.strip() and str(p.what).strip() and str(p.remedy).strip() for p in wrong.problems
        )
        assert not any("{" in str(p) for p in wrong.problems), "a sentence with a hole in it"
        return wrong
    raise AssertionError(f"it landed: {body}")
