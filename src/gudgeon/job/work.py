"""What was done: parts out, in and exchanged, operations and what they disturb, joints open and closed, pairs."""

from __future__ import annotations

import re
from collections.abc import Mapping

from gudgeon.anatomy import BY_NUMBER, Anatomy, Joint, Slot
from gudgeon.job.entries import Entry, OperationDone, PartFitted, PartReceived, PartRemoved, PartsSwapped
from gudgeon.job.freshness import How, Key, Position, Touch
from gudgeon.job.joints import CLOSABLE, TURNING
from gudgeon.job.look import Look, look, look_of_work, places
from gudgeon.job.parts import Inventory
from gudgeon.job.state import Done, Pair
from gudgeon.operations.own import operations
from gudgeon.operations.shape import Disturbs
from gudgeon.problem import refuse

_COUNT = re.compile(r"[0-9]{1,4}([.,][0-9]{1,3})?")

PartFact = PartReceived | PartRemoved | PartFitted | PartsSwapped


class Work:
    """Touches by key, the state of joints, and what was done, gathered in the order in which it happened."""

    def __init__(
        self, anatomy: Anatomy, inventory: Inventory, fasteners: Mapping[str, tuple[str, ...]] | None = None
    ) -> None:
        self.anatomy, self.inventory = anatomy, inventory
        #: The fasteners of each joint that must be at their last stage before it is closed.
        self.fasteners = fasteners or {}
        self._drawn_up: dict[str, set[str]] = {}
        self.touched: dict[Key, list[Touch]] = {}
        self.open_joints: dict[str, int] = {}
        #: Where in the order of things each joint was last opened.
        self.opened_at: dict[str, Position] = {}
        #: Surfaces that were worked and joints that were touched: what looks at one of them is no longer as found.
        self.changed: set[Key] = set()
        self.renewed: set[Key] = set()
        self.clean: set[Key] = set()
        self.done: list[Done] = []
        self.pairs: list[tuple[int, tuple[str, str], tuple[str, str]]] = []
        self.unusable: dict[str, int] = {}
        #: How often each one-use part was drawn up to its joint's final stage; what the engine came with was once.
        self.used = {f"orig:{slot}": 1 for slot in anatomy.slots if anatomy.slots[slot].kind in BY_NUMBER}
        self._one_use: dict[str, list[str]] = {}
        for slot in anatomy.slots.values():
            for joint in slot.joints if slot.kind in BY_NUMBER else ():
                self._one_use.setdefault(str(joint), []).append(slot.name)
        self.turns: float | None = None
        self.dropped_in = self.rags_in = 0

    def _touch(self, keys: tuple[Key, ...], touch: Touch) -> None:
        for key in keys:
            self.touched.setdefault(key, []).append(touch)

    def torqued(self, joint: str) -> None:
        """The last stage of one kind of fastener: the joint is closed when all of its kinds are there."""
        whole, _, name = joint.partition("#")
        every = self.fasteners.get(whole, ())
        drawn = self._drawn_up.setdefault(whole, set())
        drawn.add(every[0] if len(every) == 1 and not name else name)
        if drawn.issuperset(every):
            self._closed(whole)

    def operation(self, position: Position, entry: Entry, fact: OperationDone) -> None:
        """An operation: what it disturbs, closes, pairs; a material rule broken makes the part unusable."""
        kind = operations(self.anatomy).get(fact.operation)
        if kind is None or fact.where not in places(kind.where, self.anatomy):
            raise refuse(
                f"entry {entry.seq}",
                "There is no {what} at {where} on this engine.",
                "Retract it and write it again.",
                what=fact.operation,
                where=fact.where,
            )
        turns, count = _number(entry, fact, "turns", 2.0), _number(entry, fact, "count", 1.0)
        seen = self._seen(kind.disturbs, fact)
        keys = seen.keys(self.inventory)
        if kind.first_time_only:
            keys = tuple(key for key in keys if not self._is_clean(key))
            self.clean.update(keys)
        else:
            self.changed.update(keys)
        if kind.renews:
            self.renewed.update(key for key in keys if not key[0].startswith("@"))
        self._touch(keys, _touch(position, entry, "disturbed", kind.did))
        self._opened(seen.joints, position, entry)
        for joint in self._seen(kind.closes, fact).labels:
            self._closed(joint)
        for slots in kind.pairs(self.anatomy, fact.where):
            self._pair(entry, slots)
        if "to" in fact.detail:
            self._worked_to(entry, fact.detail["to"], seen)
        self._material(kind.forbidden_on, entry, fact.where)
        self._counting(fact.operation, turns, int(count))
        done = Done(entry=entry, operation=fact.operation, where=fact.where, detail=fact.detail, position=position)
        self.done.append(done)

    def _seen(self, does: Disturbs, fact: OperationDone) -> Look:
        if fact.detail:
            return look(does(self.anatomy, fact.where, fact.detail))
        return look_of_work(does, self.anatomy, fact.where)

    def _opened(self, joints: tuple[Joint, ...], position: Position, entry: Entry) -> None:
        for joint in joints:
            if joint.name in CLOSABLE:
                self.open_joints[str(joint)] = entry.seq
            self.opened_at[str(joint)] = position
            self._drawn_up.pop(str(joint), None)
            if joint.name in TURNING:
                self.turns = 0.0

    def _closed(self, joint: str) -> None:
        """A joint at its final stage: what is used once between its faces is used now."""
        if self.open_joints.pop(joint, None) is None:
            return
        for slot in self._one_use.get(joint, ()):
            part = self.inventory.slots[slot]
            if part:
                self.used[part] = self.used.get(part, 0) + 1

    def _is_clean(self, key: Key) -> bool:
        """Whether a surface was cleaned or machined before, or is a new part's: only a first cleaning disturbs."""
        return key in self.clean or key in self.renewed or not key[0].startswith(("orig:", "no:"))

    def _pair(self, entry: Entry, slots: tuple[str, str]) -> None:
        one, other = self.inventory.slots.get(slots[0]), self.inventory.slots.get(slots[1])
        if one and other:
            self.pairs.append((entry.seq, (one, other), slots))

    def _worked_to(self, entry: Entry, to: str, seen: Look) -> None:
        """Honed, bored or reamed to a part in hand: the two belong together from now on."""
        slot = seen.subject
        part = self.inventory.slots.get(slot)
        if part and to in self.inventory.parts:
            self.pairs.append((entry.seq, (part, to), (slot, self.inventory.stands(to))))

    def _material(self, forbidden: tuple[str, ...], entry: Entry, where: str) -> None:
        slot = ""
        if "coated" in forbidden and where in self.anatomy.valves and self.anatomy.layout.side(where).coated:
            slot = f"{where}/valve"
        if "plated" in forbidden and where in self.anatomy.cylinders and self.anatomy.layout.bore == "plated":
            slot = f"{where}/barrel"
        part = self.inventory.slots.get(slot) if slot else None
        if part:
            self.unusable.setdefault(part, entry.seq)

    def _counting(self, operation: str, turns: float, count: int) -> None:
        match operation:
            case "turn_forwards" if self.turns is not None:
                self.turns += turns
            case "dropped_in":
                self.dropped_in += 1
            case "rag_in":
                self.rags_in += count
            case "rag_out":
                self.rags_in -= count
            case "found":
                self.dropped_in = max(0, self.dropped_in - 1)
            case _:
                pass

    def parts(self, position: Position, entry: Entry, fact: PartFact) -> None:
        """A part received, taken out, fitted or exchanged: joints are touched, fitting assigns."""
        match fact:
            case PartReceived():
                self.inventory.receive(entry.typed.id, fact.kind, fact.number, fact.mark, fact.thickness, entry.seq)
            case PartRemoved(slot=slot):
                self._joints(self._slot(slot, entry), position, entry, "taken out")
                self.inventory.out.add(slot)
            case PartFitted(part=part, slot=slot):
                self._fit(part, self._slot(slot, entry), position, entry)
            case PartsSwapped(slot=slot, other=other):
                self._swap(self._slot(slot, entry), self._slot(other, entry), position, entry)

    def _fit(self, part: str, slot: Slot, position: Position, entry: Entry) -> None:
        known = self.inventory.parts.get(part)
        if known is None:
            raise refuse(f"entry {entry.seq}", "There is no part {part}.", "Receive it first.", part=part)
        self._goes_into(known.kind, slot, entry)
        self._joints(slot, position, entry, "fitted")
        self._exchanged(self.inventory.assign(part, slot.name, entry.seq), position, entry)

    def _swap(self, slot: Slot, other: Slot, position: Position, entry: Entry) -> None:
        self._goes_into(slot.kind, other, entry)
        for one in (slot, other):
            self._joints(one, position, entry, "exchanged")
        self._exchanged(self.inventory.swap(slot.name, other.name, entry.seq), position, entry)

    def _exchanged(self, slots: tuple[str, ...], position: Position, entry: Entry) -> None:
        for slot in slots:
            self._touch((("slot", slot),), _touch(position, entry, "exchanged", f"{_kind(slot)} exchanged"))

    def _slot(self, name: str, entry: Entry) -> Slot:
        slot = self.anatomy.slots.get(name)
        if slot is None:
            what = "This engine has no {slot}."
            raise refuse(f"entry {entry.seq}", what, "Retract it and name a slot the engine has.", slot=name)
        return slot

    def _goes_into(self, kind: str, slot: Slot, entry: Entry) -> None:
        if kind != slot.kind:
            what = "A {kind} does not go into {slot}."
            raise refuse(
                f"entry {entry.seq}", what, "Retract it and fit it where it belongs.", kind=kind, slot=slot.name
            )

    def _joints(self, slot: Slot, position: Position, entry: Entry, how: str) -> None:
        keys = tuple(map(self.inventory.key, slot.joints))
        self.changed.update(keys)
        self._touch(keys, _touch(position, entry, "opened", f"{_kind(slot.name)} {how}"))
        self._opened(slot.joints, position, entry)

    def pairs_now(self) -> tuple[Pair, ...]:
        """The last pair of each two parts, and whether they still stand together."""
        last = {frozenset(parts): (seq, parts, slots) for seq, parts, slots in self.pairs}
        return tuple(
            Pair(seq=seq, parts=parts, slots=slots, broken=self._broken(seq, parts))
            for seq, parts, slots in last.values()
        )

    def _broken(self, seq: int, parts: tuple[str, str]) -> bool:
        """Whether one of the two stands in the engine beside another, with no later pair of its own."""
        for one, other in (parts, parts[::-1]):
            if any(s > seq and one in p for s, p, _slots in self.pairs):
                continue
            slot = self.inventory.stands(one)
            there = self.inventory.stands(other)
            if slot and _place(slot) != _place(there):
                return True
        return False


def _number(entry: Entry, fact: OperationDone, name: str, usual: float) -> float:
    """A count in an operation's details; nonsense is refused before the operation has had any effect."""
    text = fact.detail.get(name, "")
    if not text:
        return usual
    if not _COUNT.fullmatch(text):
        what = "The number of {name} reads {given}."
        raise refuse(f"entry {entry.seq}", what, "Retract it and write a number.", name=name, given=text)
    return float(text.replace(",", "."))


def _touch(position: Position, entry: Entry, how: How, did: str) -> Touch:
    return Touch(position=position, seq=entry.seq, bench=entry.typed.bench, how=how, did=did)


def _kind(slot: str) -> str:
    return slot.split("/")[-1]


def _place(slot: str) -> str:
    return slot.split("/")[0]
