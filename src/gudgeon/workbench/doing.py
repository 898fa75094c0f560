"""What can be done now, and where: work in groups with its cautions at the step, joints with their stages and wrenches."""

from __future__ import annotations

from msgspec import Struct

from gudgeon.anatomy import Joint, say
from gudgeon.book.fasteners import FastenerRow
from gudgeon.job.entries import TorqueApplied
from gudgeon.job.joints import CLOSABLE
from gudgeon.job.state import JobState
from gudgeon.operations.catalogue import OPERATIONS
from gudgeon.operations.shape import Operation
from gudgeon.plans.shape import Given
from gudgeon.problem import caution
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.view import JobView

#: Work as a bench groups it; what is in none of these is *other work*.
GROUPS: dict[str, tuple[str, ...]] = {
    "open": ("open_cover", "plug_out", "remove_tensioner", "open_sprocket", "open_cam_holder", "open_follower_shaft",
             "loosen_head", "loosen_base", "open_keepers"),
    "tighten": ("seat_keepers", "tap_keepers", "tighten_base", "tighten_head", "retighten_head", "tighten_cam_holder",
                "tighten_sprocket", "release_tensioner", "plug_in", "tighten_cover"),
    "turn, set, warm": ("turn_forwards", "turn_backwards", "adjust_screw", "heat_cycle"),
    "count in and out": ("rag_in", "rag_out", "dropped_in", "found", "dropped"),
    "clean": ("clean", "wash", "decarbonise", "deglaze"),
    "lap, cut, bore": ("lap_valve", "cut_seat", "fit_guide", "ream_guide", "reface_valve", "grind_tip", "fit_spacer", "skim_head",
                       "skim_barrel", "heat_head", "hone", "rebore", "file_ring_gap"),
    "send out, take back": ("sent_out", "came_back"),
    "before closing": ("oil_before_fitting", "apply_locker", "fill_fluids"),
}  # fmt: skip


class PlaceView(Struct, frozen=True, kw_only=True):
    """A place where something can be done, and how often it was."""

    place: str
    words: str
    done: int


class DoingView(Struct, frozen=True, kw_only=True):
    """Something that can be done: where it makes sense now, where else, what it asks to be told, and its caution."""

    key: str
    name: str
    now: tuple[PlaceView, ...]
    else_: tuple[PlaceView, ...]
    details: tuple[str, ...]
    caution: str


class GroupView(Struct, frozen=True, kw_only=True):
    """A group of work: what makes sense now, and the rest."""

    name: str
    now: tuple[DoingView, ...]
    rest: tuple[DoingView, ...]


class StageView(Struct, frozen=True, kw_only=True):
    """One stage of tightening; `entry` is where it was done since the joint was opened."""

    joint: str
    fastener: str
    stage: int
    of: int
    setting: str
    unit: str
    wrench: str
    entry: int


class JointView(Struct, frozen=True, kw_only=True):
    """A joint with its fasteners: whether it is open, its stages, and what to mind."""

    joint: str
    words: str
    open: bool
    stages: tuple[StageView, ...]
    minds: tuple[str, ...]


class BuildView(Struct, frozen=True, kw_only=True):
    """Everything the page of building shows beside the read model."""

    job: JobView
    groups: tuple[GroupView, ...]
    joints: tuple[JointView, ...]
    open_joints: tuple[str, ...]
    wrenches: tuple[tuple[str, str], ...]
    rags_in: int
    dropped_in: int
    fitted: tuple[tuple[str, str], ...]
    out: tuple[tuple[str, str, str], ...]
    oil_due: bool


def building(bench: Workbench, number: str) -> BuildView:
    """The page of building of a job."""
    worked = bench.worked(number)
    given, state = worked.given, worked.given.state
    return BuildView(
        job=worked.view,
        groups=groups(given),
        joints=joints(given),
        open_joints=tuple(_joint_words(state, j) for j in state.open_joints),
        wrenches=tuple((w.id, w.name or w.id) for w in given.shelf.wrenches),
        rags_in=state.rags_in,
        dropped_in=state.dropped_in,
        fitted=tuple((p.slot, p.name) for p in worked.view.parts if p.part and not p.out),
        out=tuple((p.slot, p.name, p.part) for p in worked.view.parts if p.part and p.out),
        oil_due=state.oil_due,
    )


