"""A little ledger builder and three engines, for the tests of the job."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from gudgeon.anatomy import Anatomy, Layout, Side, Surface, expand
from gudgeon.job import codec
from gudgeon.job.entries import (
    Body,
    Entry,
    OperationDone,
    PartFitted,
    PartReceived,
    Reading,
    Retraction,
    TorqueApplied,
    Typed,
)
from gudgeon.job.replay import replay
from gudgeon.job.state import JobState
from gudgeon.job.work import CLOSABLE
from gudgeon.measurands.catalogue import MEASURANDS

FINGER = Layout(
    cylinders=1,
    arrangement="single",
    intake=Side(valves=2, follower="finger", lash_read="cam", ratio=1.6, coated=True),
    exhaust=Side(valves=2, follower="finger", lash_read="cam", ratio=1.6),
    bore="plated",
)
BUCKETS = Layout(
    cylinders=4,
    arrangement="inline",
    intake=Side(valves=2, follower="bucket_under"),
    exhaust=Side(valves=2, follower="bucket_over", lift_cam=False),
)
PUSHROD = Layout(
    cylinders=1,
    arrangement="single",
    intake=Side(valves=1, follower="pushrod_screw", ratio=1.3, lift_cam=False),
    exhaust=Side(valves=1, follower="pushrod_screw", ratio=1.3, lift_cam=False),
    cams="one",
    cam_drive="pushrod",
    liquid=False,
)
VEE = Layout(
    cylinders=2,
    arrangement="vee",
    intake=Side(valves=1, follower="rocker_screw", ratio=1.2),
    exhaust=Side(valves=1, follower="rocker_screw", ratio=1.2),
    cams="one",
)

#: The names of the trade's table for what is measured; what the table does not name has a name in small letters.
NAMES = {
    "LASH": "lash",
    "SHIM": "shim_thickness",
    "STEM": "stem_diameter",
    "GUIDE": "guide_bore",
    "WOB": "wobble",
    "MARG": "valve_margin",
    "WID": "seat_width",
    "CON": "contact",
    "RUN": "seat_runout",
    "TIP": "tip_height",
    "PROJ": "tip_projection",
    "HGT": "installed_height",
    "REC": "recession",
    "SEAL": "seal_test",
    "FLAT-H": "head_flatness",
    "FLAT-B": "barrel_flatness",
    "BORE": "bore_diameter",
    "PIST": "piston_diameter",
    "GAP": "ring_gap",
    "SIDE": "side_clearance",
    "LOBE": "lobe_height",
    "STRIP": "journal_clearance",
    "CHAIN": "chain_length",
    "SQ": "squish",
    "VP": "valve_to_piston",
    "LEAK": "leak_down",
    "COMP": "compression",
    "MARKS": "timing_marks",
}
SHORT = {key: name for name, key in NAMES.items()}
SPR = ("spring_free_length", "spring_load", "spring_tilt")


@dataclass
class Ledger:
    """A job as it is written, entry after entry; each goes through the codec as a bench and a server would send it."""

    layout: Layout = FINGER
    numbers: Mapping[str, str] = field(default_factory=dict)
    entries: list[Entry] = field(default_factory=list)
    lines: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.anatomy: Anatomy = expand(self.layout)

    def add(self, body: Body, bench: str = "b1", seen: int | None = None) -> str:
        """Land an entry; a bench has seen everything before it unless it says otherwise."""
        seq = len(self.entries) + 1
        known = seq - 1 if seen is None else seen
        typed = Typed(
            id=f"e{seq}", typed_at="2031-02-03T08:00:00Z", by="k7", bench=bench, nth=seq, seen=known, body=body
        )
        line = codec.landed_line(codec.encode(typed), seq=seq, landed_at="2031-02-03T08:00:01Z", account="workshop")
        self.lines.append(line)
        self.entries.append(codec.decode(line))
        return typed.id

    def read(
        self, key: str, where: str, text: str = "", *, bench: str = "b1", seen: int | None = None, **more: str
    ) -> str:
        """A reading; without a text, the kind's own example."""
        kind = MEASURANDS[key]
        body = Reading(measurand=key, where=where, text=text or kind.example, unit=kind.unit, gauge="G1", **more)
        return self.add(body, bench, seen)

    def do(self, operation: str, where: str, *, bench: str = "b1", seen: int | None = None, **detail: str) -> str:
        """An operation with its details."""
        return self.add(OperationDone(operation=operation, where=where, detail=detail), bench, seen)

    def receive(self, slot: str, number: str = "") -> str:
        """A new part for a slot, not fitted yet."""
        return self.add(PartReceived(kind=self.anatomy.slots[slot].kind, number=number))

    def renew(self, slot: str, number: str = "") -> str:
        """A new part received and fitted."""
        part = self.receive(slot, number)
        self.add(PartFitted(part=part, slot=slot))
        return part

    def torque(self, joint: str) -> str:
        """A joint at its final stage."""
        return self.add(TorqueApplied(joint=joint, stage=1, of=1, setting="10", unit="N·m", wrench="W1"))

    def retract(self, entry: str) -> str:
        """An entry that never happened."""
        return self.add(Retraction(entry=entry, reason="typed in error"))

    def clean_everything(self) -> None:
        """Every part cleaned, so that a later cleaning is no first one."""
        for slot in self.anatomy.slots:
            self.do("clean", slot)

    def read_everything(self) -> None:
        """Every measurand everywhere it can be, and every joint at its torque."""
        for key, kind in MEASURANDS.items():
            for place in kind.where(self.anatomy):
                self.read(key, place)
        for joint in self.joints():
            self.torque(joint)

    def joints(self) -> tuple[str, ...]:
        """The joints of this engine that are drawn up to a torque."""
        every = {j for s in self.anatomy.slots.values() for j in s.joints if j.name in CLOSABLE - {"keepers"}}
        return tuple(sorted(map(str, every)))

    def state(self) -> JobState:
        """What the ledger says."""
        return replay(self.entries, self.anatomy, numbers=self.numbers)


def name_of(key: str) -> str:
    """The table's name of a measurand."""
    return SHORT.get(key, key)


def places_by_slot(anatomy: Anatomy, key: str) -> Mapping[str, str]:
    """Where a reading that travels with its part stands: the place by the slot of the part. Written from the definition."""
    kind, found = MEASURANDS[key], dict[str, str]()
    for place in kind.where(anatomy):
        slots = {f.slot if isinstance(f, Surface) else "" for f in kind.observes(anatomy, place)}
        found.update({slot: place for slot in slots if len(slots) == 1 and slot})
    return found


def standing(state: JobState) -> set[str]:
    """What counts, by name and place: a fresh reading of the place, or of the part that stands there now."""
    found = {f"TRQ {e.fact.joint}" for e in state.evidence if e.fresh and isinstance(e.fact, TorqueApplied)}
    for taken in state.readings:
        key, where = taken.fact.measurand, taken.fact.where
        if taken.part:
            where = places_by_slot(state.anatomy, key).get(state.slot_of(taken.part), "")
        if taken.fresh and where:
            found.add(f"{name_of(key)} {where}")
    return found


def fresh(state: JobState, entry: str) -> bool:
    """Whether the reading that an entry made is fresh."""
    return next(t for t in (*state.readings, *state.evidence) if t.entry.typed.id == entry).fresh


def why(state: JobState, entry: str) -> set[str]:
    """The words of all reasons why a reading no longer counts."""
    return {str(r.words) for t in state.readings if t.entry.typed.id == entry for r in t.reasons}
