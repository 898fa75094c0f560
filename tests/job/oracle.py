"""Freshness by its definition, as slowly and plainly as it can be said, and random ledgers to hold it against.

A reading is fresh if no live later entry touched what it observed, no entry of another bench beyond its `seen` did, and
each slot still holds the part observed. Nothing here is shared with the replay but the facts and the two catalogues.
"""

from __future__ import annotations

from story import FINGER

from gudgeon.anatomy import BY_NUMBER, Anatomy, Joint, Surface, expand
from gudgeon.job.entries import (
    Body,
    Entry,
    JobOpened,
    OperationDone,
    PaperIssued,
    PartFitted,
    PartReceived,
    PartRemoved,
    PartsSwapped,
    Reading,
    Retraction,
)
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.operations.catalogue import OPERATIONS

ANATOMY = expand(FINGER)
NUMBERS = {"c1/base gasket": "B-1", "head/head gasket": "H-1"}
Thing = tuple[str, ...]


def is_live(entry: Entry, entries: list[Entry]) -> bool:
    """An entry is out if a live later retraction names it; a retraction may itself be retracted."""
    if isinstance(entry.typed.body, JobOpened | PaperIssued):
        return True
    naming = [
        r
        for r in entries
        if r.seq > entry.seq and isinstance(r.typed.body, Retraction) and r.typed.body.entry == entry.typed.id
    ]
    return not any(is_live(r, entries) for r in naming)


def named(entry: Entry, entries: list[Entry]) -> Entry | None:
    """The earlier entry before which this one says it was done."""
    before = getattr(entry.typed.body, "before", "")
    return next((e for e in entries if e.typed.id == before and e.seq < entry.seq), None)


def as_it_happened(entries: list[Entry]) -> list[Entry]:
    """Entries in the order in which things happened: a late one directly before the one it names."""
    order: list[Entry] = []
    for entry in entries:
        before = named(entry, entries)
        order.insert(order.index(before) if before else len(order), entry)
    return order


def landed_by(entry: Entry, entries: list[Entry]) -> int:
    """The number an entry counts from: its own, or that of the entry it came before."""
    before = named(entry, entries)
    return landed_by(before, entries) if before else entry.seq


class World:
    """What stands where after a number of things have happened; worked out from the start every time."""

    def __init__(self, anatomy: Anatomy, past: list[Entry]) -> None:
        self.anatomy = anatomy
        self.kinds = {f"orig:{s.name}": s.kind for s in anatomy.slots.values()}
        self.numbers = {f"orig:{slot}": number for slot, number in NUMBERS.items()}
        self.at: dict[tuple[str, str], str] = {}
        for slot in anatomy.slots.values():
            inside = f"orig:{slot.parent}" if slot.parent else ""
            self.at[inside, slot.name] = f"orig:{slot.name}"
        for entry in past:
            self._happen(entry)

    def _happen(self, entry: Entry) -> None:
        match entry.typed.body:
            case PartReceived(kind=kind, number=number):
                self.kinds[entry.typed.id], self.numbers[entry.typed.id] = kind, number
            case PartFitted(part=part, slot=slot) as fact if self.can(fact):
                self._move(part, slot)
            case PartsSwapped(slot=slot, other=other) as fact if self.can(fact):
                here, there = self.part(slot), self.part(other)
                self._move(there, slot)
                self._move(here, other)
            case _:
                pass

    def _move(self, part: str, slot: str) -> None:
        self.at = {where: held for where, held in self.at.items() if held != part}
        self.at[self._inside(slot), slot] = part
        if self.kinds.get(part) == "head":
            for inner in (s for s in self.anatomy.slots.values() if s.parent == slot):
                new = f"{part}/{inner.name}"
                if new not in self.kinds and (part, inner.name) not in self.at and not part.startswith("orig:"):
                    self.kinds[new] = inner.kind
                    self.at[part, inner.name] = new

    def _inside(self, slot: str) -> str:
        parent = self.anatomy.slots[slot].parent
        return self.part(parent) if parent else ""

    def part(self, slot: str) -> str:
        """The part that a slot holds: what stands inside a head goes where the head goes."""
        return self.at.get((self._inside(slot), slot), "")

    def identity(self, slot: str) -> str:
        """Gaskets are told by their number, all else by which part it is."""
        part = self.part(slot)
        if self.kinds.get(part) in BY_NUMBER and self.numbers.get(part):
            return f"number {self.numbers[part]} at {slot}"
        return part or f"nothing at {slot}"

    def thing(self, feature: Surface | Joint) -> Thing:
        """A feature as the thing itself."""
        if isinstance(feature, Surface):
            return ("surface", self.identity(feature.slot), feature.name)
        return ("joint", feature.place, feature.name)

    def can(self, fact: Body) -> bool:
        """Whether a fact about parts can be true here."""
        slots = self.anatomy.slots
        match fact:
            case PartRemoved(slot=slot):
                return slot in slots
            case PartFitted(part=part, slot=slot):
                return part in self.kinds and slot in slots and self.kinds[part] == slots[slot].kind
            case PartsSwapped(slot=slot, other=other):
                return slot in slots and other in slots and slots[slot].kind == slots[other].kind
            case OperationDone(operation=operation, where=where):
                return operation in OPERATIONS and where in OPERATIONS[operation].where(self.anatomy)
            case _:
                return False


