"""Readings and other evidence as they were taken: what they observed, resolved to the parts that stood there."""

from __future__ import annotations

from gudgeon.anatomy import Anatomy, Joint
from gudgeon.job.belief import Belief
from gudgeon.job.entries import Entry, Finding, GoNoGo, HoldPassed, Reading, TorqueApplied
from gudgeon.job.freshness import Observed, Position, Timeline
from gudgeon.job.joints import OPENED_BY_TESTS
from gudgeon.job.look import Look, look, look_at, look_of_hold, places, subject_slot
from gudgeon.job.parts import AS_IT_CAME, Inventory
from gudgeon.job.state import Evidence, Taken
from gudgeon.job.work import Work
from gudgeon.job.zeros import Zeros
from gudgeon.measurands.own import measurands
from gudgeon.measurands.shape import NEEDS, NOT, Measurand
from gudgeon.problem import Refused, Said, refuse, said
from gudgeon.units import read

#: Above this an engine is not cold for a lash (common practice, no source).
WARMEST_COLD_C = 35.0

__all__ = ["Takings", "subject_slot"]


class Takings:
    """Gathers evidence during replay, each piece with the timeline that says at the end whether it is fresh."""

    def __init__(self, anatomy: Anatomy, inventory: Inventory, work: Work, beliefs: tuple[Belief, ...]) -> None:
        self.anatomy, self.inventory, self.work, self.beliefs = anatomy, inventory, work, beliefs
        self.timeline = Timeline(touched=work.touched, held=inventory.held)
        self.zeros = Zeros(work.touched)
        self.taken: list[Taken] = []
        self.aged: list[Evidence] = []

    def reading(self, position: Position, entry: Entry, fact: Reading | GoNoGo) -> None:
        """A reading: resolve what it observed now."""
        kind = measurands(self.anatomy).get(fact.measurand)
        if kind is None:
            raise refuse(f"entry {entry.seq}", "Nobody knows the measurand {key}.", "Retract it.", key=fact.measurand)
        if fact.where.startswith("part:"):
            part = fact.where[5:]
            seen = self._of_part(kind, part, entry)
            observed = _of_part_alone(position, entry, part, seen)
            found = part.startswith(AS_IT_CAME) and self.work.changed.isdisjoint(observed.keys)
        else:
            seen = self._at(kind, fact.where, entry)
            part = (self.inventory.slots[seen.subject] or "") if seen.subject else ""
            observed = self._observed(position, entry, seen, travels=bool(part))
            found = self._as_found(seen, observed)
        one = Taken(
            entry=entry,
            observed=self.zeros.read(observed, fact.gauge),
            timeline=self.timeline,
            fact=fact,
            part=part,
            as_found=found,
            trial=self._trial(kind, seen),
            unmet=_unmet(kind, fact),
            other_belief=tuple(b.retraction.seq for b in self.beliefs if b.held_by(entry, observed)),
        )
        self.taken.append(one)

    def _at(self, kind: Measurand, where: str, entry: Entry) -> Look:
        """What this kind looks at there; a place that it does not have is refused."""
        if where not in places(kind.where, self.anatomy):
            what, remedy = "This engine has no {what} at {where}.", "Retract it and name a place it has."
            raise refuse(f"entry {entry.seq}", what, remedy, what=kind.name, where=where)
        return look_at(kind.observes, self.anatomy, where)

    def _of_part(self, kind: Measurand, part: str, entry: Entry) -> Look:
        known = self.inventory.parts.get(part)
        there = kind.where(self.anatomy)
        seen = look_at(kind.observes, self.anatomy, there[0]) if there else None
        if known is None or seen is None or not seen.subject or self.anatomy.slots[seen.subject].kind != known.kind:
            what = "The {what} of this part alone cannot be measured."
            raise refuse(f"entry {entry.seq}", what, "Measure it in its place.", what=kind.name)
        return seen

    def _observed(self, position: Position, entry: Entry, seen: Look, *, travels: bool) -> Observed:
        held = self.inventory.held
        return Observed(
            position=position,
            bench=entry.typed.bench,
            seen=entry.typed.seen,
            keys=seen.keys(self.inventory),
            features=seen.labels,
            slots=tuple([(slot, held[slot]) for slot in seen.slots]),
            travels=travels,
        )

    def _as_found(self, seen: Look, observed: Observed) -> bool:
        """Whether nothing it observed had been worked or opened, and every part was the one the engine came with."""
        untouched = self.work.changed.isdisjoint(k for k in observed.keys if k[1] not in OPENED_BY_TESTS)
        return untouched and self.inventory.renewed.isdisjoint(seen.slots)

    def _trial(self, kind: Measurand, seen: Look) -> tuple[Said, ...]:
        """Why a reading plans but never releases: a joint it looks across stands open, or the train was not turned."""
        opened, turns = self.work.open_joints, self.work.turns
        if not opened and turns is None:
            return ()
        joints = (*seen.closable, "engine tensioner") if kind.key == "lash" else seen.closable
        found = [said("{joint} not at final torque", joint=j) for j in joints if j in opened]
        if turns is not None and turns < 2 and seen.across and kind.key in ("lash", "timing_marks"):
            found.append(said("not turned two turns since"))
        return tuple(found)

    def evidence(self, position: Position, entry: Entry, fact: Finding | TorqueApplied | HoldPassed) -> None:
        """A torque, a hold or a finding: it ages with the features it rests on."""
        seen, part = self._rests_on(fact)
        observed = self._observed(position, entry, seen, travels=bool(part))
        self.aged.append(Evidence(entry=entry, observed=observed, timeline=self.timeline, fact=fact, part=part))

    def _rests_on(self, fact: Finding | TorqueApplied | HoldPassed) -> tuple[Look, str]:
        match fact:
            case TorqueApplied(joint=joint):
                place, _, name = joint.split("#")[0].partition(" ")
                return look((Joint(place=place, name=name),)), ""
            case HoldPassed(hold=hold):
                return look_of_hold(hold, self.anatomy), ""
            case Finding(where=where):
                part = where[5:] if where.startswith("part:") else self.inventory.slots.get(where)
                return look(()), part or ""


def _of_part_alone(position: Position, entry: Entry, part: str, seen: Look) -> Observed:
    """What is seen of a part that is measured by itself, wherever it lies."""
    names = [f.name for f in seen.features]
    return Observed(
        position=position,
        bench=entry.typed.bench,
        seen=entry.typed.seen,
        keys=tuple((part, name) for name in names),
        features=tuple(f"part:{part} {name}" for name in names),
        slots=(),
        travels=True,
    )


def _unmet(kind: Measurand, fact: Reading | GoNoGo) -> tuple[Said, ...]:
    """What was not as it must be: said at the bench, or told by the thermometer."""
    told = (said("read warm: not usable"),) if _warm(kind, fact) else ()
    off = tuple(need.removeprefix(NOT) for need in fact.needs if need.startswith(NOT))
    return told + tuple(
        said("not usable, for it was not so: {need}", need=NEEDS[need]) for need in off if need in NEEDS
    )


def _warm(kind: Measurand, fact: Reading | GoNoGo) -> bool:
    temperature = fact.temperature if isinstance(fact, Reading) else ""
    if "cold" not in kind.needs or not temperature:
        return False
    try:
        return read(temperature, "temperature", unit="°C").value > WARMEST_COLD_C
    except Refused:
        return False
