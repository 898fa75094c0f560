"""The engine taken apart along its centre line: where each level stands, and what follows from what.

Derived from verdicts, parts, holds and plans; the job page draws it, and a person across the room reads it.
"""

from __future__ import annotations

from dataclasses import dataclass

from msgspec import Struct

from gudgeon.job.state import JobState
from gudgeon.workbench.asks import AskView, asks_of
from gudgeon.workbench.bench import Workbench
from gudgeon.workbench.build import Worked
from gudgeon.workbench.levels import Level, levels_of
from gudgeon.workbench.view import CharacteristicView, JobView, PartView

GOOD = ("as new", "serviceable", "in setting", "holds", "in line")
SET_WRONG = ("tight", "loose")
BAD = ("past limit", *SET_WRONG, "leaks", "off")
#: What is worst stands first.
RANK = (*BAD, "too close to call", "not comparable", "stale", "not measured")


class LevelView(Struct, frozen=True, kw_only=True):
    """One level: its drawing, a shape and a word for where it stands, its name, two lines, and where it leads."""

    key: str
    drawing: str
    shape: str
    word: str
    name: str
    line1: str
    line2: str
    now: bool
    door: str
    address: str


class EngineView(Struct, frozen=True, kw_only=True):
    """The job page: the read model, its levels from the cover down, what the owner approved, and what follows then."""

    job: JobView
    levels: tuple[LevelView, ...]
    approved: str
    then: tuple[str, ...]


def engine(bench: Workbench, number: str) -> EngineView:
    """The job page of a job."""
    worked = bench.worked(number)
    asks = asks_of(worked.given, worked.plans)
    return EngineView(job=worked.view, levels=stack(worked), approved=_approved(worked.given.state),
                      then=then(worked.view, asks))  # fmt: skip


def stack(worked: Worked) -> tuple[LevelView, ...]:
    """The levels from the cover down."""
    levels = levels_of(worked.given.book.layout)
    here = worked.view.next.address.partition("@")[0] if worked.view.next.do == "measure" else ""
    at = next((level.key for level in levels if here and here in level.about), "")
    return tuple(_level(level, worked, now=level.key == at) for level in levels)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Seen:
    """What is known of a level, gathered once."""

    level: Level
    view: JobView
    state: JobState
    mine: tuple[CharacteristicView, ...]
    parts: tuple[PartView, ...]
    open_joints: tuple[str, ...]
    away: tuple[PartView, ...]

    @property
    def missing(self) -> tuple[CharacteristicView, ...]:
        return tuple(c for c in self.mine if c.verdict in ("not measured", "stale") and not c.spared)

    @property
    def bad(self) -> tuple[CharacteristicView, ...]:
        return tuple(c for c in self.mine if c.verdict in BAD)

    @property
    def to_renew(self) -> tuple[PartView, ...]:
        return tuple(p for p in self.parts if p.what == "renew" and not p.new)

    @property
    def to_machine(self) -> tuple[PartView, ...]:
        """What was sent to be machined and still asks for it."""
        plan = self.view.plan("machining")
        places = None if plan is None else {cut.where.split("/")[0] for cut in plan.machines}
        return tuple(
            p for p in self.parts if p.what == "machine" and (places is None or p.slot.split("/")[0] in places)
        )

    @property
    def undecided(self) -> tuple[CharacteristicView, ...]:
        """What failed while no part of it has a decision that answers it."""
        places = {p.slot.split("/")[0] for p in self.parts if p.what in ("renew", "machine", "clean")}
        return tuple(c for c in self.bad if c.verdict not in SET_WRONG and c.place not in places)

    @property
    def to_set(self) -> tuple[CharacteristicView, ...]:
        """Settings that are out: a plan answers them, no decision about a part."""
        return tuple(c for c in self.bad if c.verdict in SET_WRONG)

    @property
    def unclear(self) -> tuple[CharacteristicView, ...]:
        return tuple(c for c in self.mine if c.verdict in ("too close to call", "not comparable"))


