"""What can be done now, and where: work in groups with its cautions at the step, joints with their stages and wrenches."""

from __future__ import annotations

import msgspec
from msgspec import Struct

from gudgeon import units
from gudgeon.anatomy import Joint, say
from gudgeon.book.fasteners import FastenerRow
from gudgeon.figures.tightening import TighteningSpec, in_order
from gudgeon.job.entries import OperationDone, TorqueApplied
from gudgeon.job.joints import CLOSABLE
from gudgeon.job.state import JobState
from gudgeon.operations.own import operations
from gudgeon.operations.shape import Operation
from gudgeon.plans.fasteners import Stage, rows_at, stages_of
from gudgeon.plans.shape import Given
from gudgeon.problem import caution
from gudgeon.shelf.parse import Shelf
from gudgeon.shelf.wrenches import Wrench
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.deciding import LooseView, loose
from gudgeon.workbench.torques import set_to
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

    @property
    def left(self) -> tuple[str, int]:
        """The entries for every place where it was not done yet, and how many."""
        bodies = [OperationDone(operation=self.key, where=p.place) for p in self.now if not p.done]
        return msgspec.json.encode(bodies).decode(), len(bodies)


class GroupView(Struct, frozen=True, kw_only=True):
    """A group of work: what makes sense now, and the rest."""

    name: str
    now: tuple[DoingView, ...]
    rest: tuple[DoingView, ...]


class StageView(Struct, frozen=True, kw_only=True):
    """One stage of tightening; `entry` is where it was done since the joint was opened.

    `setting` is what to set on the wrench, `at_bolt` what the bolt gets where an adapter lies between; `turned` is an angle.
    """

    joint: str
    fastener: str
    stage: int
    of: int
    setting: str
    unit: str
    wrench: str
    entry: int
    at_bolt: str = ""
    turned: bool = False


class JointView(Struct, frozen=True, kw_only=True):
    """A joint with its fasteners: whether it is open, its stages, and what to mind."""

    joint: str
    words: str
    open: bool
    stages: tuple[StageView, ...]
    minds: tuple[str, ...]
    orders: tuple[TighteningSpec, ...] = ()


class OutView(Struct, frozen=True, kw_only=True):
    """A part that was taken out: its own slot first, then those of its like."""

    part: str
    words: str
    slots: tuple[tuple[str, str], ...]


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
    out: tuple[OutView, ...]
    loose: tuple[LooseView, ...]
    places: tuple[tuple[str, str], ...]
    oil_due: bool


def building(bench: Workbench, number: str, adapter: dict[str, str] | None = None) -> BuildView:
    """The page of building of a job."""
    worked = bench.worked(number)
    given, state = worked.given, worked.given.state
    return BuildView(
        job=worked.view,
        groups=groups(given),
        joints=joints(given, adapter),
        open_joints=tuple(_joint_words(state, j) for j in state.open_joints),
        wrenches=tuple((w.id, w.name or w.id) for w in given.shelf.wrenches),
        rags_in=state.rags_in,
        dropped_in=state.dropped_in,
        fitted=tuple((p.slot, p.name) for p in worked.view.parts if p.part and not p.out),
        out=tuple(_out(p.slot, p.name, p.part, p.kind, worked.view) for p in worked.view.parts if p.part and p.out),
        loose=loose(given),
        places=tuple((p, say(p, single=state.anatomy.layout.cylinders == 1)) for p in state.anatomy.places),
        oil_due=state.oil_due,
    )


def _out(slot: str, name: str, part: str, kind: str, view: JobView) -> OutView:
    others = ((p.slot, p.name) for p in view.parts if p.kind == kind and p.slot != slot)
    return OutView(part=part, words=name, slots=((slot, name), *others))


def groups(given: Given) -> tuple[GroupView, ...]:
    """All work this engine can be given, in groups, sensible work first."""
    every = operations(given.state.anatomy)
    named = {key for keys in GROUPS.values() for key in keys}
    other = tuple(key for key in every if key not in named)
    found = []
    for name, keys in (*GROUPS.items(), ("other work", other)):
        doings = [d for key in keys if key in every and (d := _doing(every[key], given.state)) is not None]
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


def joints(given: Given, adapter: dict[str, str] | None = None) -> tuple[JointView, ...]:
    """Every joint the book gives fasteners for, the open ones first."""
    state = given.state
    names = {str(j): j for slot in state.anatomy.slots.values() for j in slot.joints}
    found = []
    for text, joint in names.items():
        rows = rows_at(given.book, joint)
        if rows:
            found.append(JointView(joint=text, words=_joint_words(state, text), open=text in state.open_joints,
                                   stages=_stages(given, text, rows, adapter or {}), minds=_minds(rows), orders=_orders(rows)))  # fmt: skip
    for row in (f for f in given.book.fasteners if not f.joint and f.torque):
        alone = f"engine {row.name}"
        stages = _stages(given, alone, (row,), adapter or {})
        found.append(JointView(joint=alone, words=row.name, open=False, stages=stages,
                               minds=_minds((row,)), orders=_orders((row,))))  # fmt: skip
    return tuple(sorted(found, key=lambda j: not j.open))


def _orders(rows: tuple[FastenerRow, ...]) -> tuple[TighteningSpec, ...]:
    """The order of tightening as a drawing, where the book says where each fastener sits."""
    return tuple(
        TighteningSpec(title=row.name, fasteners=in_order(row.positions_mm, row.order))
        for row in rows
        if len(row.positions_mm) > 1 and len(row.positions_mm) == len(row.order)
    )


def _stages(given: Given, joint: str, rows: tuple[FastenerRow, ...], adapter: dict[str, str]) -> tuple[StageView, ...]:
    """The stages of each kind of fastener, which stand by themselves; the joint is closed when all are at their last."""
    applied = {(fact.joint, fact.stage): one.entry.seq for one in given.state.evidence
               if one.fresh and isinstance(fact := one.fact, TorqueApplied)}  # fmt: skip
    found = []
    for row in rows:
        named = f"{joint}#{row.name}"
        for stage in stages_of(row):
            wrench, setting = _in_hand(given.shelf, stage, adapter)
            found.append(
                StageView(
                    joint=named if len(rows) > 1 else joint,
                    fastener=row.name,
                    stage=stage.stage,
                    of=stage.of,
                    setting=setting,
                    unit=stage.unit,
                    wrench=wrench.id if wrench else "",
                    entry=applied.get((named, stage.stage), 0)
                    or (applied.get((joint, stage.stage), 0) if len(rows) == 1 else 0),
                    at_bolt=f"{stage.setting} {stage.unit}" if setting != stage.setting else "",
                    turned=stage.torque_nm is None,
                )
            )
    return tuple(found)


def _in_hand(shelf: Shelf, stage: Stage, adapter: dict[str, str]) -> tuple[Wrench | None, str]:
    """The wrench that is proved where it must be set, and what to set: through the adapter, if there is one."""
    if stage.torque_nm is None:
        return None, stage.setting
    settings = [(w, set_to(stage.torque_nm, adapter, w, "adapter")) for w in shelf.wrenches]
    wrench, setting = min(((w, nm) for w, nm in settings if w.covers(nm)), key=lambda pair: pair[0].high.exact,
                          default=(None, stage.torque_nm))  # fmt: skip
    if not adapter or wrench is None:
        return wrench, stage.setting
    return wrench, f"{units.convert(setting, 'N·m', stage.unit):.3g}"


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
