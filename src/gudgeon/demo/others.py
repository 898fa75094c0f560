"""Three more jobs: a valves job halfway, a cylinder that waits for its rings, an engine that comes back. All invented."""

from __future__ import annotations

from gudgeon.demo import readings as r
from gudgeon.demo.readings import CAMS, EL, IL, IR, VALVES
from gudgeon.demo.teller import Teller
from gudgeon.job.entries import Disposition, Ordered

TARN_FOUND = (("leak_down", "c1", "cold", "38", r.LEAK),)
TARN_CYLINDER = (
    *r.six("bore_diameter", "c1", r.BORE_64, "+32 +58 +25 +41 +18 +27"),
    ("piston_diameter", "c1", "", "63.441", "MIC-75"),
    ("barrel_flatness", "c1", "", "0.02/0.03", r.EDGE),
    ("ring_gap", "c1.ring.top", "", "1.15", r.FEELER),
    ("ring_gap", "c1.ring.second", "", "0.92", r.FEELER),
    ("side_clearance", "c1.ring.top", "", "0.06/0.07", r.FEELER),
    ("side_clearance", "c1.ring.second", "", "0.05/0.06", r.FEELER),
    ("pin_diameter", "c1", "", "13.992", r.MIC),
    ("pin_bore", "c1", "", "14.011", r.HOLE),
    ("small_end_bore", "c1", "", "14.026", r.HOLE),
)
#: The finished engine 108 hours later: what wears at the cams.
WORN_ON = (
    ("lobe_height", "cam.in", IL, "34.810", r.MIC_50),
    ("lobe_height", "cam.in", IR, "34.815", r.MIC_50),
    *r.over("base_circle", r.MIC_50, "28.97 28.98", CAMS),
    *r.over("follower_bore", r.HOLE, "10.021 10.018 10.020 10.018"),
    ("chain_length", "engine", "", "128.15", r.CALIPER),
)
TARN_RINGS = {"174-4730": 1, "174-4741": 1}


def valves_halfway(t: Teller) -> None:
    """Two lashes out of their setting, holders open, two shims still to be measured."""
    t.sign("H0")
    t.do("open_cover", "head")
    t.read(r.over("lash", r.FEELER, "0.07/0.08 0.11/0.12 0.27/0.28 0.22/0.23"), "17 °C")
    t.do("remove_tensioner")
    t.do("open_cam_holder", *CAMS)
    t.read(r.over("shim_thickness", r.MIC, "1.802 1.751 1.648", (IL, IR, EL)))
    t.note("Called away to the winch. Exhaust right shim next; all four lie in their tray.", VALVES[3])


def waiting_for_rings(t: Teller) -> None:
    """Everything read, the top ring worn out, the set ordered and not there yet."""
    t.sign("H0")
    t.do("plug_out", "c1")
    t.read(TARN_FOUND)
    t.find("leak heard at the filler", "c1", "not at intake or exhaust")
    t.sign("H1", "H1b")
    t.do("loosen_head", "head")
    t.do("loosen_base", "c1")
    t.do("rag_in", count="1")
    t.do("clean", "c1/barrel", "c1/piston", "c1/pin", "c1/rod", "c1.ring.top/ring", "c1.ring.second/ring")
    t.sign("H4")
    t.wait(hours=2)
    t.read(TARN_CYLINDER)
    t.sign("H5")
    t.write(Disposition(part="orig:c1.ring.top/ring", what="renew", reason="gap 1.15 mm, at most 1.00 mm"))
    t.write(Ordered(order="P-3", kind="parts", lines=TARN_RINGS))
    t.note("Rings ordered, nine days. Barrel oiled and wrapped.")


def comes_back(t: Teller) -> None:
    """The cams are out again as agreed: with what was read the last time, wear shows how fast it goes."""
    t.sign("H0")
    t.do("open_cover", "head")
    t.read(r.over("lash", r.FEELER, "0.12/0.13 0.12/0.13 0.22/0.23 0.22/0.23"), "18 °C")
    t.do("remove_tensioner")
    t.do("open_cam_holder", *CAMS)
    t.do("clean", *(f"{cam}/cam" for cam in CAMS), *(f"{valve}/follower" for valve in VALVES), "engine/chain")
    t.read(WORN_ON)
    t.note("Spacer looked at as promised. Cams and followers oiled and covered; they go back in tomorrow.")