def groups(given: Given) -> tuple[GroupView, ...]:
    """All work this engine can be given, in groups, sensible work first."""
    named = {key for keys in GROUPS.values() for key in keys}
    other = tuple(key for key in OPERATIONS if key not in named)
    found = []
    for name, keys in (*GROUPS.items(), ("other work", other)):
        doings = [d for key in keys if key in OPERATIONS and (d := _doing(OPERATIONS[key], given.state)) is not None]
        if doings:
            found.append(GroupView(name=name, now=tuple(d for d in doings if d.now),
                                   rest=tuple(d for d in doings if not d.now)))  # fmt: skip
    return tuple(found)


def _doing(kind: Operation, state: JobState) -> DoingView | None:
    single = state.anatomy.layout.cylinders == 1
    counts: dict[str, int] = {}
    for done in state.did(kind.key):
        counts[done.where] = counts.get(done.where, 0) + 1
    places = kind.where(state.anatomy)
    if not places:
        return None
    views = tuple(PlaceView(place=p, words=say(p, single=single), done=counts.get(p, 0)) for p in places)
    now = tuple(v for v in views if _sensible(kind, state, v.place))
    return DoingView(
        key=kind.key,
        name=kind.name,
        now=now,
        else_=tuple(v for v in views if v not in now),
        details=kind.details,
        caution=caution(kind.caution),
    )


def _sensible(kind: Operation, state: JobState, place: str) -> bool:
    """Whether the state of its joints, and what is counted inside, let this be done now."""
    closes = [str(f) for f in kind.closes(state.anatomy, place, {})]
    if closes:
        return any(joint in state.open_joints for joint in closes)
    opens = [str(f) for f in kind.disturbs(state.anatomy, place, {}) if isinstance(f, Joint) and f.name in CLOSABLE]
    if opens and kind.key in GROUPS["open"]:
        return any(joint not in state.open_joints for joint in opens)
    match kind.key:
        case "rag_out":
            return state.rags_in > 0
        case "found":
            return state.dropped_in > 0
        case "came_back":
            return len(state.did("sent_out", place)) > len(state.did("came_back", place))
        case _:
            return True


def joints(given: Given) -> tuple[JointView, ...]:
    """Every joint the book gives fasteners for, the open ones first."""
    state = given.state
    names = {str(j): j for slot in state.anatomy.slots.values() for j in slot.joints}
    found = []
    for text, joint in names.items():
        rows = given.book.fasteners_at(joint.place, joint.name)
        if any(row.torque for row in rows):
            found.append(JointView(joint=text, words=_joint_words(state, text), open=text in state.open_joints,
                                   stages=_stages(given, text, rows), minds=_minds(rows)))  # fmt: skip
    return tuple(sorted(found, key=lambda j: not j.open))


def _stages(given: Given, joint: str, rows: tuple[FastenerRow, ...]) -> tuple[StageView, ...]:
    """The stages of all fasteners of a joint, one after the other: the last one closes it."""
    flat = [(row.name, torque) for row in rows for torque in row.torque]
    opened = given.state.open_joints.get(joint, 0)
    applied: dict[int, int] = {}
    for evidence in given.state.evidence:
        fact = evidence.fact
        if isinstance(fact, TorqueApplied) and fact.joint.split("#")[0] == joint and evidence.entry.seq > opened:
            applied[fact.stage] = evidence.entry.seq
    found = []
    for n, (name, torque) in enumerate(flat, 1):
        wrench = given.shelf.wrench_for(torque.value)
        found.append(
            StageView(
                joint=joint,
                fastener=name,
                stage=n,
                of=len(flat),
                setting=str(torque.number),
                unit=torque.unit,
                wrench=wrench.id if wrench else "",
                entry=applied.get(n, 0),
            )
        )
    return tuple(found)


def _minds(rows: tuple[FastenerRow, ...]) -> tuple[str, ...]:
    found: list[str] = []
    for row in rows:
        told = [f"{row.count} × {row.thread}".rstrip(" ×"), f"thread {row.thread_state}" if row.thread_state else "",
                f"under head {row.under_head}" if row.under_head else "", f"locker {row.locker}" if row.locker else "",
                f"washer {row.washer}, {row.washer_side}".strip(", ") if row.washer else "",
                "order " + "–".join(str(n) for n in row.order) if row.order else "",
                f"then turn {row.angle}" if row.angle else "", "always new" if row.renew == "always" else "",
                f"page {row.page}" if row.page else ""]  # fmt: skip
        found.append(f"{row.name}: " + ", ".join(t for t in told if t) + (f". {row.note}" if row.note else ""))
    return tuple(found)


def _joint_words(state: JobState, joint: str) -> str:
    place, _, name = joint.partition(" ")
    where = say(place, single=state.anatomy.layout.cylinders == 1)
    return name if place in ("engine", name) else f"{where} {name}"
