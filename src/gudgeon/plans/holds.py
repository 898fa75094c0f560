"""Where the hold points of a job stand: passed on evidence, signed against it, undone by later work, or open."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from gudgeon.anatomy import say
from gudgeon.characteristics.own import characteristics
from gudgeon.job.entries import HoldPassed
from gudgeon.job.state import Evidence
from gudgeon.plans.incoming import broken_bounds
from gudgeon.plans.lash_proof import unexplained
from gudgeon.plans.shape import Given
from gudgeon.problem import Said, said
from gudgeon.routes.holds import Hold, joints_named
from gudgeon.routes.own import asks_for, holds_of

HoldWord = Literal["open", "passed", "signed against", "undone", "not needed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldStatus:
    """A hold, its word, what it still needs, and the entry that passed it."""

    hold: Hold
    state: HoldWord
    needs: tuple[str, ...]
    reasons: tuple[Said, ...]
    entry: int
    override: str

    @property
    def ready(self) -> bool:
        """Whether it can be signed on its evidence."""
        return not self.needs


def standing(given: Given) -> tuple[HoldStatus, ...]:
    """Every hold of the job's scope."""
    signed: dict[str, Evidence] = {}
    for evidence in given.state.evidence:
        if isinstance(evidence.fact, HoldPassed):
            signed[evidence.fact.hold] = evidence
    found: tuple[HoldStatus, ...] = ()
    for hold in holds_of(given.state.scope, given.state.anatomy):
        found = (*found, _status(given, hold, signed.get(hold.key), found))
    return found


def _status(given: Given, hold: Hold, signed: Evidence | None, before: tuple[HoldStatus, ...]) -> HoldStatus:
    needs = _needed(given, hold) + (_open(hold, before) if signed is None or not signed.fresh else ())
    fact = signed.fact if signed else None
    override = fact.override if isinstance(fact, HoldPassed) else ""
    reasons: tuple[Said, ...] = ()
    state: HoldWord = "open"
    if signed is None and hold.if_opened and not _opened(given, hold.if_opened):
        state, needs = "not needed", ()
    elif signed is not None and not signed.fresh:
        state = "undone"
        reasons = tuple(said("undone by entry {n}: {did}", n=r.entry, did=str(r.words)) for r in signed.reasons)
    elif signed is not None:
        state = "signed against" if override else ("undone" if needs else "passed")
    entry = signed.entry.seq if signed else 0
    return HoldStatus(hold=hold, state=state, needs=needs, reasons=reasons, entry=entry, override=override)


def needed(given: Given, hold: Hold) -> tuple[str, ...]:
    """What stands against passing now."""
    return _needed(given, hold) + (_open(hold, standing(given)) if hold.after else ())


def _open(hold: Hold, before: tuple[HoldStatus, ...]) -> tuple[str, ...]:
    """The holds that stand before this one and are open: they keep it from being signed and undo nothing later."""
    return tuple(
        f"hold {s.hold.key} {s.hold.name}" for s in before if s.hold.key in hold.after and s.state in ("open", "undone")
    )


def _needed(given: Given, hold: Hold) -> tuple[str, ...]:
    """Missing evidence, open joints, things inside, work not done, parts used twice."""
    state = given.state
    joints = [f"joint {j}" for j in joints_named(state.anatomy, hold.joints) if str(j) in state.open_joints]
    inside = []
    if hold.nothing_inside and state.rags_in:
        inside.append("rags still counted inside")
    if hold.nothing_inside and state.dropped_in:
        inside.append("something dropped into the engine and not found")
    work = [f"not done: {operation}" for operation in hold.done if not state.did(operation)]
    twice = [f"used twice: {say(slot)}" for slot in (state.used_twice if hold.once else ())]
    return (*_unproved(given, hold), *joints, *inside, *work, *twice)


def _unproved(given: Given, hold: Hold) -> tuple[str, ...]:
    """Addresses without fresh conforming evidence, of what this scope asks for."""
    doubted = {r.valve for r in unexplained(given)} if "lash" in hold.proves else set()
    beyond = broken_bounds(given) if "tip_height" in hold.proves else frozenset()
    asked = set(asks_for(given.state.scope, given.state.anatomy))
    return tuple(
        f"{key}@{place}"
        for key in hold.proves
        if key in asked
        for place in characteristics(given.state.anatomy)[key].where(given.state.anatomy)
        if not _proved(given, key, place)
        or (key == "lash" and place in doubted)
        or (key == "tip_height" and place in beyond)
    )


def _proved(given: Given, key: str, place: str) -> bool:
    verdict = given.judged.at(key, place)
    return verdict is not None and verdict.good


def _opened(given: Given, joints: tuple[str, ...]) -> bool:
    """Whether one of these joints was ever touched in this job."""
    touched = given.state.touched_joints
    return any(str(j) in touched for j in joints_named(given.state.anatomy, joints))
