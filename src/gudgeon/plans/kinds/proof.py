"""The closed engine proves itself before the starter turns it; and a leak is traced to its cause before anything is opened."""

from __future__ import annotations

from collections.abc import Iterable

from gudgeon.anatomy import say
from gudgeon.characteristics.catalogue import CHARACTERISTICS
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.lives import hours_of
from gudgeon.plans.proof_lines import air_lines, path_lines, verdict_lines, wheel_lines
from gudgeon.plans.shape import Given, Line, Plan, Planner
from gudgeon.plans.tested import Tested, tested
from gudgeon.problem import Said, said
from gudgeon.routes.holds import DOWN, FIRST_LOOKS_H
from gudgeon.routes.scopes import SCOPES, asks_for

KEY, NAME = "proof", "proof"
#: Where none of these was touched, the marks and the oil's way to the cams stand as they stood.
CAM_JOINTS = (" holder", " sprocket", " tensioner")
CAM_PROOFS = ("timing_marks", "oil_at_cams")
#: What the closed engine is asked, in this order.
PROVED = ("timing_marks", "lash", "oil_at_cams", "leak_down", "compression")
#: What comes near what, read on the closed head: a thicker base gasket cures it where this job takes the base apart.
NEAR = ("squish", "valve_to_piston")
#: So many holds are named before they are only counted.
NAMED = 6
#: Joints that a test opens itself.
LIGHT = ("cover", "plug")


def plan(given: Given, earlier: tuple[Plan, ...]) -> Plan:
    """What is proved, what failed and why, what the first start waits for, and when it is looked at again."""
    evidence, asked = Evidence(given=given), asks_for(given.state.scope)
    lines = [*_marks(evidence, asked), *_judged(evidence, asked)]
    rests: set[int] = set()
    for cylinder in given.state.anatomy.cylinders:
        found, seqs = _air(evidence, cylinder)
        lines += found
        rests |= seqs
    needs = _needs(given, asked)
    lines += [*_gate(earlier), _recheck(given)]
    near = _failed(given, earlier, tuple(k for k in asked if k in NEAR), NEAR)
    if near:
        return Plan(key=KEY, name=NAME, state="impossible", lines=tuple(lines), needs=needs,
                    rests_on=tuple(sorted(rests)), reasons=near)  # fmt: skip
    opened = [j for j in given.state.open_joints if not j.endswith(LIGHT)]
    if opened:
        why = said("joints still open: {n}; nothing is proved before they are at final torque", n=len(opened))
        return Plan(
            key=KEY, name=NAME, state="waits", lines=tuple(lines), rests_on=tuple(sorted(rests)), reasons=(why,)
        )
    off = _off(given, asked)
    if off:
        return Plan(key=KEY, name=NAME, state="ready", lines=tuple(lines), needs=needs,
                    rests_on=tuple(sorted(rests)), reasons=off)  # fmt: skip
    failed = _failed(given, earlier, asked, PROVED)
    if failed:
        return Plan(key=KEY, name=NAME, state="impossible", lines=tuple(lines), needs=needs,
                    rests_on=tuple(sorted(rests)), reasons=failed)  # fmt: skip
    done = said("everything this job asks is proved") if not needs else said("proofs open: {n}", n=len(needs))
    return Plan(key=KEY, name=NAME, state="waits" if needs else "nothing to do", lines=tuple(lines), needs=needs,
                rests_on=tuple(sorted(rests)), reasons=(done,))  # fmt: skip


def _marks(evidence: Evidence, asked: tuple[str, ...]) -> Iterable[Line]:
    if "timing_marks" in asked:
        yield from verdict_lines(evidence, "timing_marks", "timing marks")
    yield from wheel_lines(evidence)


def _judged(evidence: Evidence, asked: tuple[str, ...]) -> Iterable[Line]:
    for key, name in (("lash", "lash after two turns"), ("oil_at_cams", "oil at the cams")):
        if key in asked:
            yield from verdict_lines(evidence, key, name)


def _air(evidence: Evidence, cylinder: str) -> tuple[list[Line], set[int]]:
    """The air tests of a cylinder: as it stands, and as found where that differs; causes where too much leaks."""
    now, then = tested(evidence, cylinder, "now"), tested(evidence, cylinder, "as found")
    tests = [test for test in (now, then) if not test.empty]
    if now.rests_on == then.rests_on:
        tests = tests[:1]
    lines: list[Line] = []
    for test in tests:
        lines += air_lines(evidence, test)
        if _too_much(evidence.given, test):
            lines += path_lines(evidence, test)
    return lines, {seq for test in tests for seq in test.rests_on}


