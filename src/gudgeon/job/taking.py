"""Readings and other evidence as they were taken: what they observed, resolved to the parts that stood there."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.job.belief import Belief
from gudgeon.job.entries import Entry, Finding, GoNoGo, HoldPassed, Reading, TorqueApplied
from gudgeon.job.freshness import Observed, Position, Timeline
from gudgeon.job.parts import Inventory
from gudgeon.job.state import Evidence, Taken
from gudgeon.job.work import CLOSABLE, TURNING, Work
from gudgeon.measurands.catalogue import MEASURANDS
from gudgeon.measurands.shape import Measurand
from gudgeon.problem import Refused, Said, refuse, said
from gudgeon.routes.holds import HOLDS
from gudgeon.units import read

#: Above this an engine is not cold for a lash (common practice, no source).
WARMEST_COLD_C = 35.0


class Takings:
    """Gathers evidence during replay; it is given its timeline when the replay is over."""

    def __init__(self, anatomy: Anatomy, inventory: Inventory, work: Work, beliefs: tuple[Belief, ...]) -> None:
        self.anatomy, self.inventory, self.work, self.beliefs = anatomy, inventory, work, beliefs
        self._taken: list[dict[str, Any]] = []
        self._aged: list[dict[str, Any]] = []

    def reading(self, position: Position, entry: Entry, fact: Reading | GoNoGo) -> None:
        """A reading: resolve what it observed now."""
        kind = MEASURANDS.get(fact.measurand)
        if kind is None:
            raise refuse(f"entry {entry.seq}", "Nobody knows the measurand {key}.", "Retract it.", key=fact.measurand)
        part, features = self._about(kind, fact.where, entry)
        observed = self._observed(position, entry, features, travels=bool(part))
        self._taken.append(
            {
                "entry": entry,
                "observed": observed,
                "fact": fact,
                "part": part,
                "as_found": self._as_found(observed),
                "trial": self._trial(kind, observed),
                "warm": _warm(kind, fact),
                "other_belief": tuple(b.retraction.seq for b in self.beliefs if b.held_by(entry, observed)),
            }
        )

    def _about(self, kind: Measurand, where: str, entry: Entry) -> tuple[str, tuple[Feature, ...]]:
        """The part a reading is about, empty where it is about a place, and the features it observes."""
        if where.startswith("part:"):
            return self._of_part(kind, where[5:], entry)
        if where not in kind.where(self.anatomy):
            what = "This engine has no {what} at {where}."
            raise refuse(f"entry {entry.seq}", what, "Retract it and name a place it has.", what=kind.name, where=where)
        features = kind.observes(self.anatomy, where)
        slot = subject_slot(features)
        return (self.inventory.slots.get(slot) or "" if slot else ""), features

    def _of_part(self, kind: Measurand, part: str, entry: Entry) -> tuple[str, tuple[Feature, ...]]:
        known = self.inventory.parts.get(part)
        places = kind.where(self.anatomy)
        slot = subject_slot(kind.observes(self.anatomy, places[0])) if places else ""
        if known is None or not slot or self.anatomy.slots[slot].kind != known.kind:
            what = "The {what} of this part alone cannot be measured."
            raise refuse(f"entry {entry.seq}", what, "Measure it in its place.", what=kind.name)
        return part, kind.observes(self.anatomy, places[0])

    def _observed(self, position: Position, entry: Entry, features: tuple[Feature, ...], *, travels: bool) -> Observed:
        typed, fact = entry.typed, entry.typed.body
        loose = isinstance(fact, Reading | GoNoGo) and fact.where.startswith("part:")
        part = fact.where[5:] if loose and isinstance(fact, Reading | GoNoGo) else ""
        keys = tuple((part, f.name) if part else self.inventory.key(f) for f in features)
        slots = () if part else tuple(dict.fromkeys(f.slot for f in features if isinstance(f, Surface)))
        return Observed(
            position=position,
            seq=entry.seq,
            bench=typed.bench,
            seen=typed.seen,
            keys=keys,
            features=tuple(f"part:{part} {f.name}" if part else str(f) for f in features),
            slots=tuple((slot, self.inventory.identity(slot)) for slot in slots),
            travels=travels,
        )

    def _as_found(self, observed: Observed) -> bool:
        """Whether nothing it observed had been worked or opened, and every part was the one the engine came with."""
        if any(part and not part.startswith(("orig:", "no:")) for _slot, part in observed.slots):
            return False
        if any(key[0] and not key[0].startswith(("orig:", "@", "no:")) for key in observed.keys):
            return False
        return not any(
            key in self.work.worked if not key[0].startswith("@") else key in self.work.touched for key in observed.keys
        )

    def _trial(self, kind: Measurand, observed: Observed) -> tuple[Said, ...]:
        """Why a reading plans but never releases: a joint it looks across stands open, or the train was not turned."""
        joints = [f"{key[0][1:]} {key[1]}" for key in observed.keys if key[0].startswith("@") and key[1] in CLOSABLE]
        joints += ["engine tensioner"] if kind.key == "lash" else []
        found = [said("{joint} not at final torque", joint=j) for j in joints if j in self.work.open_joints]
        across = any(key[0].startswith("@") and key[1] in TURNING for key in observed.keys)
        if across and self.work.turns is not None and self.work.turns < 2 and kind.key in ("lash", "timing_marks"):
            found.append(said("not turned two turns since"))
        return tuple(found)

    def evidence(self, position: Position, entry: Entry, fact: Finding | TorqueApplied | HoldPassed) -> None:
        """A torque, a hold or a finding: it ages with the features it rests on."""
        features, part = self._rests_on(fact)
        observed = self._observed(position, entry, features, travels=bool(part))
        self._aged.append({"entry": entry, "observed": observed, "fact": fact, "part": part})

    def _rests_on(self, fact: Finding | TorqueApplied | HoldPassed) -> tuple[tuple[Feature, ...], str]:
        match fact:
            case TorqueApplied(joint=joint):
                place, _, name = joint.split("#")[0].partition(" ")
                return (Joint(place=place, name=name),), ""
            case HoldPassed(hold=hold):
                known = HOLDS.get(hold)
                return (known.features(self.anatomy) if known else ()), ""
            case Finding(where=where):
                part = where[5:] if where.startswith("part:") else self.inventory.slots.get(where)
                return (), part or ""

    def taken(self, timeline: Timeline) -> tuple[Taken, ...]:
        """The readings, able to say whether they are fresh."""
        return tuple(Taken(timeline=timeline, **one) for one in self._taken)

    def aged(self, timeline: Timeline) -> tuple[Evidence, ...]:
        """The other evidence, able to say the same."""
        return tuple(Evidence(timeline=timeline, **one) for one in self._aged)


def subject_slot(features: Sequence[Feature]) -> str:
    """The one slot whose surfaces are all that is observed: then the reading travels with the part that stood there."""
    slots = {f.slot if isinstance(f, Surface) else "" for f in features}
    return slots.pop() if len(slots) == 1 else ""


def _warm(kind: Measurand, fact: Reading | GoNoGo) -> bool:
    temperature = fact.temperature if isinstance(fact, Reading) else ""
    if "cold" not in kind.needs or not temperature:
        return False
    try:
        return read(temperature, "temperature", unit="°C").value > WARMEST_COLD_C
    except Refused:
        return False
