"""What an engine of a given layout is made of: places, slots for parts, and the features that measuring and work meet.

A technician says "cylinder 1 intake left"; the ledger says ``c1.in.left``. Everything that is measured *observes*
features and everything that is done *disturbs* features: freshness is derived from this vocabulary.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import Literal

from gudgeon.own import NOTHING, Own

Follower = Literal["bucket_over", "bucket_under", "finger", "rocker", "rocker_screw", "pushrod_screw"]
Arrangement = Literal["single", "inline", "vee"]
CamDrive = Literal["chain", "belt", "gear", "pushrod"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """A surface of the part that stands in a slot; it travels with the part."""

    slot: str
    name: str

    def __str__(self) -> str:
        return f"{self.slot} {self.name}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """A joint, or a state of fit, at a place; it stays where it is."""

    place: str
    name: str

    def __str__(self) -> str:
        return f"{self.place} {self.name}"


Feature = Surface | Joint

#: The surfaces each kind of part has: what its first cleaning and an unsigned trip to the shop disturb.
SURFACES: Mapping[str, tuple[str, ...]] = {
    "valve": ("face", "stem", "tip", "margin", "groove", "form"),
    "seat": ("face", "depth"),
    "guide": ("bore",),
    "spring": ("coils",),
    "retainer": ("seat",),
    "keepers": ("taper",),
    "stem seal": ("lip",),
    "shim": ("faces",),
    "follower": ("pad", "bore", "outside", "form"),
    "follower shaft": ("diameter",),
    "pushrod": ("ends", "form"),
    "lifter": ("pad",),
    "cam": ("lobes", "base circle", "journals", "form"),
    "holder": ("bore",),
    "sprocket": ("teeth",),
    "chain": ("length",),
    "tensioner": ("travel",),
    "chain guide": ("pad",),
    "head": ("face", "chamber", "height", "spring seats", "heat", "form", "oil ways", "bucket bores"),
    "cover": ("face",),
    "head gasket": ("thickness",),
    "base gasket": ("thickness",),
    "barrel": ("bore", "finish", "face", "height", "form"),
    "piston": ("skirt", "grooves", "pin bore", "crown", "form"),
    "ring": ("face", "sides", "ends"),
    "oil ring": ("face",),
    "pin": ("diameter",),
    "circlips": ("wire",),
    "rod": ("small end", "big end"),
    "crankcase": ("mouth", "face"),
    "plug": ("gap",),
}


def surfaces_of(kind: str) -> tuple[str, ...]:
    """The surfaces of a kind of part; a workshop's own part has one."""
    return SURFACES.get(kind, ("face",))


#: Parts that only contribute a stated thickness: exchanged by number and thickness, not by identity.
BY_NUMBER = ("head gasket", "base gasket")


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """The intake or the exhaust side of every cylinder: how many valves, what opens them, where lash is read."""

    valves: int
    follower: Follower
    lash_read: Literal["valve", "cam"] = "valve"
    ratio: float = 1.0
    lift_cam: bool = True
    coated: bool = False
    screw_end: Literal["valve", "cam"] = "valve"


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """The layout of an engine family, as the book's first page says it."""

    cylinders: int
    arrangement: Arrangement
    intake: Side
    exhaust: Side
    cams: Literal["one", "two"] = "two"
    cam_drive: CamDrive = "chain"
    holders: Literal["per cam", "per engine"] = "per cam"
    liquid: bool = True
    bore: Literal["iron", "plated"] = "iron"
    decompressor: tuple[str, ...] = ()
    rings: tuple[str, ...] = ("top", "second")
    own: Own = NOTHING

    def side(self, valve: str) -> Side:
        """The side on which a valve stands."""
        return self.intake if ".in" in valve else self.exhaust


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """A place for a part. Taking it out, or fitting one, touches `joints`; a nested slot goes with its `parent`."""

    name: str
    kind: str
    parent: str = ""
    joints: tuple[Joint, ...] = ()

    @property
    def place(self) -> str:
        """The place the slot belongs to: ``c1.in.left`` of ``c1.in.left/shim``."""
        return self.name.split("/")[0]


