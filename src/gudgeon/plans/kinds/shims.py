"""One shim changed alone is easy; the whole set, with what lies in the drawers and doubts of every gauge, is not.

A wrong shim costs a day: cams out, timing again. So the set is planned at once and each valve shows its chance to land.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from gudgeon.anatomy import say
from gudgeon.plans import lever
from gudgeon.plans import shim_lines as lines
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.lashes import Room, Window, room_of, window_of
from gudgeon.plans.lever import corrected, levers
from gudgeon.plans.response import Response, exchanged, read_twice, responses
from gudgeon.plans.shape import Given, Plan, Planner
from gudgeon.plans.shim_items import Item, items_for, shim_slots, sizes_on_sale, system_of
from gudgeon.plans.shim_none import NoShim, no_shim
from gudgeon.plans.shim_set import Choice, Lift, best_set, best_with_lifts
from gudgeon.problem import Said, said
from gudgeon.routes.own import asks_for

KEY, NAME = "shims", "shims"
#: What must be done to a valve before its shim can be planned, as slots beside the valve.
FIRST = ("valve", "seat", "guide", "follower")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sorted:
    """Valves by what is to be done: leave them, read them, or plan them."""

    settled: tuple[str, ...]
    unread: tuple[str, ...]
    planned: tuple[str, ...]
    pending: tuple[str, ...]


def plan(given: Given, earlier: tuple[Plan, ...]) -> Plan:
    """The set of shims, and the screws of a side that has none."""
    found = _shims(given, earlier)
    bad = {d.place: d for d in given.judged.of("lash") if d.bad and not given.state.anatomy.has(f"{d.place}/shim")}
    if not bad or not shim_slots(given):
        return found
    rows = tuple(lines.screw(given, place, verdict) for place, verdict in bad.items())
    return replace(found, lines=(*found.lines, *rows), state="ready" if found.state == "nothing to do" else found.state)


def _shims(given: Given, earlier: tuple[Plan, ...]) -> Plan:
    """The set of shims, or what it waits for, or why there is none."""
    evidence = Evidence(given=given)
    windows = {v: w for v in shim_slots(given) if (w := window_of(given, v)) is not None}
    if not windows:
        return _without(given)
    found = _sort(given, tuple(windows), earlier)
    if not (found.unread or found.planned or found.pending):
        words = said("every lash is in its setting: {n} valves, read on the closed engine", n=len(found.settled))
        return Plan(key=KEY, name=NAME, state="nothing to do", reasons=(words,),
                    lines=tuple(lines.stays(evidence, v) for v in found.settled),
                    buys=lines.used(evidence, ()))  # fmt: skip
    if found.pending:
        return _waits_for_work(evidence, found)
    answers = responses(evidence, windows)
    odd = _odd(evidence, [r for r in answers if r.valve in found.planned])
    if odd is not None:
        return odd
    learned = levers(evidence, answers)
    set_ = _set(evidence, corrected(windows, learned), found)
    return replace(set_, reasons=(*set_.reasons, *lever.words(learned)))


def _without(given: Given) -> Plan:
    """No window or no shim: the reason, never nothing."""
    if not shim_slots(given):
        return _screws(given)
    words = said("the book has no window for the lash yet: it is asked with the first reading")
    needs = tuple(f"lash@{v}" for v in shim_slots(given))
    return Plan(key=KEY, name=NAME, state="waits", needs=needs, reasons=(words,))


def _screws(given: Given) -> Plan:
    """Lash set by screws: which to turn, from where to where; nothing is fitted and nothing bought."""
    verdicts = {v: given.judged.at("lash", v) for v in given.state.anatomy.valves}
    bad = tuple(v for v, d in verdicts.items() if d is not None and d.bad)
    unread = tuple(v for v, d in verdicts.items() if d is None or not (d.bad or d.good))
    rows = tuple(lines.screw(given, v, verdicts[v]) for v in bad)
    words = said("lash is set by screws: {bad} to set, {unread} to read", bad=len(bad), unread=len(unread))
    now = _readable(given, unread)
    state = "ready" if bad else ("waits" if now else "nothing to do")
    needs = tuple(f"lash@{v}" for v in now)
    return Plan(key=KEY, name=NAME, state=state, lines=rows, needs=needs, reasons=(words,))  # type: ignore[arg-type]


def _sort(given: Given, valves: tuple[str, ...], earlier: tuple[Plan, ...]) -> _Sorted:
    state, judged = given.state, given.judged
    pending = tuple(v for v in valves if _works_first(v, earlier))
    settled = [v for v in valves if (d := judged.at("lash", v)) is not None and d.good and v not in pending]
    bad = [v for v in valves if (d := judged.at("lash", v)) is not None and d.bad]
    lifted = {state.anatomy.cam(v) for v in bad if state.anatomy.layout.side(v).lift_cam}
    lifted |= {c for c in state.anatomy.cams if f"{c} holder" in state.open_joints}

    def movable(valve: str) -> bool:
        if not state.anatomy.layout.side(valve).lift_cam:
            return valve not in settled
        return state.anatomy.cam(valve) in lifted

    planned = tuple(v for v in valves if v in bad or movable(v))
    rest = tuple(v for v in valves if v not in planned and v not in pending)
    return _Sorted(
        settled=tuple(v for v in rest if v in settled),
        unread=tuple(v for v in rest if v not in settled),
        planned=tuple(v for v in planned if v not in pending),
        pending=pending,
    )


def _works_first(valve: str, earlier: tuple[Plan, ...]) -> bool:
    """Whether seat, guide, valve or follower are still to be worked or renewed."""
    slots = {f"{valve}/{part}" for part in FIRST}
    for one in earlier:
        if one.key == "machining" and any(cut.where == valve for cut in one.machines):
            return True
        if one.key == "dispositions":
            for line in one.lines:
                numbers = dict(line.numbers)
                if line.where in slots and numbers.get("what") in ("renew", "machine") and not numbers.get("done"):
                    return True
    return False


def _waits_for_work(evidence: Evidence, found: _Sorted) -> Plan:
    single = evidence.state.anatomy.layout.cylinders == 1
    where = ", ".join(say(v, single=single) for v in found.pending)
    words = said("shims are planned as one set, after the work on {where}: then its tip height tells", where=where)
    rows = tuple(lines.stays(evidence, v) for v in found.settled)
    return Plan(key=KEY, name=NAME, state="waits", lines=rows, reasons=(words,), buys=lines.used(evidence, ()))


def _odd(evidence: Evidence, found: Sequence[Response]) -> Plan | None:
    """Where a reading contradicts what the last plan said, no further shim is planned upon it."""
    odd = [r for r in found if r.contradicts]
    pairs = exchanged(evidence, found)
    paired = [r for pair in pairs for r in pair]
    odd = [r for r in odd if r in paired or not read_twice(evidence, r)]
    if not odd:
        return None
    rows = [line for a, b in pairs for line in (lines.put_right(evidence, a, b), lines.put_right(evidence, b, a))]
    alone = [r for r in odd if r not in paired]
    rows += [lines.contradiction(r, lever.likely(evidence, r, found)) for r in alone]
    needs = tuple(f"{key}@{r.valve}" for r in alone for key in ("lash", "shim_thickness"))
    reasons = tuple(_exchange_words(evidence, a, b) for a, b in pairs)
    seqs = tuple(sorted({s for r in odd for s in (r.taken.entry.seq, *r.before.rests_on)}))
    state = "waits" if alone else "ready"
    return Plan(key=KEY, name=NAME, state=state, lines=tuple(rows), needs=needs, rests_on=seqs,  # type: ignore[arg-type]
                reasons=(*reasons, *_whys(alone)), buys=lines.used(evidence, ()))  # fmt: skip


def _exchange_words(evidence: Evidence, a: Response, b: Response) -> Said:
    single = evidence.state.anatomy.layout.cylinders == 1
    return said(
        "{one} {off:+.3f} and {other} {back:+.3f}: exactly what {one} and {other} exchanged would give",
        one=say(a.valve, single=single),
        other=say(b.valve, single=single),
        off=a.off.value,
        back=b.off.value,
    )


def _whys(alone: list[Response]) -> tuple[Said, ...]:
    return (
        (
            said("a response that contradicts: dirt under shim or face, wrong TDC, another shim than is written"),
            said("read again: a lash that comes out the same is believed"),
        )
        if alone
        else ()
    )


def _set(evidence: Evidence, windows: Mapping[str, Window], found: _Sorted) -> Plan:
    given = evidence.given
    rooms = {v: room_of(evidence, v, windows[v]) for v in found.planned}
    needs = (*(f"lash@{v}" for v in _readable(given, found.unread)), *_needs(evidence, rooms))
    seqs = tuple(sorted({s for room in rooms.values() for s in room.rests_on}))
    closed = _no_gap(evidence, rooms)
    if closed and "tip_height" not in asks_for(given.state.scope, given.state.anatomy):
        wider = said(
            "a lash over a thinner shim would tell; this job reads no tip heights: widen it to head out, or stop"
        )
        reasons = (*closed, wider, *lines.warnings(evidence, tuple(windows), rooms))
        return Plan(key=KEY, name=NAME, state="impossible", rests_on=seqs, reasons=reasons,
                    lines=tuple(lines.stays(evidence, v) for v in found.settled),
                    buys=lines.used(evidence, ()))  # fmt: skip
    if needs:
        rows = tuple(lines.stays(evidence, v) for v in found.settled)
        reasons = (
            *closed,
            *lines.marks(evidence, rooms),
            *lines.warnings(evidence, tuple(windows), rooms),
        )
        waits = said("a set is planned when every valve of it is known; readings missing: {n}", n=len(set(needs)))
        return Plan(key=KEY, name=NAME, state="waits", lines=rows, needs=_in_reach(given, needs),
                    rests_on=seqs, reasons=(waits, *reasons), buys=lines.used(evidence, ()))  # fmt: skip
    chosen: list[Choice] = []
    without: list[NoShim] = []
    fetched = _fetchable(evidence, windows, found)
    for valves in _systems(given, found.planned):
        picked, why = _of_system(evidence, [rooms[v] for v in valves], fetched)
        chosen += picked
        without += why
    chosen.sort(key=lambda c: given.state.anatomy.valves.index(c.room.valve))
    chance, moved = lines.chance_of(chosen), {c.room.valve for c in chosen}
    rows = (
        *(lines.of_choice(evidence, c, chance) for c in chosen),
        *(lines.stays(evidence, v) for v in found.settled if v not in moved),
        *(way for none in without for way in none.ways),
    )
    summary = (*lines.summary(evidence, chosen, chance), *lines.marks(evidence, rooms))
    reasons = (*(w for none in without for w in none.words), *summary, *lines.warnings(evidence, tuple(windows), rooms))
    return Plan(key=KEY, name=NAME, state="impossible" if without else "ready", lines=rows, rests_on=seqs,
                reasons=reasons, buys=(*lines.buys(given, chosen), *lines.used(evidence, chosen)))  # fmt: skip


def _readable(given: Given, unread: tuple[str, ...]) -> tuple[str, ...]:
    """What is read before the set is planned: with a holder open it waits for two turns of the closed engine."""
    opened = any(joint.endswith(" holder") for joint in given.state.open_joints)
    return () if opened else unread


def _needs(evidence: Evidence, rooms: Mapping[str, Room]) -> tuple[str, ...]:
    """What the planned valves still lack: their room, and the thickness of the shim that stands there."""
    found: list[str] = []
    for valve, room in rooms.items():
        part = evidence.state.slots.get(f"{valve}/shim")
        found += room.needs
        if part and evidence.thickness(part).known is None:
            found.append(f"shim_thickness@{valve}")
    return tuple(found)


def _in_reach(given: Given, needs: tuple[str, ...]) -> tuple[str, ...]:
    """What can be read now: in a job that strips the head anyway, no shim is asked for before its holder is open."""
    anatomy, found = given.state.anatomy, []
    for need in dict.fromkeys(needs):
        key, _, place = need.partition("@")
        under = place in anatomy.valves and anatomy.layout.side(place).lift_cam
        shut = under and f"{anatomy.cam(place)} holder" not in given.state.open_joints
        if key != "shim_thickness" or given.state.scope == "valves" or not shut:
            found.append(need)
    return tuple(found)


def _no_gap(evidence: Evidence, rooms: Mapping[str, Room]) -> tuple[Said, ...]:
    """Why a valve that was read still has no number."""
    found = []
    for valve, room in rooms.items():
        last = next(iter(evidence.at("lash", valve)), None)
        value = evidence.value(last) if last else None
        if room.room is None and value is not None and value.no_gap:
            found.append(
                said(
                    "{where}: no gap gives no number: read tip heights, or a lash over a thinner shim", where=say(valve)
                )
            )
    return tuple(found)


def _systems(given: Given, valves: tuple[str, ...]) -> list[tuple[str, ...]]:
    """The valves by the shims that fit them."""
    groups: dict[str, list[str]] = {}
    for valve in valves:
        groups.setdefault(repr(system_of(given, valve)), []).append(valve)
    return [tuple(group) for group in groups.values()]


def _fetchable(evidence: Evidence, windows: Mapping[str, Window], found: _Sorted) -> tuple[Room, ...]:
    """Valves in setting under cams that are shut, whose shims may be fetched where the workshop says what that costs."""
    if lift_cents(evidence.given) is None or evidence.state.scope != "valves":
        return ()
    lifted = [v for v in found.settled if evidence.state.anatomy.layout.side(v).lift_cam]
    rooms = [room_of(evidence, v, windows[v]) for v in lifted]
    return tuple(r for r in rooms if r.room is not None and not _needs(evidence, {r.valve: r}))


def lift_cents(given: Given) -> int | None:
    """What taking out a cam and putting it back costs here: the work `lift_cam`, by its price or its hours."""
    row = given.shelf.work("lift_cam")
    if row is None or (row.price is None and row.hours is None):
        return None
    hours = row.hours.value * given.rules.hour_price.value if row.hours else 0.0
    return round(100 * (row.price.value if row.price else hours))


def _of_system(evidence: Evidence, rooms: list[Room], fetched: tuple[Room, ...]) -> tuple[list[Choice], list[NoShim]]:
    """The best set of one system, and why for those that no shim can help."""
    given = evidence.given
    system = system_of(given, rooms[0].valve)
    others = [r for r in fetched if system_of(given, r.valve) == system]
    items = items_for(evidence, tuple(r.valve for r in (*rooms, *others)))
    sizes = sizes_on_sale(system, [r.wanted_mm for r in rooms])
    able = [r for r in rooms if best_set([r], items, sizes, given.rules) is not None]
    without = [no_shim(evidence, r, sizes, items) for r in rooms if r not in able]
    picked = _picked(evidence, able, others, items, sizes) if able else ()
    if picked is None:
        why = said("each of {n} valves has a shim, but not all at once: two need the same one", n=len(able))
        return [], [*without, NoShim(why=why)]
    return list(picked), without


def _picked(
    evidence: Evidence, able: list[Room], others: list[Room], items: tuple[Item, ...], sizes: tuple[float, ...]
) -> tuple[Choice, ...] | None:
    """The best set; with paid cam lifts those that stay as they are under a shut cam are left out again."""
    given, anatomy = evidence.given, evidence.state.anatomy
    cam, cost = {r.valve: anatomy.cam(r.valve) for r in (*able, *others)}, lift_cents(given)
    if cost is None or not others:
        return best_set(able, items, sizes, given.rules)
    out = {cam[r.valve] for r in able} | {c for c in anatomy.cams if f"{c} holder" in evidence.state.open_joints}
    lift = Lift(cam_of=cam, shut=frozenset(cam.values()) - out, cam_cost=cost, shim_cost=lines.shim_cents(given, able[0].valve),
                settled=frozenset(r.valve for r in others))  # fmt: skip
    found = best_with_lifts([*able, *others], items, sizes, given.rules, lift)
    stay = {r.valve for r in others}
    return None if found is None else tuple(c for c in found[0] if c.moved or c.room.valve not in stay)


KIND = Planner(key=KEY, name=NAME, plan=plan, scopes=("valves", "cylinder", "head out", "whole top end"))
