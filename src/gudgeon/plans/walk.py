"""The steps of the route at their places, and how far the job has come on them: read from its joints, never ticked off."""

from __future__ import annotations

from dataclasses import dataclass, replace

from gudgeon.job.state import JobState
from gudgeon.operations.own import operations
from gudgeon.plans.hold_needs import did_since_drained, did_since_opened
from gudgeon.plans.holds import HoldStatus, standing
from gudgeon.plans.shape import Given, Plan
from gudgeon.routes.own import last_holds, steps
from gudgeon.routes.steps import FIRST_HOLDS, Step

#: Fewer turns prove nothing; opening a holder, the tensioner or a sprocket, or turning back, begins anew.
TURNS = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """One thing met on the route: a step at a place, a hold, or a plan that is to be carried out here."""

    done: bool
    step: Step | None = None
    place: str = ""
    hold: HoldStatus | None = None
    plan: Plan | None = None


def walk(given: Given, earlier: tuple[Plan, ...]) -> tuple[Met, ...]:
    """Everything the route meets, in order."""
    holds = {h.hold.key: h for h in standing(given)}
    moved = _moved_cams(given, earlier)
    found = [_hold(holds[key]) for key in FIRST_HOLDS if key in holds]
    for step in steps(given.state.anatomy):
        within = given.state.scope in step.scopes
        every = operations(given.state.anatomy)[step.operation].where(given.state.anatomy) if within else ()
        places = [p for p in every if _met(given, step, p, moved)]
        carried = [_carried_out(given, p) for p in earlier if p.key == step.carries]
        found += [m for m in carried if places or (within and not m.done)]
        found += [_hold(holds[key]) for key in step.before if key in holds]
        found += [Met(step=step, place=p, done=_done(given, step, p)) for p in places]
        found += [_hold(holds[key]) for key in step.holds if key in holds]
    found += [_hold(holds[key]) for key in last_holds(given.state.anatomy) if key in holds]
    met = [m for m in found if m.hold is None or m.hold.state != "not needed"]
    return tuple(_implied(met))


def _implied(met: list[Met]) -> list[Met]:
    """Taking apart goes in one order: what lies before a step that was done was done, written or not."""
    last = max((n for n, m in enumerate(met) if m.done and m.step is not None and m.step.phase == "strip"), default=-1)
    return [replace(m, done=True) if n < last and m.step is not None and m.step.phase == "strip" else m
            for n, m in enumerate(met)]  # fmt: skip


def _hold(status: HoldStatus) -> Met:
    return Met(hold=status, done=status.state in ("passed", "signed against"))


def _carried_out(given: Given, plan: Plan) -> Met:
    """A plan at its place on the route: done when nothing of it is left to do with the joints as they stand."""
    left = any(n.get("moved") or n.get("turned") for n in map(dict, (x.numbers for x in plan.lines))) or bool(
        plan.machines
    )
    opened = any(j.endswith(" holder") for j in given.state.open_joints)
    waits = plan.state == "waits" and (opened or plan.key != "shims")
    return Met(plan=plan, done=not left and not waits and plan.state != "impossible")


def _moved_cams(given: Given, earlier: tuple[Plan, ...]) -> frozenset[str]:
    """The cams that come out for a shim: to change it, or to read it once every lash is known."""
    anatomy = given.state.anatomy
    plan = next((p for p in earlier if p.key == "shims"), None)
    if plan is None:
        return frozenset()
    valves = [line.where for line in plan.lines if dict(line.numbers).get("moved") and line.where]
    wanted = [need.partition("@") for need in plan.needs]
    if not any(key == "lash" for key, _, _ in wanted):
        valves += [place for key, _, place in wanted if key == "shim_thickness" and place in anatomy.valves]
    return frozenset(anatomy.cam(v) for v in valves if anatomy.layout.side(v).lift_cam)


def _met(given: Given, step: Step, place: str, moved: frozenset[str]) -> bool:
    """Whether a step is met here: in a valves job only what a shim moves, or what was opened already, is taken apart."""
    state, layout = given.state, given.state.anatomy.layout
    if step.joint == "tensioner" and layout.cam_drive not in ("chain", "belt"):
        return False
    if step.joint == "sprocket" and layout.cam_drive == "pushrod":
        return False
    if state.scope != "valves" or step.only == "always":
        return True
    if step.joint and f"{place} {step.joint}" in state.touched_joints:
        return True
    return place in moved if step.joint == "holder" else bool(moved) or _opened(given)


def _opened(given: Given) -> bool:
    return any(j.endswith(" holder") for j in given.state.touched_joints)


def _done(given: Given, step: Step, place: str) -> bool:
    """Whether it is done: a joint that was touched was opened, one that was touched and is shut was closed."""
    state = given.state
    joint = f"{place} {step.joint}"
    if step.joint:
        return joint in state.touched_joints and (step.phase == "strip" or joint not in state.open_joints)
    did = bool(state.did(step.operation, place))
    match step.operation:
        case "turn_forwards":
            open_now = any(j.split(" ")[-1] in ("holder", "tensioner", "sprocket") for j in state.open_joints)
            return did and not open_now and (state.turns is None or state.turns >= TURNS)
        case "rag_in":
            return did_since_opened(state, step.operation, "base")
        case "rag_out":
            return state.rags_in <= 0 and (bool(state.did("rag_in")) or not _open(state, "base"))
        case "fill_fluids":
            return did_since_drained(state, step.operation)
        case _:
            return did


def _open(state: JobState, name: str) -> bool:
    return any(joint.endswith(f" {name}") for joint in state.open_joints)
