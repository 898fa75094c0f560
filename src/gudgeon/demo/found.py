"""The first half of the story: as found, stripped and measured, decided, and the head sent to the shop."""

from __future__ import annotations

from gudgeon.demo import readings as r
from gudgeon.demo.readings import CAMS, EL, ER, IL, IR, VALVES
from gudgeon.demo.teller import Teller
from gudgeon.job.entries import Arrived, Disposition, EstimateApproved, Ordered, ZeroChecked
from gudgeon.workbench.slips import Asked

#: What is cleaned before it is measured.
DIRTY = (
    *(
        f"{v}/{part}"
        for v in VALVES
        for part in ("valve", "seat", "guide", "spring", "retainer", "keepers", "follower")
    ),
    *(f"{cam}/{part}" for cam in CAMS for part in ("cam", "holder", "follower shaft")),
    *("head/head", "engine/chain", "c1/barrel", "c1/piston", "c1/pin", "c1/rod"),
    *("c1.ring.top/ring", "c1.ring.second/ring"),
)
#: What the shop's sheet signs as untouched.
UNTOUCHED = ", ".join(("head/head", f"{IR}/guide", *(f"{v}/{part}" for v in (EL, ER) for part in ("guide", "seat"))))
#: What becomes of the parts that are not simply used again, and why.
DECIDED = (
    (f"{IL}/guide", "renew", "fit 0.094 over 0.080; a new valve alone leaves it over the limit for part of its range"),
    (f"{IL}/valve", "renew", "face grooved; coated, so it cannot be ground"),
    (f"{IR}/spring", "renew", "153.6 N at 34.5 mm, at least 160 N; its length alone would have passed"),
    (f"{IL}/seat", "machine", "1.55 mm wide, at most 1.40 mm; to be cut after the new guide"),
    (f"{IR}/seat", "machine", "leaks; coated valve, so it is cut and not lapped"),
    ("c1.ring.top/ring", "renew", "by rule: always with the barrel off"),
    ("c1.ring.second/ring", "renew", "by rule: always with the barrel off"),
    ("c1/oil ring", "renew", "by rule: always with the barrel off"),
    ("c1/barrel", "reuse", "88.026 mm, 0.024 mm left"),
    ("c1/piston", "reuse", "clearance 0.080 mm, 0.020 mm left"),
)
#: What the first order brings that has a place of its own: the name in the story, the kind, the number.
PARTS = (
    ("valve", "valve", "371-1301"),
    ("guide", "guide", "371-1110"),
    ("spring", "spring", "371-1310"),
    *((f"{v}/stem seal", "stem seal", "371-1340") for v in VALVES),
    ("c1.ring.top/ring", "ring", "371-1730"),
    ("c1.ring.second/ring", "ring", "371-1730"),
    ("c1/oil ring", "oil ring", "371-1730"),
    ("c1/circlips", "circlips", "371-1741"),
    ("c1/base gasket", "base gasket", "371-1711"),
    ("head/head gasket", "head gasket", "371-1150"),
    ("c1/plug", "plug", "371-1801"),
)
M_2 = {
    "intake left": "Fit and ream the enclosed guide, then cut the seat 45/30/60, contact in the middle of the face.",
    "intake left, bounds": "With the enclosed valve and bridge, spring seat to tip 37.28 to 37.86 mm. Tell us before going"
    " over; never over 37.94 mm.",
    "intake right": "Cut lightly with its own valve, contact in the middle of the face.",
    "not to be done": "No lapping and no grinding of the intake valves: coated titanium. Exhaust seats stay untouched.",
    "enclosed": "valve, guide and spring of the intake, tip bridge",
    "to write back": "tip height before and after the cut, guide bore, what else was touched",
}