@dataclass(frozen=True, slots=False, kw_only=True, eq=False)
class Anatomy:
    """A layout expanded into places and slots; there is one of each layout, so that what follows from it can be kept."""

    layout: Layout
    cylinders: tuple[str, ...]
    valves: tuple[str, ...]
    cams: tuple[str, ...]
    heads: tuple[str, ...]
    rings: tuple[str, ...]
    slots: Mapping[str, Slot] = field(default_factory=dict)

    @cached_property
    def places(self) -> tuple[str, ...]:
        """Every place by name, the engine itself first."""
        return ("engine", *self.heads, *self.cylinders, *self.valves, *self.cams, *self.rings)

    def cylinder(self, place: str) -> str:
        """The cylinder of a valve or a ring: ``c1`` of ``c1.in.left``."""
        return place.split(".")[0]

    def bank(self, place: str) -> str:
        """The bank of a cylinder, valve, ring or cam: empty unless the engine is a vee."""
        if self.layout.arrangement != "vee":
            return ""
        head = place.split(".")
        if head[0] in ("cam", "head"):
            return head[1] if len(head) > 1 else ""  # one cam below serves both banks
        number = int(head[0][1:])
        return "front" if number <= (self.layout.cylinders + 1) // 2 else "rear"

    def head(self, place: str) -> str:
        """The place of the head over a cylinder, valve or cam."""
        bank = self.bank(place)
        return f"head.{bank}" if bank else (self.heads or ("head",))[0]

    def cam(self, valve: str) -> str:
        """The place of the cam that opens a valve."""
        return _cam(self.layout, self.bank(valve), "in" if ".in" in valve else "ex")

    def under(self, cam: str) -> tuple[str, ...]:
        """The valves that a cam opens."""
        return tuple(v for v in self.valves if self.cam(v) == cam)

    def lifted_with(self, cam: str) -> tuple[str, ...]:
        """The cams that lose their holder with this one: all of its head where one piece holds them down."""
        if self.layout.holders == "per cam":
            return (cam,)
        return tuple(c for c in self.cams if self.bank(c) == self.bank(cam))

    def valves_of(self, cylinder: str) -> tuple[str, ...]:
        """The valves of a cylinder."""
        return tuple(v for v in self.valves if self.cylinder(v) == cylinder)

    def rings_of(self, cylinder: str) -> tuple[str, ...]:
        """The compression rings of a cylinder."""
        return tuple(r for r in self.rings if self.cylinder(r) == cylinder)

    def has(self, slot: str) -> bool:
        """Whether the engine has this slot."""
        return slot in self.slots

    @property
    def pushrod(self) -> bool:
        """Whether the cam sits below and works through push rods: then head and base joints take part in the lash."""
        return self.layout.cam_drive == "pushrod"


def _cam(layout: Layout, bank: str, side: str) -> str:
    middle = f".{bank}" if bank else ""
    if layout.cams == "one" or layout.cam_drive == "pushrod":
        return "cam" if layout.cam_drive == "pushrod" else f"cam{middle}"
    return f"cam{middle}.{side}"


@lru_cache(maxsize=64)
def expand(layout: Layout) -> Anatomy:
    """The places and slots of a layout, in the order in which a technician would name them."""
    cylinders = tuple(f"c{n}" for n in range(1, layout.cylinders + 1))
    valves = tuple(f"{c}.{side}{name}" for c in cylinders for side in ("in", "ex") for name in _names(layout, side))
    rings = tuple(f"{c}.ring.{name}" for c in cylinders for name in layout.rings)
    bare = Anatomy(layout=layout, cylinders=cylinders, valves=valves, cams=(), heads=(), rings=rings)
    heads = tuple(dict.fromkeys(bare.head(c) for c in cylinders))
    cams = tuple(dict.fromkeys(bare.cam(v) for v in valves))
    whole = Anatomy(layout=layout, cylinders=cylinders, valves=valves, cams=cams, heads=heads, rings=rings)
    slots = (
        *_engine_slots(whole),
        *_head_slots(whole),
        *_cam_slots(whole),
        *_valve_slots(whole),
        *_cylinder_slots(whole),
        *_own_slots(whole),
    )
    return Anatomy(
        layout=layout,
        cylinders=cylinders,
        valves=valves,
        cams=cams,
        heads=heads,
        rings=rings,
        slots={s.name: s for s in slots},
    )


def _names(layout: Layout, side: str) -> tuple[str, ...]:
    count = (layout.intake if side == "in" else layout.exhaust).valves
    return {1: ("",), 2: (".left", ".right"), 3: (".left", ".middle", ".right")}[count]


def _engine_slots(a: Anatomy) -> tuple[Slot, ...]:
    tensioner = Joint(place="engine", name="tensioner")
    driven = a.layout.cam_drive in ("chain", "belt")
    loop = (
        Slot(name="engine/chain", kind="chain", joints=(tensioner,)),
        Slot(name="engine/tensioner", kind="tensioner", joints=(tensioner,)),
        Slot(name="engine/chain guide", kind="chain guide", joints=(tensioner,)),
    )
    return (Slot(name="engine/crankcase", kind="crankcase"), *(loop if driven else ()))


def _head_slots(a: Anatomy) -> tuple[Slot, ...]:
    return tuple(
        slot
        for h in a.heads
        for slot in (
            Slot(name=f"{h}/head", kind="head", joints=(Joint(place=h, name="head"),)),
            Slot(name=f"{h}/head gasket", kind="head gasket", joints=(Joint(place=h, name="head"),)),
            Slot(name=f"{h}/cover", kind="cover", joints=(Joint(place=h, name="cover"),)),
        )
    )


