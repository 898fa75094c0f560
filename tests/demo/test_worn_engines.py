"""Engines of all four books, worn and handled at random: every plan says something, and what it says holds together."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from gudgeon.job.entries import Disposition, Finding, PartReceived, PartsSwapped
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.operations.catalogue import OPERATIONS
from gudgeon.plans.lashes import window_of
from gudgeon.routes.scopes import SCOPES
from plan_bench import PlanBench

DEMO = Path(__file__).resolve().parents[2] / "src" / "gudgeon" / "demo"
BOOKS = ("corrie", "scree", "gully", "tarn")
WORK = ("cut_seat", "lap_valve", "open_keepers", "seat_keepers", "open_cam_holder", "tighten_cam_holder", "clean",
        "fit_spacer", "fit_guide", "sent_out", "came_back", "loosen_head", "tighten_head", "turn_forwards")  # fmt: skip


def worn(seed: int) -> PlanBench:
    random = Random(seed)
    book = (DEMO / "books" / f"{BOOKS[seed % 4]}.toml").read_text(encoding="utf-8")
    shelf = (DEMO / "shelf.toml").read_text(encoding="utf-8")
    job = PlanBench(book, shelf, random.choice(tuple(SCOPES)), engine_number="0300")
    for _ in range(3):
        read_some(job, random)
        work_some(job, random)
    read_some(job, random)
    return job


def read_some(job: PlanBench, random: Random) -> None:
    """Half of the measurands, each about its limits or well past them."""
    for key, kind in MEASURANDS.items():
        gauge = next((job.gauges[g] for g in kind.gauges if g in job.gauges), None)
        if random.random() < 0.5 or (gauge is None and kind.dimension != "words"):
            continue
        for place in kind.where(job.anatomy):
            row = job.book.limit_for(key, place)
            for point in kind.points(job.anatomy, place):
                if kind.dimension == "words":
                    job.read(key, place, random.choice(kind.words), "eye", point, unit="")
                elif key == "lash" and random.random() < 0.1:
                    job.read(key, place, "no gap", gauge or "", point, unit=kind.unit)
                elif gauge is not None:
                    ends = [e for e in (row.least, row.most, row.new_low, row.new_high) if e is not None] if row else []
                    low, high = kind.plausible or (0.01, 1.0)
                    middle = random.choice(ends) if ends else random.uniform(low, min(high, low * 3 + 1))
                    size = abs(middle + random.gauss(0, 0.02) * (1.0 if kind.unit == "mm" else 20.0))
                    job.read(key, place, f"{size:.3f}", gauge, point, unit=kind.unit)


def work_some(job: PlanBench, random: Random) -> None:
    """Some work, a swap, a part, a finding and a decision, anywhere they can be."""
    for operation in random.sample(WORK, 5):
        places = OPERATIONS[operation].where(job.anatomy)
        if places:
            job.do(operation, random.choice(places))
    slots = tuple(job.anatomy.slots)
    slot = random.choice(slots)
    alike = [s for s in slots if job.anatomy.slots[s].kind == job.anatomy.slots[slot].kind and s != slot]
    if alike:
        job.record(PartsSwapped(slot=slot, other=random.choice(alike)))
    kind = job.anatomy.slots[random.choice(slots)].kind
    job.record(PartReceived(kind=kind, mark=random.choice(("", "185", "85"))))
    job.record(Finding(kind=random.choice(("grooved", "crack", "carbon", "odd")), where=random.choice(slots)))
    what = random.choice(("reuse", "renew", "machine", "clean", "measure_again"))
    job.record(Disposition(part=f"orig:{random.choice(slots)}", what=what, reason="so"))  # type: ignore[arg-type]


@pytest.mark.parametrize("seed", range(40))
def test_every_plan_holds_together(seed: int) -> None:
    job = worn(seed)
    given = job.given
    plans = {plan.key: plan for plan in job.plans()}
    for plan in plans.values():
        assert plan.lines or plan.reasons
        assert "{" not in f"{[str(r) for r in plan.reasons]}{[str(x.what) for x in plan.lines]}".replace("{}", "")
    for line in plans["shims"].lines if "shims" in plans else ():
        numbers, window = dict(line.numbers), window_of(given, line.where)
        if "wanted_mm" in numbers and window is not None:
            assert window.low_mm <= float(numbers["lash_mm"] or 0.0) <= window.high_mm
    for cut in plans["machining"].machines if "machining" in plans else ():
        if cut.high_mm is not None and cut.never_over_mm is not None:
            assert cut.high_mm <= cut.never_over_mm
    assert sum(dict(x.numbers)["state"] == "next" for x in plans["route"].lines) <= 1
    total = sum((b.price or 0.0) * b.count for b in plans["order"].buys)
    assert dict(plans["estimate"].lines[0].numbers)["amount"] == pytest.approx(total, abs=0.01)
