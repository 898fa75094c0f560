"""Which part is which, and which slot holds it: identity kept from the start of the job to its end."""

from __future__ import annotations

from collections.abc import Mapping

from gudgeon.anatomy import BY_NUMBER, Anatomy, Feature, Surface
from gudgeon.job.freshness import Key
from gudgeon.job.state import Part

#: How the identity begins of what the engine came with: its parts, and gaskets, which count by their number.
AS_IT_CAME = ("orig:", "no:")


class Inventory:
    """Every part by id, every slot with the part assigned to it, and the parts that lie on the bench."""

    def __init__(self, anatomy: Anatomy, numbers: Mapping[str, str]) -> None:
        self.anatomy = anatomy
        self.parts: dict[str, Part] = {}
        self.slots: dict[str, str | None] = {}
        #: What each slot holds as an exchange is told: the part, for a gasket its number or thickness, or nothing.
        self.held: dict[str, str] = {}
        #: Slots that hold another part than the one the engine came with.
        self.renewed: set[str] = set()
        self.out: set[str] = set()
        self._stands: dict[str, str] = {}
        self._inside: dict[str, tuple[str, ...]] = {}
        self._carried: dict[str, tuple[str | None, ...]] = {}
        for slot in anatomy.slots.values():
            part = f"orig:{slot.name}"
            self._add(part, slot.kind, numbers.get(slot.name, ""), "", "", 0)
            self._set(slot.name, part)
            self._stands[part] = slot.name
            if slot.parent:
                self._inside[slot.parent] = (*self._inside.get(slot.parent, ()), slot.name)

    def _add(self, part: str, kind: str, number: str, mark: str, thickness: str, seq: int) -> None:
        self.parts[part] = Part(id=part, kind=kind, number=number, mark=mark, thickness=thickness, received=seq)

    def receive(self, part: str, kind: str, number: str, mark: str, thickness: str, seq: int) -> None:
        """A new part in hand."""
        self._add(part, kind, number, mark, thickness, seq)

    def stands(self, part: str) -> str:
        """The slot that holds a part, or an empty text."""
        return self._stands.get(part, "")

    def assign(self, part: str, slot: str, seq: int) -> tuple[str, ...]:
        """Fit a part: the slots that hold another one now, nested ones and the slot it left included."""
        left = self._stands.get(part, "")
        was = self._held(slot, left)
        for head, inside in self._carried.items():
            self._carried[head] = tuple(None if held == part else held for held in inside)
        if left != slot:
            self._lift(slot)
            if left:
                self._lift(left)
            self._put(part, slot, seq)
        self.out.discard(slot)
        return self._changed(was)

    def swap(self, slot: str, other: str, seq: int) -> tuple[str, ...]:
        """Exchange the parts of two slots: the slots that hold another one now."""
        was = self._held(slot, other)
        here, there = self.slots[slot], self.slots[other]
        if slot != other:
            self._lift(slot)
            self._lift(other)
            for part, place in ((there, slot), (here, other)):
                if part:
                    self._put(part, place, seq)
        return self._changed(was)

    def _held(self, *slots: str) -> dict[str, str]:
        return {name: self.held[name] for slot in slots if slot for name in (slot, *self._inside.get(slot, ()))}

    def _changed(self, was: Mapping[str, str]) -> tuple[str, ...]:
        return tuple(slot for slot, held in was.items() if self.held[slot] != held)

    def _lift(self, slot: str) -> None:
        """Take what stands in a slot off, with all that is inside it."""
        part, inside = self.slots[slot], self._inside.get(slot, ())
        if part and inside:
            self._carried[part] = tuple(self.slots[inner] for inner in inside)
        for name in (slot, *inside):
            self._stands.pop(self.slots[name] or "", None)
            self._set(name, None)

    def _put(self, part: str, slot: str, seq: int) -> None:
        """Stand a part in an empty slot: a new head brings its own seats and guides, a known one those it had."""
        self._set(slot, part)
        self._stands[part] = slot
        inside = self._inside.get(slot, ())
        carried = self._carried.pop(part, None)
        for inner, held in zip(inside, carried if carried is not None else (None,) * len(inside), strict=False):
            own = held if carried is not None else f"{part}/{inner}"
            if own and own not in self.parts:
                self._add(own, self.anatomy.slots[inner].kind, "", "", "", seq)
            if own and own not in self._stands:
                self._set(inner, own)
                self._stands[own] = inner

    def _set(self, slot: str, part: str | None) -> None:
        self.slots[slot] = part
        known = self.parts[part] if part else None
        told = (known.number or known.thickness) if known and known.kind in BY_NUMBER else ""
        self.held[slot] = f"no:{slot}:{told}" if told else part or ""
        if self.held[slot].startswith(AS_IT_CAME) or not part:
            self.renewed.discard(slot)
        else:
            self.renewed.add(slot)

    def key(self, feature: Feature) -> Key:
        """A feature as the thing itself: a surface of the part assigned now, or a joint at its place."""
        if isinstance(feature, Surface):
            return (self.held[feature.slot] or f"no:{feature.slot}", feature.name)
        return (f"@{feature.place}", feature.name)