def _cam_slots(a: Anatomy) -> tuple[Slot, ...]:
    slots: list[Slot] = []
    for c in a.cams:
        holders, sprocket = _holders(a, c), Joint(place=c, name="sprocket")
        slots += [Slot(name=f"{c}/cam", kind="cam", joints=(*holders, sprocket))]
        slots += [Slot(name=f"{c}/holder", kind="holder", joints=holders)]
        slots += [Slot(name=f"{c}/sprocket", kind="sprocket", joints=(sprocket,))]
        if any(_on_shaft(a.layout.side(v)) for v in a.under(c)):
            shaft = Joint(place=c, name="follower shaft")
            slots += [Slot(name=f"{c}/follower shaft", kind="follower shaft", joints=(shaft,))]
    return tuple(slots)


def _holders(a: Anatomy, cam: str) -> tuple[Joint, ...]:
    return tuple(Joint(place=c, name="holder") for c in a.lifted_with(cam))


def _on_shaft(side: Side) -> bool:
    return side.follower in ("finger", "rocker", "rocker_screw", "pushrod_screw")


def _valve_slots(a: Anatomy) -> tuple[Slot, ...]:
    return tuple(slot for v in a.valves for slot in _slots_of_valve(a, v))


def _slots_of_valve(a: Anatomy, v: str) -> tuple[Slot, ...]:
    side, head = a.layout.side(v), f"{a.head(v)}/head"
    keepers = (Joint(place=v, name="keepers"),)
    top = (Joint(place=v, name="shim"), *(_holders(a, a.cam(v)) if side.lift_cam else ()))
    slots = [
        Slot(name=f"{v}/valve", kind="valve", joints=keepers),
        Slot(name=f"{v}/spring", kind="spring", joints=keepers),
        Slot(name=f"{v}/retainer", kind="retainer", joints=keepers),
        Slot(name=f"{v}/keepers", kind="keepers", joints=keepers),
        Slot(name=f"{v}/stem seal", kind="stem seal", joints=keepers),
        Slot(name=f"{v}/guide", kind="guide", parent=head, joints=(Joint(place=v, name="guide axis"),)),
        Slot(name=f"{v}/seat", kind="seat", parent=head, joints=(Joint(place=v, name="guide axis"),)),
        Slot(name=f"{v}/follower", kind="follower", joints=top),
    ]
    if side.follower not in ("rocker_screw", "pushrod_screw"):
        slots.append(Slot(name=f"{v}/shim", kind="shim", joints=top))
    if side.follower == "pushrod_screw":
        rod = (Joint(place=v, name="pushrod"),)
        slots += [
            Slot(name=f"{v}/pushrod", kind="pushrod", joints=rod),
            Slot(name=f"{v}/lifter", kind="lifter", joints=rod),
        ]
    return tuple(slots)


def _cylinder_slots(a: Anatomy) -> tuple[Slot, ...]:
    slots: list[Slot] = []
    for c in a.cylinders:
        base, pin, rings = Joint(place=c, name="base"), Joint(place=c, name="pin"), Joint(place=c, name="rings")
        slots += [
            Slot(name=f"{c}/plug", kind="plug", joints=(Joint(place=c, name="plug"),)),
            Slot(name=f"{c}/barrel", kind="barrel", joints=(base,)),
            Slot(name=f"{c}/base gasket", kind="base gasket", joints=(base,)),
            Slot(name=f"{c}/piston", kind="piston", joints=(pin, rings)),
            Slot(name=f"{c}/pin", kind="pin", joints=(pin,)),
            Slot(name=f"{c}/circlips", kind="circlips", joints=(pin,)),
            Slot(name=f"{c}/oil ring", kind="oil ring", joints=(rings,)),
            Slot(name=f"{c}/rod", kind="rod"),
        ]
        slots += [Slot(name=f"{r}/ring", kind="ring", joints=(rings,)) for r in a.rings_of(c)]
    return tuple(slots)


def _own_slots(a: Anatomy) -> tuple[Slot, ...]:
    return tuple(
        Slot(name=part.slot, kind=part.kind, joints=(Joint(place=part.joint_place, name=part.joint),))
        for part in a.layout.own.parts
    )


_SIDES = {"in": "intake", "ex": "exhaust"}


def say(place: str, *, single: bool = False) -> str:
    """A place or slot in a technician's words: ``c1.in.left/shim`` is "cylinder 1 intake left shim"."""
    where, _, part = place.partition("/")
    words = [_word(piece) for piece in where.split(".")]
    if single and words and words[0] == "cylinder 1":
        words = words[1:] or ["cylinder"]
    if part:
        words = [part] if where == "engine" or part.split(" ")[0] == where else [*words, part]
    return " ".join(words)


def _word(piece: str) -> str:
    if piece[:1] == "c" and piece[1:].isdigit():
        return f"cylinder {piece[1:]}"
    return _SIDES.get(piece, piece)