def _level(level: Level, worked: Worked, *, now: bool) -> LevelView:
    view, state = worked.view, worked.given.state
    seen = _Seen(
        level=level,
        view=view,
        state=state,
        mine=tuple(c for c in view.characteristics if c.key in level.about and (c.asked or c.fresh is not None)),
        parts=tuple(p for p in view.parts if p.kind in level.kinds),
        open_joints=tuple(j for j in state.open_joints if j.rpartition(" ")[2] in level.joints),
        away=tuple(p for p in view.parts if p.kind in level.kinds and _away(state, p.slot)),
    )
    shape, word = ("now", "now") if now else _standing(seen)
    line1, line2 = _lines(seen, now)
    door, address = _leads(seen, now)
    return LevelView(key=level.key, drawing=level.drawing, shape=shape, word=word, name=level.name, line1=line1,
                     line2=line2, now=now, door=door, address=address)  # fmt: skip


def _away(state: JobState, slot: str) -> bool:
    """Whether a part was sent out and has not come back."""
    out, back = state.did("sent_out", slot), state.did("came_back", slot)
    return bool(out) and (not back or back[-1].entry.seq < out[-1].entry.seq)


def _standing(seen: _Seen) -> tuple[str, str]:
    rules: tuple[tuple[bool, str, str], ...] = (
        (seen.level.key == "crankcase" and bool(seen.state.dropped_in), "stop", "stop"),
        (bool(seen.undecided), "stop", "decide"),
        (bool(seen.away), "out", "out"),
        (bool(seen.to_renew), "new", "new"),
        (bool(seen.to_machine), "waits", "shop"),
        (bool(seen.to_set), "stop", seen.to_set[0].verdict if seen.to_set else ""),
        (bool(seen.missing) and len(seen.missing) < len(seen.mine), "waits", "waits"),
        (bool(seen.missing), "later", "later"),
        (bool(seen.unclear), "waits", "close"),
        (bool(seen.open_joints), "later", "open"),
        (bool(seen.mine), "done", "good"),
    )
    return next(((shape, word) for true, shape, word in rules if true), ("later", "stays"))


def _lines(seen: _Seen, now: bool) -> tuple[str, str]:
    first: list[str] = [f"measure: {seen.view.next.words}"] if now else []
    first += _parts_line(seen)
    if seen.undecided:
        first.append(f"{len(seen.undecided)} to decide")
    if not first:
        first.append(_measured_line(seen))
    if not seen.mine and not any(first):
        return "", _worst_line(seen) or "not in this job"
    return "; ".join(t for t in first[:2] if t), _worst_line(seen)


def _parts_line(seen: _Seen) -> list[str]:
    found: list[str] = []
    if seen.level.key == "crankcase" and seen.state.dropped_in:
        found.append("something fell in: find it before anything turns")
    for part in seen.away:
        order = next((d.detail.get("order", "") for d in reversed(seen.state.did("sent_out", part.slot))), "")
        found.append(f"{part.kind} out" + (f", order {order}" if order else ""))
    kinds: dict[str, int] = {}
    for part in seen.to_renew:
        kinds[part.kind] = kinds.get(part.kind, 0) + 1
    found += [f"{n} {kind} new" for kind, n in kinds.items()]
    found += [f"{p.name} to be machined" for p in seen.to_machine if p not in seen.away][:1]
    if seen.level.key == "crankcase" and seen.state.rags_in:
        found.append(_count(seen.state.rags_in, "rag in, counted", "rags in, counted"))
    return found


def _measured_line(seen: _Seen) -> str:
    waits = _plan_line(seen)
    if waits:
        return waits
    if not seen.mine:
        return ""
    if not seen.missing:
        return f"{len(seen.unclear)} too close to call" if seen.unclear else "all measured and good"
    stale = sum(1 for c in seen.missing if c.verdict == "stale")
    if stale == len(seen.missing):
        return f"{stale} to read again"
    if len(seen.mine) == 1:
        return f"{seen.mine[0].name.partition(',')[0]} still to measure"
    return f"{len(seen.missing)} of {len(seen.mine)} still to measure"


def _plan_line(seen: _Seen) -> str:
    """What the shim plan says, at the followers; the order, at the gasket that is always new."""
    plan = seen.view.plan("shims") if seen.level.key == "followers" else None
    if plan is None or plan.state == "nothing to do":
        return ""
    if plan.state == "waits":
        return f"{plan.name} wait for {_count(len(plan.needs), 'reading', 'readings') if plan.needs else 'work before them'}"
    return f"{plan.name}: {plan.state}" + (f", {_count(len(plan.lines), 'valve', 'valves')}" if plan.lines else "")


