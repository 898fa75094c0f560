"""What stands against passing a hold: evidence that is missing, old or bad, and nothing that somebody merely ticked off."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta

from gudgeon.anatomy import say
from gudgeon.characteristics.own import characteristics
from gudgeon.job.freshness import Position
from gudgeon.job.state import Evidence, JobState
from gudgeon.operations.own import operations
from gudgeon.plans.fasteners import finals, not_drawn_up, rows_at
from gudgeon.plans.incoming import broken_bounds
from gudgeon.plans.lash_proof import unexplained
from gudgeon.plans.shape import Given
from gudgeon.routes.holds import DOWN, Hold, joints_named
from gudgeon.routes.own import asks_for

#: Once one of these is opened, fluids have run out (common practice, no source).
DRAINS = ("head", "base")


def is_met(given: Given, hold: Hold) -> bool:
    """Whether a hold is met at all: a joint of it was opened, or what calls for it was done."""
    state = given.state
    if hold.if_done and not any(state.did(operation) for operation in hold.if_done):
        return False
    return not hold.if_opened or bool(_touched(state, hold.if_opened))


def needs_of(given: Given, hold: Hold) -> tuple[str, ...]:
    """All that is missing, in the order in which a technician would bring it."""
    state = given.state
    joints = [f"joint {j}" for j in joints_named(state.anatomy, hold.joints) if str(j) in state.open_joints]
    twice = [f"used twice: {say(slot)}" for slot in (state.used_twice if hold.once else ())]
    return (
        *_unproved(given, hold),
        *joints,
        *_inside(state, hold),
        *_work(given, hold),
        *twice,
        *_fasteners(given, hold),
        *_before_opening(state, hold),
        *_parts(state, hold),
        *_authority(state, hold),
    )


def too_early(given: Given, hold: Hold, signed: Evidence | None) -> tuple[str, ...]:
    """That a locker had not cured when its hold was signed."""
    if not hold.cured or signed is None:
        return ()
    found = []
    for joint in joints_named(given.state.anatomy, hold.joints):
        rows = rows_at(given.book, joint)
        for row in (r for r in rows if r.locker and r.cure is not None):
            last = [e for e in finals(given.state, str(joint), row, alone=len(rows) == 1) if e.fresh]
            hours = row.cure.value if row.cure else 0.0
            if last and _time(signed) - _time(last[-1]) < timedelta(hours=hours):
                found.append(f"cure of {row.cure}: {row.name} of {joint}, drawn up in entry {last[-1].entry.seq}")
    return tuple(found)


def _time(evidence: Evidence) -> datetime:
    return datetime.fromisoformat(evidence.entry.typed.typed_at)


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
    return verdict is not None and (verdict.good or verdict.spared)


def _inside(state: JobState, hold: Hold) -> Iterable[str]:
    if hold.nothing_inside and state.rags_in:
        yield "rags still counted inside"
    if hold.nothing_inside and state.dropped_in:
        yield "something dropped into the engine and not found"


def _work(given: Given, hold: Hold) -> Iterable[str]:
    """Work that is not done, or was undone since; grit that was not washed off."""
    state, names = given.state, operations(given.state.anatomy)
    drained = state.scope in DOWN or any(joint.split(" ")[-1] in DRAINS for joint in state.touched_joints)
    for operation in hold.done if drained else ():
        if not did_since_drained(state, operation):
            yield f"not done: {names[operation].name}"
    washed = _last(state, ("wash",))
    for operation in hold.washed:
        for done in state.did(operation):
            if done.position > washed:
                yield f"not washed since: {names[operation].did}, {say(done.where)}"


def did_since_drained(state: JobState, operation: str) -> bool:
    """Whether it was done, and no joint was opened since that lets fluids out."""
    return did_since_opened(state, operation, *DRAINS)


def did_since_opened(state: JobState, operation: str, *names: str) -> bool:
    """Whether it was done, and none of the joints of these names was opened since."""
    opened = max((at for joint, at in state.opened_at.items() if joint.split(" ")[-1] in names), default=())
    return _last(state, (operation,)) > opened


def _last(state: JobState, these: tuple[str, ...]) -> Position:
    return max((d.position for d in state.done if d.operation in these), default=())


def _fasteners(given: Given, hold: Hold) -> Iterable[str]:
    """Fasteners of opened joints that are not written at their last stage, or not retightened after a heat cycle."""
    state = given.state
    for joint in joints_named(state.anatomy, hold.joints) if hold.drawn_up else ():
        if str(joint) in state.touched_joints:
            yield from (f"not drawn up: {name}, {joint}" for name in not_drawn_up(given, joint))
    if (
        hold.retightened
        and any(row.joint == "head" and row.retighten == "after heat cycle" for row in given.book.fasteners)
        and _last(state, ("retighten_head",)) < _last(state, ("heat_cycle",))
    ):
        yield "not retightened since the heat cycle: head"


def _before_opening(state: JobState, hold: Hold) -> Iterable[str]:
    if hold.as_found and not any(t.as_found and t.fact.measurand in hold.as_found for t in state.readings):
        yield "nothing read as found: " + ", ".join(key.replace("_", "-") for key in hold.as_found)


def _parts(state: JobState, hold: Hold) -> Iterable[str]:
    """Parts that must be new and are not, or were decided to be and still stand there; what is still at the shop."""
    for slot in state.anatomy.slots.values():
        opened = any(str(j) in state.touched_joints for j in slot.joints)
        if slot.kind in hold.new and opened and (state.slots.get(slot.name) or "orig:").startswith("orig:"):
            yield f"not new: {say(slot.name)}"
        seq, decided = state.dispositions.get(state.slots.get(slot.name) or "", (0, None))
        if decided is not None and decided.what == "renew" and {j.name for j in slot.joints} & set(hold.decided):
            yield f"still in, decided in entry {seq} to be renewed: {say(slot.name)}"
    for done in state.did("sent_out") if hold.all_back else ():
        if len(state.did("came_back", done.where)) < len(state.did("sent_out", done.where)):
            yield f"not back: {say(done.where)}"


def _authority(state: JobState, hold: Hold) -> Iterable[str]:
    if hold.approved and not state.approvals:
        yield "no approval stands"


def _touched(state: JobState, joints: tuple[str, ...]) -> tuple[str, ...]:
    """The joints of these names that were ever touched in this job."""
    return tuple(str(j) for j in joints_named(state.anatomy, joints) if str(j) in state.touched_joints)