def _too_much(given: Given, test: Tested) -> bool:
    """Whether more leaks than the book or the workshop allows; air that was heard counts where nothing was read."""
    worst, verdict = test.worst, given.judged.at("leak_down", test.cylinder)
    most = verdict.high if verdict is not None and verdict.high is not None else given.rules.leak_down_most.value
    if worst is None or worst.known is None:
        return bool(test.heard)
    return worst.known.value > most


def _needs(given: Given, asked: tuple[str, ...]) -> tuple[str, ...]:
    """Every proof this scope asks for that does not stand; of the cams only where they were apart."""
    apart = any(joint.endswith(CAM_JOINTS) for joint in given.state.touched_joints)
    return tuple(
        f"{key}@{place}"
        for key in PROVED
        if key in asked and (key not in CAM_PROOFS or apart)
        for place in CHARACTERISTICS[key].where(given.state.anatomy)
        if not ((verdict := given.judged.at(key, place)) and verdict.good)
    )


def _off(given: Given, asked: tuple[str, ...]) -> tuple[Said, ...]:
    """Marks that are off are set again, not given up."""
    single = given.state.anatomy.layout.cylinders == 1
    bad = [v for v in given.judged.of("timing_marks") if v.bad and v.fresh] if "timing_marks" in asked else []
    return tuple(said("timing marks, {where}: {said}: nothing is turned further; tensioner out, then the sprocket; set the cam "
                      "to its mark, close, two turns, read again", where=say(v.place, single=single), said=v.said)
                 for v in bad)  # fmt: skip


def _failed(given: Given, earlier: tuple[Plan, ...], asked: tuple[str, ...], keys: tuple[str, ...]) -> tuple[Said, ...]:
    """What was read on the closed engine and is bad: reading on does not cure it, and this job plans nothing that does."""
    state = given.state
    if state.scope in DOWN and not any(joint.endswith((" head", " base")) for joint in state.touched_joints):
        return ()  # as found: the job is about to take it apart
    plans = {p.key for p in earlier}
    planned = {"timing_marks", *(("lash",) if "shims" in plans else ()), *(NEAR if "base_gasket" in plans else ())}
    bad = [v for key in keys if key in asked and key not in planned for v in given.judged.of(key) if v.bad and v.fresh]
    words = [said("{name}: {said}, {word}", name=v.name, said=v.said, word=v.verdict) for v in bad]
    way = said(
        "it does not pass as it stands: take it apart where it fails, widen the job, or give it up with this reason"
    )
    return (*words, way) if words else ()


def _gate(earlier: tuple[Plan, ...]) -> Iterable[Line]:
    """The first start and the holds that stand before it, as the route has them."""
    route = next((p for p in earlier if p.key == "route"), None)
    holds = [dict(line.numbers) for line in route.lines] if route else []
    states = {str(n["hold"]): n["hold_state"] for n in holds if "hold" in n}
    if "H12" not in states:
        return
    before = [key for key in states if key not in ("H12", "H13")]
    left = [key for key in before if states[key] in ("open", "undone")]
    if states["H12"] in ("passed", "signed against"):
        words = said("first start: H12 {state}", state=str(states["H12"]))
    else:
        named = ", ".join(left) if len(left) <= NAMED else f"{len(left)} holds, {left[0]} first"
        words = said("DO NOT START: H12 is {state}{left}", state=str(states["H12"]),
                     left=f"; before it {named}" if left else "")  # fmt: skip
    caution = said("First start outdoors, stop switch in hand, extinguisher at hand; stop after ten seconds without oil at the "
                   "cams. The maker's manual, local codes and licensed practice come first.")  # fmt: skip
    yield Line(where="", what=words, numbers=(("of", "first start"), ("state", str(states["H12"]))), because=(caution,))


def _recheck(given: Given) -> Line:
    """When lash, fluids and leaks are looked at again after the first hours."""
    hours = hours_of(given)
    looks = [hours + h for h in FIRST_LOOKS_H] if hours is not None else list(FIRST_LOOKS_H)
    numbers = tuple((f"look_{n}_h", at) for n, at in enumerate(looks, 1))
    spoken = " and ".join(f"{at:g} h" for at in looks) + ("" if hours is not None else " from the first start")
    return Line(where="", what=said("look again at {looks}: lash cold, oil and filter, coolant, leaks", looks=spoken),
                numbers=(("of", "recheck"), *numbers), because=(_settles(given),))  # fmt: skip


def _settles(given: Given) -> Said:
    again = [f.name for f in given.book.fasteners if f.retighten != "never"]
    if not again:
        return said("a train that ran warm once has settled: the first lash after it is the one that counts")
    return said("retighten cold, where the book says so: {names}; lash after it", names=", ".join(again))


KIND = Planner(key=KEY, name=NAME, plan=plan, scopes=tuple(SCOPES))