class Oracle:
    """The verdicts of the definition on every reading of a ledger."""

    def __init__(self, entries: list[Entry], anatomy: Anatomy = ANATOMY) -> None:
        self.anatomy, self.entries = anatomy, entries
        self.order = [e for e in as_it_happened(entries) if is_live(e, entries)]
        self.worlds = [World(anatomy, self.order[:n]) for n in range(len(self.order) + 1)]
        self.touched = [self._touched(n) for n in range(len(self.order))]

    def _touched(self, n: int) -> set[Thing]:
        fact, before, after = self.order[n].typed.body, self.worlds[n], self.worlds[n + 1]
        if not before.can(fact):
            return set()
        match fact:
            case OperationDone():
                kind = OPERATIONS[fact.operation]
                things = {before.thing(f) for f in kind.disturbs(self.anatomy, fact.where, fact.detail)}
                return {t for t in things if not (kind.first_time_only and self._clean(t, n))}
            case PartRemoved(slot=slot) | PartFitted(slot=slot):
                opened = [*self.anatomy.slots[slot].joints]
            case PartsSwapped(slot=slot, other=other):
                opened = [*self.anatomy.slots[slot].joints, *self.anatomy.slots[other].joints]
            case _:
                opened = []
        exchanged = {("slot", s) for s in self.anatomy.slots if before.identity(s) != after.identity(s)}
        return {before.thing(j) for j in opened} | exchanged

    def _clean(self, thing: Thing, n: int) -> bool:
        """A surface of a new part, or one cleaned or machined before."""
        if not thing[1].startswith(("orig:", "number", "nothing")):
            return True
        for m in range(n):
            fact = self.order[m].typed.body
            if isinstance(fact, OperationDone) and self.worlds[m].can(fact):
                kind = OPERATIONS[fact.operation]
                here = {self.worlds[m].thing(f) for f in kind.disturbs(self.anatomy, fact.where, fact.detail)}
                if thing in here and (kind.first_time_only or kind.renews):
                    return True
        return False

    def fresh(self) -> dict[str, bool]:
        """Each usable reading by its entry, and whether it is fresh."""
        found = {}
        for n, entry in enumerate(self.order):
            if isinstance(entry.typed.body, Reading):
                seen = self._observed(n, entry.typed.body)
                if seen is not None:
                    found[entry.typed.id] = self._fresh(n, *seen)
        return found

    def _observed(self, n: int, fact: Reading) -> tuple[set[Thing], set[str], bool] | None:
        world, kind = self.worlds[n], MEASURANDS[fact.measurand]
        if fact.where.startswith("part:"):
            part = fact.where[5:]
            features = kind.observes(self.anatomy, kind.where(self.anatomy)[0])
            slots = {f.slot if isinstance(f, Surface) else "" for f in features}
            if len(slots) != 1 or "" in slots or world.kinds.get(part) != self.anatomy.slots[slots.pop()].kind:
                return None
            return {("surface", part, f.name) for f in features}, set(), True
        features = kind.observes(self.anatomy, fact.where)
        slots = {f.slot for f in features if isinstance(f, Surface)}
        alone = len(slots) == 1 and all(isinstance(f, Surface) for f in features)
        travels = alone and bool(world.part(next(iter(slots))))
        return {world.thing(f) for f in features}, slots, travels

    def _fresh(self, n: int, things: set[Thing], slots: set[str], travels: bool) -> bool:
        reading = self.order[n]
        if any(self.touched[m] & things for m in range(n + 1, len(self.order))):
            return False
        looked_at = things | {("slot", slot) for slot in slots}
        for m in range(n):
            other = self.order[m]
            unknown = landed_by(other, self.entries) > reading.typed.seen and other.typed.bench != reading.typed.bench
            if unknown and self.touched[m] & looked_at:
                return False
        then, now = self.worlds[n], self.worlds[-1]
        return travels or all(then.identity(slot) == now.identity(slot) for slot in slots)
