"""What lash each valve will have over a given shim: from its last lash, or, after seat work, from tip heights.

What head and cam leave room for, H = f·lash + tip + shim, changes only with head, cam, follower and pivot. So a lash
read before the seat was cut still plans the shim, once the tip was read again. Source: `gudgeon.mechanics.lash`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from gudgeon.anatomy import Surface
from gudgeon.job.freshness import Reason
from gudgeon.job.state import Taken
from gudgeon.mechanics.lash import factor_for
from gudgeon.metrology.known import Known
from gudgeon.plans.evidence import Evidence
from gudgeon.plans.shape import Given
from gudgeon.problem import Said, said


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """Where a lash must lie and where it is aimed, in mm, and how much thickness one unit of lash is worth."""

    low_mm: float
    high_mm: float
    aim_mm: float
    factor: float
    u_factor: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What lash and shim share at one valve: `room` = f·lash + shim; or what is still missing for it."""

    valve: str
    window: Window
    room: Known | None = None
    tip: Known | None = None
    needs: tuple[str, ...] = ()
    basis: tuple[Said, ...] = ()
    rests_on: tuple[int, ...] = ()
    lash_taken: Taken | None = None
    read_mm: float | None = None

    def lash(self, shim: Known) -> Known:
        """The lash over a shim: what both share in doubt cancels."""
        assert self.room is not None
        room, share = self.room, 1.0 / self.window.factor  # the difference in one go: sets try hundreds of them
        parts = (*((n, p * share) for n, p in room.parts), *((n, -p * share) for n, p in shim.parts))
        value = (room.value - shim.value) * share
        if self.window.u_factor and self.read_mm is not None:
            side = "intake" if ".in" in self.valve else "exhaust"
            parts = (*parts, (f"lever ratio, {side}", (self.read_mm - value) * share * self.window.u_factor))
        return Known(value=value, parts=parts, nu=room.nu + shim.nu)

    @property
    def wanted_mm(self) -> float:
        """The shim that would give the aim exactly."""
        assert self.room is not None
        return self.room.value - self.window.factor * self.window.aim_mm


def window_of(given: Given, valve: str) -> Window | None:
    """The window of a valve's lash; none while the book has no limit."""
    row = given.book.limit_for("lash", valve)
    if row is None:
        return None
    low = row.least if row.least is not None else row.new_low
    high = row.most if row.most is not None else row.new_high
    if low is None or high is None:
        return None
    side = given.state.anatomy.layout.side(valve)
    aim = given.book.aim("in" if ".in" in valve else "ex")
    aim = aim if aim is not None and low <= aim <= high else given.rules.aim(low, high)
    return Window(low_mm=low, high_mm=high, aim_mm=aim, factor=factor_for(side.ratio, side.lash_read))


def room_of(evidence: Evidence, valve: str, window: Window, *, before: Taken | None = None) -> Room:
    """The room of a valve from its newest usable lash, or from one older than `before`."""
    bare = Room(valve=valve, window=window)
    missing: tuple[str, ...] = ()
    for taken in evidence.at("lash", valve):
        if before is not None and taken.observed.position >= before.observed.position:
            continue
        lash = evidence.number(taken)
        if lash is None or taken.warm:
            continue
        found = _from(evidence, bare, taken, lash)
        if found.room is not None:
            return found
        missing = missing or found.needs
    return replace(bare, needs=missing or (f"lash@{valve}",))


def _from(evidence: Evidence, bare: Room, taken: Taken, lash: Known) -> Room:
    valve, factor = bare.valve, bare.window.factor
    sides = [_side(evidence, valve, reason) for reason in taken.reasons]
    if "stack" in sides:
        return bare
    slot = f"{valve}/shim"
    shim = evidence.thickness(taken.held(slot))
    needs = () if shim.known is not None else (_thickness_at(evidence, taken.held(slot), valve),)
    seqs = (taken.entry.seq, *shim.rests_on)
    moved, why, tip_seqs, tip = _tips(evidence, valve, taken) if "valve" in sides else (None, (), (), None)
    if "valve" in sides and moved is None:
        return replace(bare, needs=(*needs, *why_needs(evidence, valve, taken)))
    if shim.known is None:
        return replace(bare, needs=needs)
    room = lash.times(factor).plus(shim.known)
    room = room if moved is None else room.plus(moved)
    basis = (said("from the lash of entry {entry}", entry=taken.entry.seq), *why)
    return replace(bare, room=room, tip=tip, basis=basis, rests_on=(*seqs, *tip_seqs), lash_taken=taken,
                   read_mm=lash.value)  # fmt: skip


