"""Replaying a job, against decoding the same entries from their text, and how its time grows with its length."""

from __future__ import annotations

from collections.abc import Iterator

from timing import best

from gudgeon.anatomy import Anatomy, Layout, Side, expand
from gudgeon.job import codec
from gudgeon.job.entries import (
    Body,
    Entry,
    HoldPassed,
    JobOpened,
    OperationDone,
    PartFitted,
    PartReceived,
    Reading,
    TorqueApplied,
    Typed,
)
from gudgeon.job.replay import replay
from gudgeon.measurands.catalogue import MEASURANDS

Row = tuple[str, float, float | None]

SIDE = Side(valves=2, follower="finger", lash_read="cam", ratio=1.4)
ANATOMY = expand(Layout(cylinders=1, arrangement="single", intake=SIDE, exhaust=SIDE))
#: Readings of which a job makes several points a place.
POINTS = 2
#: What is read on the assembled engine only, and what nobody reads twice.
WHOLE = ("lash", "leak_down", "compression", "timing_marks", "oil_at_cams", "squish", "valve_to_piston")
ONCE = ("stem_diameter", "guide_bore", "bore_diameter")


def _id(n: int) -> str:
    """As long as the ids that benches make."""
    return f"{n:08x}-5a1e-4c07-8e55-0d3f9a7b21c4"


def _readings(anatomy: Anatomy, skip: tuple[str, ...] = ()) -> Iterator[Body]:
    for key, kind in MEASURANDS.items():
        for where in kind.where(anatomy) if key not in skip else ():
            for point in kind.points(anatomy, where)[:POINTS]:
                needs = kind.needs
                yield Reading(
                    measurand=key, where=where, point=point, text=kind.example, unit=kind.unit, gauge="G1", needs=needs
                )


def _overhaul(anatomy: Anatomy, first: int) -> list[Body]:
    """A head off and on: as found, stripped, cleaned, read, worked, fitted, torqued, proved. About 400 entries."""
    bodies: list[Body] = [
        Reading(measurand="lash", where=v, text="0.12/0.13", unit="mm", gauge="G2") for v in anatomy.valves
    ]

    def do(operation: str, *places: str) -> None:
        bodies.extend(OperationDone(operation=operation, where=place) for place in places)

    do("remove_tensioner", "engine")
    do("open_cam_holder", *anatomy.cams)
    do("loosen_head", *anatomy.heads)
    do("open_keepers", *anatomy.valves)
    do("clean", *anatomy.slots)
    bodies += _readings(anatomy, skip=WHOLE)
    do("lap_valve", *anatomy.valves)
    for valve in anatomy.valves:
        bodies.append(PartReceived(kind="shim"))
        bodies.append(PartFitted(part=_id(first + len(bodies) - 1), slot=f"{valve}/shim"))
    do("seat_keepers", *anatomy.valves)
    bodies.append(HoldPassed(hold="H6"))
    for joint in ("head head", "cam.in holder", "cam.ex holder"):
        bodies += [TorqueApplied(joint=joint, stage=n, of=3, setting="10", unit="N·m", wrench="W1") for n in (1, 2, 3)]
    do("release_tensioner", "engine")
    do("turn_forwards", "engine")
    bodies += _readings(anatomy, skip=ONCE)
    bodies += [HoldPassed(hold=hold) for hold in ("H8", "H9b", "H10", "H11", "H12")]
    return bodies


def ledger(entries: int) -> list[str]:
    """The lines of a job of about so many entries."""
    bodies: list[Body] = [JobOpened(number="7", engine_number="K-1")]
    while len(bodies) < entries:
        bodies += _overhaul(ANATOMY, len(bodies) + 1)
    lines = []
    for n, body in enumerate(bodies[:entries], 1):
        bench, seen = ("b2", max(0, n - 4)) if n % 9 == 0 else ("b1", n - 1)
        typed = Typed(id=_id(n), typed_at="2031-02-03T08:00:00Z", by="k7", bench=bench, nth=n, seen=seen, body=body)
        lines.append(
            codec.landed_line(codec.encode(typed), seq=n, landed_at="2031-02-03T08:00:01Z", account="workshop")
        )
    return lines


def shown(entries: list[Entry]) -> int:
    """A replay as a screen uses it: how many readings are fresh."""
    state = replay(entries, ANATOMY)
    assert not state.problems, state.problems[0]
    return sum(taken.fresh for taken in state.readings)


def rows() -> Iterator[Row]:
    """Replay over decoding, for a job and for one of ten times its length; and the time of the long over the short."""
    took: dict[int, tuple[float, float]] = {}
    for n in (400, 4000):
        lines = ledger(n)
        entries = [codec.decode(line) for line in lines]
        took[n] = (
            best(lambda lines=lines: [codec.decode(line) for line in lines], 25),
            best(lambda e=entries: shown(e), 25),
        )
        yield f"replay over decoding, {n} entries", took[n][1] / took[n][0], 10.0
    yield "replay of 4000 entries over ten replays of 400", took[4000][1] / took[400][1] / 10, 1.5
