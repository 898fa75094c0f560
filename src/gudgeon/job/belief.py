"""Readings taken while work was believed that was later retracted: they count, and they are shown for what they are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.anatomy import Anatomy, Surface
from gudgeon.job.entries import Body, Entry, OperationDone, PartFitted, PartsSwapped, Retraction
from gudgeon.job.freshness import Observed
from gudgeon.job.joints import FIXED_JOINTS
from gudgeon.operations.own import operations
from gudgeon.problem import Refused


@dataclass(frozen=True, slots=True, kw_only=True)
class Belief:
    """Work that was written, its retraction, and the features and slots that it would have changed."""

    work: Entry
    retraction: Entry
    changed: frozenset[str]

    def held_by(self, entry: Entry, observed: Observed) -> bool:
        """Whether who made this entry knew of the work but not of its retraction, and looked at what it changed."""
        if not _knew(entry, self.work) or _knew(entry, self.retraction):
            return False
        return not self.changed.isdisjoint((*observed.features, *(slot for slot, _part in observed.slots)))


def _knew(entry: Entry, of: Entry) -> bool:
    own = entry.typed.bench == of.typed.bench and of.seq < entry.seq
    return own or of.seq <= min(entry.typed.seen, entry.seq - 1)


def beliefs(by_id: Mapping[str, Entry], out: frozenset[str], anatomy: Anatomy) -> tuple[Belief, ...]:
    """Every retracted work with the retraction that stands."""
    found = []
    for entry in by_id.values():
        body = entry.typed.body
        if isinstance(body, Retraction) and entry.typed.id not in out and body.entry in out:
            work = by_id[body.entry]
            changed = _changed(work.typed.body, anatomy)
            found += [Belief(work=work, retraction=entry, changed=changed)] if changed else []
    return tuple(found)


def _changed(body: Body, anatomy: Anatomy) -> frozenset[str]:
    """What a reading shows only as long as the work is believed: surfaces, parts, and joints that are no longer the same."""
    match body:
        case OperationDone(operation=operation, where=where, detail=detail) if operation in operations(anatomy):
            try:
                disturbed = operations(anatomy)[operation].disturbs(anatomy, where, detail)
            except (Refused, KeyError, ValueError, TypeError, AttributeError, IndexError):
                return frozenset()
            return frozenset(str(f) for f in disturbed if isinstance(f, Surface) or f.name in FIXED_JOINTS)
        case PartFitted(slot=slot):
            return _of_slot(anatomy, slot)
        case PartsSwapped(slot=slot, other=other):
            return _of_slot(anatomy, slot) | _of_slot(anatomy, other)
        case _:
            return frozenset()


def _of_slot(anatomy: Anatomy, name: str) -> frozenset[str]:
    joints = anatomy.slots[name].joints if name in anatomy.slots else ()
    inner = (s.name for s in anatomy.slots.values() if s.parent and s.parent == name)
    return frozenset((name, *inner, *(str(j) for j in joints if j.name in FIXED_JOINTS)))