def _worst_line(seen: _Seen) -> str:
    told = sorted((c for c in seen.mine if c.said and c.verdict != "not measured"), key=_rank)
    if seen.open_joints and not told:
        return "open: " + ", ".join(dict.fromkeys(j.rpartition(" ")[2] for j in seen.open_joints))
    if seen.level.key == "followers" and len({c.key for c in told}) == 1 and told[0].key == "lash":
        return ", ".join(f"{_short(c)} {c.said}" for c in sorted(told, key=lambda c: c.place)) + f" · {told[0].verdict}"
    return _sentence(told[0]) if told else ""


def _short(c: CharacteristicView) -> str:
    return c.place.partition(".")[2].replace(".", " ") or c.place


def _sentence(c: CharacteristicView) -> str:
    """A verdict in one breath: where, what, the value, and how far the wall stands."""
    wall = next((w for w in _walls(c) if w), "")
    said = [f"{c.said} {c.unit}".rstrip()] if c.said != c.verdict else []
    return f"{c.name}: " + ", ".join((*said, c.verdict)) + (f" ({wall})" if wall else "")


def _walls(c: CharacteristicView) -> tuple[str, ...]:
    low = f"least {c.low:.{c.places}f}" if c.low is not None else ""
    high = f"most {c.high:.{c.places}f}" if c.high is not None else ""
    if c.value is not None and c.low is not None and c.high is not None:
        return (low,) if abs(c.value - c.low) < abs(c.high - c.value) else (high,)
    return (low, high)


def _rank(c: CharacteristicView) -> int:
    return RANK.index(c.verdict) if c.verdict in RANK else len(RANK)


def _leads(seen: _Seen, now: bool) -> tuple[str, str]:
    """The door behind a level, and the address in it."""
    if now:
        return "measure", seen.view.next.address
    if seen.undecided or seen.to_renew or seen.away:
        return "decide", (
            seen.undecided[0].address if seen.undecided else f"part-{(seen.to_renew or seen.away)[0].slot}"
        )
    if seen.missing:
        return "measure", seen.missing[0].address
    return ("decide", sorted(seen.mine, key=_rank)[0].address) if seen.mine else ("build", "")


def _approved(state: JobState) -> str:
    if not state.approvals:
        return ""
    last = state.approvals[-1][1]
    return f"{last.amount} {last.currency}".strip()


def then(view: JobView, asks: tuple[AskView, ...]) -> tuple[str, ...]:
    """What follows after the one thing asked for."""
    found: list[str] = []
    groups: dict[str, list[AskView]] = {}
    for ask in asks:
        groups.setdefault(ask.measurand, []).append(ask)
    now = view.next.address.partition("@")[0]
    later = [group for measurand, group in groups.items() if measurand != now]
    if later:
        found.append(f"Then: {later[0][0].name}, {_count(len(later[0]), 'place', 'places')}"
                     + (f", and {len(later) - 1} more kinds." if len(later) > 1 else "."))  # fmt: skip
    close = next((c for c in view.characteristics if c.verdict == "too close to call" and c.settles), None)
    if close and (not later or later[0][0].measurand not in close.key):
        found.append(
            f"{close.name[:1].upper()}{close.name[1:]}: too close to call; {close.settles[0].name} settles it."
        )
    found += _order_words(view)
    holds = next((h for h in view.holds if h.state in ("open", "undone")), None)
    if holds and not later:
        found.append(f"Then sign {holds.hold}, {holds.name}.")
    return tuple(found[:3])


def _order_words(view: JobView) -> list[str]:
    order = view.plan("order")
    if order is None:
        return []
    open_lines = [line for line in order.lines if line.numbers.get("to_order")]
    now = sum(1 for line in open_lines if line.numbers.get("sure"))
    wait = len(open_lines) - now
    if not open_lines:
        return []
    return [f"{_count(now, 'line', 'lines')} can be ordered now" + (f", {wait} wait." if wait else ".")]


def _count(n: int, one: str, many: str) -> str:
    return f"{n} {one if n == 1 else many}"