def stack_of(evidence: Evidence, valve: str, window: Window) -> tuple[Known, tuple[int, ...]] | None:
    """H = f·lash + tip + shim at a valve, from the newest lash whose tip height is known; it outlives work on the seat."""
    for taken in evidence.at("lash", valve):
        lash, then = evidence.number(taken), tip_then(evidence, valve, taken)
        shim = evidence.thickness(taken.held(f"{valve}/shim"))
        if lash is None or taken.warm or then is None or shim.known is None:
            continue
        if any(_side(evidence, valve, reason) == "stack" for reason in taken.reasons):
            continue
        seqs = (taken.entry.seq, then[1].entry.seq, *shim.rests_on)
        return lash.times(window.factor).plus(shim.known).plus(then[0]), seqs
    return None


def _side(evidence: Evidence, valve: str, reason: Reason) -> str:
    """What a later change means for an old lash: nothing, another tip height, or that it is worth nothing now."""
    if reason.how == "order not known":
        return "stack"
    if not reason.surface:
        if reason.feature.endswith(" adjuster"):
            return "stack"
        return "valve" if reason.feature.endswith(" guide axis") else ""
    if reason.feature.startswith((f"{valve}/valve", f"{valve}/seat")):
        return "valve"
    if evidence.only_cleaned(reason) or (reason.how == "exchanged" and reason.feature == f"{valve}/shim"):
        return ""
    return "stack"


def _tips(
    evidence: Evidence, valve: str, lash: Taken
) -> tuple[Known | None, tuple[Said, ...], tuple[int, ...], Known | None]:
    """How far the tip has gone down since a lash was read (negative: risen), with its words and entries."""
    now, then = evidence.latest("tip_height", valve), tip_then(evidence, valve, lash)
    if now is None or then is None or datum_moved(evidence, valve, lash, now[1]):
        return None, (), (), None
    fell = then[0].plus(now[0], -1.0)
    same = then[1].entry.seq == now[1].entry.seq
    words = [said("tip {then:.2f}, now {now:.2f}", then=then[0].value, now=now[0].value)]
    if same:
        words = [said("tip {now:.2f}, cleaned since the lash was read: a trial lash proves it", now=now[0].value)]
    return fell, tuple(words), tuple(dict.fromkeys((then[1].entry.seq, now[1].entry.seq))), now[0]


def tip_then(evidence: Evidence, valve: str, lash: Taken) -> tuple[Known, Taken] | None:
    """The tip height that stood when a lash was read: same valve, same seat, nothing but cleaning between."""
    found: list[tuple[int, Known, Taken]] = []
    for taken in evidence.at("tip_height", valve):
        tip = evidence.number(taken)
        if tip is None or any(taken.held(s) != lash.held(s) for s in (f"{valve}/valve", f"{valve}/seat")):
            continue
        between = evidence.touched(taken.observed.keys, taken, lash)
        if all(seq in evidence.cleanings for seq in between):
            found.append((len(between), tip, taken))
    best = min(found, key=lambda one: one[0], default=None)
    return best[1:] if best else None


def datum_moved(evidence: Evidence, valve: str, lash: Taken, tip: Taken) -> bool:
    """Whether what the tip is measured from was worked between a lash and a tip."""
    state = evidence.state
    key = state.key(Surface(slot=f"{state.anatomy.head(valve)}/head", name="spring seats"))
    return any(seq not in evidence.cleanings for seq in evidence.touched((key,), lash, tip))


def why_needs(evidence: Evidence, valve: str, lash: Taken) -> tuple[str, ...]:
    """What is missing to go from an old lash over seat work: the tip now, else a new lash."""
    then, now = tip_then(evidence, valve, lash), evidence.latest("tip_height", valve)
    worked = any(_side(evidence, valve, r) == "valve" and not evidence.only_cleaned(r) for r in lash.reasons)
    if (then is None and worked) or (now is not None and datum_moved(evidence, valve, lash, now[1])):
        return (f"lash@{valve}",)
    return (f"tip_height@{valve}",)


def _thickness_at(evidence: Evidence, part: str, valve: str) -> str:
    """Where a shim whose thickness is missing is to be measured."""
    slot = evidence.state.slot_of(part)
    if slot:
        return f"shim_thickness@{slot.split('/')[0]}"
    return f"shim_thickness@part:{part}" if part else f"shim_thickness@{valve}"
