"""Which part is which, and which slot holds it: identity kept from the start of the job to its end."""

from __future__ import annotations

from collections.abc import Mapping

from gudgeon.anatomy import BY_NUMBER, Anatomy, Feature, Surface
from gudgeon.job.freshness import Key
from gudgeon.job.state import Part
from gudgeon.problem import refuse


class Inventory:
    """Every part by id, every slot with the part assigned to it, and the parts that lie on the bench."""

    def __init__(self, anatomy: Anatomy, numbers: Mapping[str, str]) -> None:
        self.anatomy = anatomy
        self.parts: dict[str, Part] = {}
        self.slots: dict[str, str | None] = {}
        self.out: set[str] = set()
        self._stands: dict[str, str] = {}
        for slot in anatomy.slots.values():
            part = f"orig:{slot.name}"
            self._add(part, slot.kind, numbers.get(slot.name, ""), "", "", 0)
            self.slots[slot.name] = part
            self._stands[part] = slot.name

    def _add(self, part: str, kind: str, number: str, mark: str, thickness: str, seq: int) -> None:
        self.parts[part] = Part(id=part, kind=kind, number=number, mark=mark, thickness=thickness, received=seq)

    def receive(self, part: str, kind: str, number: str, mark: str, thickness: str, seq: int) -> None:
        """A new part in hand."""
        self._add(part, kind, number, mark, thickness, seq)

    def stands(self, part: str) -> str:
        """The slot that holds a part, or an empty text."""
        return self._stands.get(part, "")

    def assign(self, part: str, slot: str, seq: int) -> tuple[str, ...]:
        """Fit a part: the slots whose part is another one now, nested ones and the slot it left included."""
        if part not in self.parts:
            raise refuse(f"entry {seq}", "There is no part {part}.", "Receive it first.", part=part)
        changed = [slot]
        left = self._stands.get(part, "")
        if left and left != slot:
            self.slots[left] = None
            changed.append(left)
        before = self.slots.get(slot)
        if before and self._stands.get(before) == slot:
            del self._stands[before]
        self.slots[slot] = part
        self._stands[part] = slot
        self.out.discard(slot)
        if before != part:
            changed += self._nest(part, slot, seq)
        return tuple(changed)

    def _nest(self, part: str, slot: str, seq: int) -> list[str]:
        """A new head brings its own seats and guides."""
        changed = []
        for inner in self.anatomy.slots.values():
            if inner.parent == slot:
                own = f"{part}/{inner.name}"
                if own not in self.parts:
                    self._add(own, inner.kind, "", "", "", seq)
                self.slots[inner.name] = own
                self._stands[own] = inner.name
                changed.append(inner.name)
        return changed

    def swap(self, slot: str, other: str) -> None:
        """Exchange the parts of two slots."""
        here, there = self.slots[slot], self.slots[other]
        self.slots[slot], self.slots[other] = there, here
        for held, place in ((there, slot), (here, other)):
            if held:
                self._stands[held] = place

    def identity(self, slot: str) -> str:
        """What an exchange is told by: the part, or for gaskets and spacers its number, else its thickness."""
        part = self.slots.get(slot)
        if part is None:
            return ""
        known = self.parts[part]
        if known.kind in BY_NUMBER and (known.number or known.thickness):
            return f"no:{known.number or known.thickness}"
        return part

    def key(self, feature: Feature) -> Key:
        """A feature as the thing itself: a surface of the part assigned now, or a joint at its place."""
        if isinstance(feature, Surface):
            return (self.identity(feature.slot), feature.name)
        return (f"@{feature.place}", feature.name)