def found_cold(t: Teller) -> None:
    """Engine read off, cover and plug off, everything read cold before a joint is opened."""
    t.note("Number read off the crankcase. The station asks for it back within two weeks; stripping agreed.")
    t.sign("H0")
    t.do("open_cover", "head")
    t.do("plug_out", "c1")
    t.read(r.FOUND_COLD, "19 °C")
    t.find("leak heard at the intake", "c1", "not at the filler, no bubbles")


def found_warm(t: Teller) -> None:
    """Warm, because that is the complaint; oil in the cylinder changes nothing."""
    t.do("plug_in", "c1")
    t.wait(hours=1)
    t.note("Ran until the fan came on.")
    t.do("plug_out", "c1")
    t.read(r.FOUND_WARM)
    t.note("Wet like dry: not the rings. Lash nearly gone cold, so it closes warm.")
    t.sign("H1")


def stripped(t: Teller) -> None:
    """Cold again and apart: tensioner first, then the holders, the shims in their places."""
    t.morning()
    t.note("Oil and coolant drained and caught; filter cut open: no metal.")
    t.sign("H1b")
    t.do("remove_tensioner")
    t.sign("H2")
    t.do("open_sprocket", *CAMS)
    t.do("open_cam_holder", *CAMS)
    t.do("clean", *(f"{valve}/shim" for valve in VALVES))
    t.read(r.OLD_SHIMS)
    t.sign("H3")
    t.do("loosen_head", "head")
    t.do("loosen_base", "c1")
    t.do("rag_in", count="1")
    t.read(r.SEALED)


def cleaned(t: Teller) -> None:
    """Valves out, every part cleaned: only now do sizes mean anything."""
    t.do("open_keepers", *VALVES)
    t.do("clean", *DIRTY)
    t.sign("H4")


def measured(t: Teller) -> None:
    """Every size of the head, the cams and the cylinder; one slip of the hand on the way."""
    t.wait(hours=2)
    t.read(r.VALVE_TRAIN)
    t.find("face grooved all round", f"{IL}/valve")
    t.read(r.CAM_TRAIN)
    t.write(ZeroChecked(gauge=r.BORE, text="0", unit="µm", holds=True))
    t.read(r.CYLINDER)
    t.write(ZeroChecked(gauge=r.BORE, text="0", unit="µm", holds=True))
    t.land()
    try:
        t.read((r.OLD_RINGS_SLIP,))
        t.land()
    except Asked:
        t.wait(minutes=1)
    t.read(r.OLD_RINGS)


def settled(t: Teller) -> None:
    """The barrel's face was too close to call with feelers; the dial on the plate tells."""
    t.read(r.SETTLED)


def decided(t: Teller) -> None:
    """What becomes of the parts, what it costs, and the first order."""
    t.note("Rod felt and looked at: no play, no blue. Every place read.")
    t.sign("H5")
    for slot, what, reason in DECIDED:
        t.write(Disposition(part=f"orig:{slot}", what=what, reason=reason))  # type: ignore[arg-type]
    t.write(EstimateApproved(amount="640.00", currency="EUR", by="station"))
    t.sign("H5b")
    t.write(Ordered(order="P-1", kind="parts", lines=r.FIRST_ORDER))


def sent(t: Teller) -> None:
    """The parts are there: the new valve in the old seat gives the bounds; then the head goes out."""
    t.morning(3)
    t.write(Arrived(order="P-1", lines=r.FIRST_ORDER))
    for name, kind, number in PARTS:
        t.receive(name, kind, number=number, order="P-1")
    t.fit("valve", f"{IL}/valve")
    t.read(r.ENCLOSED)
    t.write(Ordered(order="M-2", kind="machining", words=M_2))
    t.hand_out("machining_order")
    t.do("sent_out", "head/head", order="M-2")


FIRST_HALF = (
    ("as found, cold", found_cold),
    ("as found, warm", found_warm),
    ("stripped", stripped),
    ("cleaned", cleaned),
    ("measured", measured),
    ("settled", settled),
    ("decided", decided),
    ("sent to the shop", sent),
)
