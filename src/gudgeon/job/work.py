"""What was done: parts out, in and exchanged, operations and what they disturb, joints open and closed, pairs."""

from __future__ import annotations

from gudgeon.anatomy import Anatomy, Joint, Surface
from gudgeon.job.entries import Entry, OperationDone, PartFitted, PartReceived, PartRemoved, PartsSwapped
from gudgeon.job.freshness import How, Key, Position, Timeline, Touch
from gudgeon.job.parts import Inventory
from gudgeon.job.state import Done, Pair
from gudgeon.operations.catalogue import OPERATIONS
from gudgeon.problem import refuse

#: Joints that an operation can close; only these can stand open.
CLOSABLE = frozenset({"holder", "head", "base", "keepers", "tensioner", "sprocket", "plug", "cover"})
#: What a two-turn condition restarts from.
TURNING = frozenset({"holder", "tensioner", "sprocket", "direction"})

PartFact = PartReceived | PartRemoved | PartFitted | PartsSwapped


class Work:
    """Touches by key, the state of joints, and what was done, gathered in the order in which it happened."""

    def __init__(self, anatomy: Anatomy, inventory: Inventory) -> None:
        self.anatomy, self.inventory = anatomy, inventory
        self.touched: dict[Key, list[Touch]] = {}
        self.open_joints: dict[str, int] = {}
        self.worked: set[Key] = set()
        self.renewed: set[Key] = set()
        self.clean: set[Key] = set()
        self.done: list[Done] = []
        self.pairs: list[tuple[int, tuple[str, str], tuple[str, str]]] = []
        self.unusable: dict[str, int] = {}
        self.turns: float | None = None
        self.dropped_in = self.rags_in = 0

    def timeline(self) -> Timeline:
        """All touches, and what each slot holds at the end."""
        return Timeline(touched=self.touched, held={s: self.inventory.identity(s) for s in self.inventory.slots})

    def touch(self, key: Key, position: Position, entry: Entry, how: How, did: str) -> None:
        """Note that an entry touched a key."""
        one = Touch(position=position, seq=entry.seq, bench=entry.typed.bench, how=how, did=did)
        self.touched.setdefault(key, []).append(one)

    def torqued(self, entry: Entry, joint: str) -> None:
        """The last stage of a joint: it is closed."""
        self.open_joints.pop(joint.split("#")[0], None)

    def operation(self, position: Position, entry: Entry, fact: OperationDone) -> None:
        """An operation: what it disturbs, closes, pairs; a material rule broken makes the part unusable."""
        kind = OPERATIONS.get(fact.operation)
        if kind is None or fact.where not in kind.where(self.anatomy):
            raise refuse(
                f"entry {entry.seq}",
                "There is no {what} at {where} on this engine.",
                "Retract it and write it again.",
                what=fact.operation,
                where=fact.where,
            )
        for feature in kind.disturbs(self.anatomy, fact.where, fact.detail):
            key = self.inventory.key(feature)
            if kind.first_time_only and key in self.clean:
                continue
            if kind.first_time_only:
                self.clean.add(key)
            elif isinstance(feature, Surface):
                self.worked.add(key)
                self.renewed |= {key} if kind.renews else set()
            self.touch(key, position, entry, "disturbed", kind.did)
            if isinstance(feature, Joint):
                self._opened(feature, entry)
        for feature in kind.closes(self.anatomy, fact.where, fact.detail):
            self.open_joints.pop(str(feature), None)
        for slots in kind.pairs(self.anatomy, fact.where):
            self._pair(entry, slots)
        self._material(kind.forbidden_on, entry, fact.where)
        self._turning(fact)
        done = Done(entry=entry, operation=fact.operation, where=fact.where, detail=fact.detail, position=position)
        self.done.append(done)

    def _opened(self, joint: Joint, entry: Entry) -> None:
        if joint.name in CLOSABLE:
            self.open_joints[str(joint)] = entry.seq
        if joint.name in TURNING:
            self.turns = 0.0

    def _pair(self, entry: Entry, slots: tuple[str, str]) -> None:
        one, other = self.inventory.slots.get(slots[0]), self.inventory.slots.get(slots[1])
        if one and other:
            self.pairs.append((entry.seq, (one, other), slots))

    def _material(self, forbidden: tuple[str, ...], entry: Entry, where: str) -> None:
        slot = ""
        if "coated" in forbidden and where in self.anatomy.valves and self.anatomy.layout.side(where).coated:
            slot = f"{where}/valve"
        if "plated" in forbidden and where in self.anatomy.cylinders and self.anatomy.layout.bore == "plated":
            slot = f"{where}/barrel"
        part = self.inventory.slots.get(slot) if slot else None
        if part:
            self.unusable.setdefault(part, entry.seq)

    def _turning(self, fact: OperationDone) -> None:
        match fact.operation:
            case "turn_forwards" if self.turns is not None:
                self.turns += float(fact.detail.get("turns", "2").replace(",", "."))
            case "dropped_in":
                self.dropped_in += 1
            case "rag_in":
                self.rags_in += int(fact.detail.get("count", "1"))
            case "rag_out":
                self.rags_in -= int(fact.detail.get("count", "1"))
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
                self._joints(slot, position, entry, "taken out")
                self.inventory.out.add(slot)
            case PartFitted(part=part, slot=slot):
                self._fit(part, slot, position, entry)
            case PartsSwapped(slot=slot, other=other):
                for one in (slot, other):
                    self._joints(one, position, entry, "exchanged")
                    self.touch(("slot", one), position, entry, "exchanged", f"{_kind(one)} exchanged")
                self.inventory.swap(slot, other)

    def _fit(self, part: str, slot: str, position: Position, entry: Entry) -> None:
        known = self.inventory.parts.get(part)
        if known is not None and slot in self.anatomy.slots and known.kind != self.anatomy.slots[slot].kind:
            what = "A {kind} does not go into {slot}."
            raise refuse(
                f"entry {entry.seq}", what, "Retract it and fit it where it belongs.", kind=known.kind, slot=slot
            )
        self._joints(slot, position, entry, "fitted")
        for changed in self.inventory.assign(part, slot, entry.seq):
            self.touch(("slot", changed), position, entry, "exchanged", f"{_kind(changed)} exchanged")

    def _joints(self, slot: str, position: Position, entry: Entry, how: str) -> None:
        if slot not in self.anatomy.slots:
            what = "This engine has no {slot}."
            raise refuse(f"entry {entry.seq}", what, "Retract it and name a slot the engine has.", slot=slot)
        for joint in self.anatomy.slots[slot].joints:
            self.touch(self.inventory.key(joint), position, entry, "opened", f"{_kind(slot)} {how}")
            self._opened(joint, entry)

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


def _kind(slot: str) -> str:
    return slot.split("/")[-1]


def _place(slot: str) -> str:
    return slot.split("/")[0]
