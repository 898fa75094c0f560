"""Ledgers at random: work, parts received, fitted, exchanged and removed, retractions, late work, two benches."""

from __future__ import annotations

from random import Random

from oracle import ANATOMY, NUMBERS
from story import FINGER, Ledger

from gudgeon.job.entries import OperationDone, PartFitted, PartReceived, PartRemoved, PartsSwapped, Retraction
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.operations.catalogue import OPERATIONS

#: Few places, so that work and readings meet.
NEAR = ("c1.ex.left", "c1.ex.right", "c1", "head", "engine", "cam.ex", "c1.ring.top")
READINGS = tuple((key, where) for key, kind in MEASURANDS.items() for where in kind.where(ANATOMY) if where in NEAR)
WORK = tuple(
    (key, where)
    for key, kind in OPERATIONS.items()
    for where in kind.where(ANATOMY)
    if where.split("/")[0] in NEAR
    and kind.disturbs(ANATOMY, where, {})
    and (key != "came_back" or where == "c1/barrel")
)
SLOTS = tuple(s for s in ANATOMY.slots if s.split("/")[0] in NEAR)
TWINS = tuple((a, b) for a in SLOTS for b in SLOTS if a < b and ANATOMY.slots[a].kind == ANATOMY.slots[b].kind)
BY_PART = tuple(key for key in ("shim_thickness", "stem_diameter", "guide_bore", "spring_load", "wobble"))


def random_ledger(rng: Random, length: int) -> Ledger:
    """A ledger of so many entries."""
    ledger = Ledger(FINGER, numbers=NUMBERS)
    parts: list[tuple[str, str]] = [(f"orig:{slot}", ANATOMY.slots[slot].kind) for slot in SLOTS]
    for _ in range(length):
        _one(rng, ledger, parts)
    return ledger


def _one(rng: Random, ledger: Ledger, parts: list[tuple[str, str]]) -> None:
    bench = rng.choice(("b1", "b2"))
    last = len(ledger.entries)
    seen = max(0, last - rng.choice((0, 0, 1, 4, 12)))
    late = rng.choice(ledger.entries).typed.id if ledger.entries and rng.random() < 0.12 else ""
    draw = rng.random()
    if draw < 0.36:
        key, where = rng.choice(READINGS)
        ledger.read(key, where, bench=bench, seen=seen)
    elif draw < 0.42:
        part, _kind = rng.choice(parts)
        ledger.read(rng.choice(BY_PART), f"part:{part}", bench=bench, seen=seen)
    elif draw < 0.62:
        key, where = rng.choice(WORK)
        ledger.add(OperationDone(operation=key, where=where, before=late), bench, seen)
    elif draw < 0.70:
        slot = rng.choice(SLOTS)
        kind, number = ANATOMY.slots[slot].kind, rng.choice(("", "B-1", "H-1", "B-2"))
        parts.append((ledger.add(PartReceived(kind=kind, number=number), bench, seen), kind))
    elif draw < 0.80:
        part, kind = rng.choice(parts[-8:] if rng.random() < 0.6 else parts)
        slots = [s for s in SLOTS if ANATOMY.slots[s].kind == kind or rng.random() < 0.03]
        ledger.add(PartFitted(part=part, slot=rng.choice(slots), before=late), bench, seen)
    elif draw < 0.87:
        one, other = rng.choice(TWINS)
        ledger.add(PartsSwapped(slot=one, other=other, before=late), bench, seen)
    elif draw < 0.90 or not ledger.entries:
        ledger.add(PartRemoved(slot=rng.choice(SLOTS), before=late), bench, seen)
    else:
        target = rng.choice(ledger.entries[-12:]).typed.id
        ledger.add(Retraction(entry=target, reason="slip"), bench, seen)
