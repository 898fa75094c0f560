"""The rows themselves, in the order of the trade's table."""

from __future__ import annotations

import freshness_rows as r
from freshness_rows import ALL_FOUR, C1, C2_VALVES, CAMS, EX, FOUR, IN, NOTHING, RINGS, Row, V, all_of, done
from story import BUCKETS, PUSHROD, SPR, Ledger

HOLDER = {"LASH": IN, "TRQ": ("cam.in holder",)}
PUSHROD_VALVES = ("c1.in", "c1.ex")
HEAD_AND_BASE = {"TRQ": ("head head", "c1 base")}
SHOP = ("GUIDE", "WOB", *r.SEAT_CUT)


def _lapped(ledger: Ledger) -> None:
    for valve in EX:
        ledger.do("lap_valve", valve)


ENGINE = (
    Row(
        number="1",
        event=r.holder_off_and_on,
        table=HOLDER,
        stays=("SHIM", "TIP", "SEAL", "LOBE", "STRIP", "SQ", "LEAK", "MARKS"),
    ),
    Row(
        number="1 (tensioner touched)",
        event=r.holder_and_tensioner,
        table={**HOLDER, "MARKS": CAMS},
        added={"TRQ": (("engine tensioner",), "row 9")},
        stays=("SHIM", "TIP", "SEAL", "LOBE", "STRIP", "SQ", "LEAK"),
    ),
    Row(number="2", event=r.shims_swapped, table=HOLDER, stays=("SHIM", "TIP", "SEAL", "LEAK", "MARKS")),
    Row(
        number="3",
        event=done("lap_valve", *V),
        table={**all_of((*r.FACE_AND_SEAT, "RUN"), V), "LEAK": C1},
        added=r.COMP_TOO,
        stays=("STEM", "GUIDE", "MARG", *SPR, "SHIM", "HGT"),
    ),
    Row(
        number="4",
        event=done("cut_seat", *V),
        table={**all_of(r.SEAT_CUT, V), "LEAK": C1, "COMP": C1},
        added={"chamber_volume": (C1, "a sunk valve makes the chamber larger")},
        stays=("STEM", "GUIDE", "MARG", *SPR, "SHIM", "FLAT-H", "FLAT-B", "SQ"),
    ),
    Row(
        number="5",
        event=r.spring_renewed,
        table=all_of((*SPR, "SEAL", "LASH"), V),
        added=r.LEAK_TOO,
        stays=("TIP", "WID", "CON", "STEM", "HGT"),
    ),
    Row(
        number="6",
        event=r.guide_renewed,
        table={
            **all_of(("GUIDE", "WOB", "RUN", "CON", "WID", "TIP", "SEAL", "LASH"), V),
            "LEAK": C1,
            "FLAT-H": ("head",),
        },
        added=r.COMP_TOO,
        stays=("STEM", *SPR, "SHIM", "REC", "HGT"),
    ),
    Row(
        number="7",
        event=done("skim_head", "head"),
        table={
            **all_of(("REC", "VP", "SEAL"), FOUR),
            **all_of(("SQ", "chamber_volume", "COMP"), C1),
            "FLAT-H": ("head",),
            "MARKS": CAMS,
        },
        added={"LEAK": (C1, "leak-down observes both gasket faces")},
        stays=("TIP", "HGT", "WID", "STEM", "GUIDE", *SPR, "SHIM", "LASH"),
    ),
    Row(
        number="7 (push-rod)",
        layout=PUSHROD,
        event=done("skim_head", "head"),
        table={
            **all_of(("REC", "VP", "SEAL", "LASH"), PUSHROD_VALVES),
            **all_of(("SQ", "chamber_volume", "COMP"), C1),
            "FLAT-H": ("head",),
        },
        added={"LEAK": (C1, "leak-down observes both gasket faces")},
        stays=("TIP", "HGT", "WID", "STEM", "GUIDE", *SPR, "MARKS"),  # this cam sits below the joint: no chain over it
    ),
    Row(
        number="8",
        event=r.base_gasket("c1", "B-05"),
        table={**HEAD_AND_BASE, **all_of(("SQ", "COMP", "LEAK"), C1), "VP": FOUR, "MARKS": CAMS},
        added={"deck_height": (C1, "the piston stops lower by the gasket"), "oil_at_cams": (("head",), r.OIL_WAY)},
        stays=("TIP", "BORE", "SHIM", "SEAL", "LASH"),
    ),
    Row(
        number="8 (push-rod)",
        layout=PUSHROD,
        event=r.base_gasket("c1", "B-05"),
        table={**HEAD_AND_BASE, **all_of(("SQ", "COMP", "LEAK"), C1), **all_of(("VP", "LASH"), PUSHROD_VALVES)},
        added={"deck_height": (C1, "the piston stops lower by the gasket"), "oil_at_cams": (("head",), r.OIL_WAY)},
        stays=("TIP", "BORE", "SEAL", "MARKS"),
    ),
    Row(
        number="8 (one of four)",
        layout=BUCKETS,
        event=r.base_gasket("c2", "B-05"),
        table={
            "TRQ": ("head head", "c2 base"),
            "SQ": ("c2",),
            "LEAK": ALL_FOUR,
            "COMP": ALL_FOUR,
            "VP": C2_VALVES,
            "MARKS": CAMS,
        },
        added={"deck_height": (("c2",), "the piston stops lower by the gasket"), "oil_at_cams": (("head",), r.OIL_WAY)},
        stays=("TIP", "BORE", "SHIM", "SEAL", "LASH"),
    ),
    Row(
        number="8b",
        event=r.base_gasket("c1", "B-04"),
        table={**HEAD_AND_BASE, "LEAK": C1},
        added=r.HEAD_OFF,
        stays=("SQ", "VP", "MARKS", "LASH"),
    ),
    Row(
        number="8b (push-rod)",
        layout=PUSHROD,
        event=r.base_gasket("c1", "B-04"),
        table={**HEAD_AND_BASE, "LEAK": C1, "LASH": PUSHROD_VALVES},
        added=r.HEAD_OFF,
        stays=("SQ", "VP"),
    ),
    Row(
        number="9",
        event=r.tensioner_out_and_in,
        table={"MARKS": CAMS, "TRQ": ("engine tensioner",)},
        stays=("LASH", "CHAIN", "SEAL", "LEAK", "tensioner_travel"),
    ),
    Row(
        number="10",
        event=done("turn_backwards", "engine"),
        table={"MARKS": CAMS},
        stays=("LASH", "LEAK", "SHIM", "BORE"),
    ),
    # "TRQ head renewed": the torque written at retightening stands beside the first, which nothing undid (R7).
    Row(number="11", event=done("retighten_head", "head"), table={"LASH": FOUR}, stays=("SQ", "LEAK", "MARKS", "TRQ")),
    Row(
        number="11b",
        event=r.slackened_and_retightened,
        table={"LASH": FOUR, "TRQ": ("head head",), "LEAK": C1},
        added=r.HEAD_OFF,
        stays=("SQ", "MARKS", "SHIM", "TIP", "BORE"),
    ),
    # Taken off and put back rather than retightened: with the cams in the head, lash moves by nothing to first order.
    Row(
        number="11b (head off and on)",
        event=r.slackened_and_tightened,
        table={"TRQ": ("head head",), "LEAK": C1},
        added=r.HEAD_OFF,
        stays=("SQ", "MARKS", "SHIM", "TIP", "BORE", "LASH"),
    ),
    Row(
        number="11b (push-rod, head off and on)",
        layout=PUSHROD,
        event=r.slackened_and_tightened,
        table={"LASH": PUSHROD_VALVES, "TRQ": ("head head",), "LEAK": C1},
        added=r.HEAD_OFF,
        stays=("SQ", "MARKS", "TIP", "BORE"),
    ),
    Row(
        number="12",
        layout=BUCKETS,
        event=r.bucket_renewed,
        table={"LASH": ("c2.in.left",), "bucket_diameter": ("c2.in.left",)},
        added={
            "LASH": (
                tuple(f"c{n}.in.{side}" for n in range(1, 5) for side in ("left", "right")),
                "the cam is lifted: row 1",
            ),
            "TRQ": (("cam.in holder",), "the cam is lifted: row 1"),
        },
        stays=("SHIM", "bucket_bore", "TIP"),
    ),
)

PARTS = (
    Row(
        number="13",
        event=done("dropped", "c1.ex.left/valve"),
        table={"stem_runout": V},
        stays=("STEM", *SPR, "MARG", "VP"),
    ),
    Row(number="13 (head)", event=done("dropped", "head/head"), table={"FLAT-H": ("head",)}, stays=("GUIDE", "TIP")),
    Row(number="13 (barrel)", event=done("dropped", "c1/barrel"), table={"FLAT-B": C1}, stays=("BORE", "SQ")),
    Row(
        number="13 (cam)",
        event=done("dropped", "cam.in/cam"),
        table={"cam_runout": ("cam.in",)},
        stays=("LOBE", "LASH"),
    ),
    Row(number="13 (spring)", event=done("dropped", "c1.ex.left/spring"), table=NOTHING, stays=SPR),
    Row(number="13b", event=done("dropped_in", "engine"), table=NOTHING),
    Row(
        number="14",
        dirty=True,
        event=done("decarbonise", *V),
        table={**all_of(("LASH", "SEAL", "TIP"), V), **all_of(("WID", "CON", "REC"), V)},
        added={"LEAK": (C1, "leak-down observes the faces"), "COMP": (C1, r.LEAK_PATH)},
        stays=("STEM", "MARG", "HGT", "PROJ", "RUN"),
    ),
    Row(
        number="14 (a second time)",
        dirty=True,
        before=done("decarbonise", *V),
        event=done("decarbonise", *V),
        table=NOTHING,
    ),
    Row(
        number="15",
        event=r.chain_renewed,
        table={"CHAIN": ("engine",), "MARKS": CAMS, "tensioner_travel": ("engine",)},
        added={"TRQ": (("engine tensioner",), "the tensioner is out for it: row 9")},
        stays=("LASH", "LOBE"),
    ),
    Row(
        number="16",
        layout=PUSHROD,
        event=done("hone", "c1"),
        table={"BORE": C1, "GAP": RINGS, "LEAK": C1, "COMP": C1},
        stays=("PIST", "SIDE", "FLAT-B", "SQ"),
    ),
    Row(
        number="17",
        layout=BUCKETS,
        event=lambda ledger: ledger.renew("c2/piston"),
        table={
            **all_of(("PIST", "pin_bore", "SQ", "LEAK", "COMP"), ("c2",)),
            "SIDE": ("c2.ring.top", "c2.ring.second"),
            "VP": C2_VALVES,
        },
        added={"deck_height": (("c2",), "another crown")},
        stays=("GAP", "BORE", "pin_diameter"),
    ),
    Row(
        number="18",
        event=r.rings_renewed,
        table={**all_of(("GAP", "SIDE"), RINGS), "LEAK": C1, "COMP": C1},
        stays=("PIST", "BORE", "SQ"),
    ),
    Row(
        number="19",
        event=r.old_head_gasket_back,
        table={"LEAK": C1, "TRQ": ("head head",)},  # what the opened joint does anyway: nothing extra
        added=r.HEAD_OFF,
        stays=("SQ", "VP", "MARKS"),
    ),
    Row(
        number="20",
        layout=PUSHROD,
        event=done("deglaze", "c1"),
        table={"BORE": C1, "GAP": RINGS},
        added={"LEAK": (C1, "leak-down observes the bore"), "COMP": (C1, r.LEAK_PATH)},
        stays=("PIST", "FLAT-B", "FLAT-H", "SIDE"),
    ),
    Row(
        number="21",
        before=_lapped,
        event=r.exhaust_valves_swapped,
        table={**all_of(("LASH", "TIP", "WID", "CON", "SEAL", "WOB", "HGT"), EX), "LEAK": C1},
        added={
            "REC": (EX, "recession observes the same valve and seat"),
            "PROJ": (EX, "tip and groove are the valve's own"),
            "VP": (EX, "another valve's head over this piston"),
            "COMP": (C1, r.LEAK_PATH),
        },
        stays=("STEM", "GUIDE", "MARG", *SPR, "RUN", "stem_runout"),
    ),
    Row(
        number="22",
        event=r.shaft_renewed,
        table={"LASH": IN, "shaft_diameter": ("cam.in",)},
        stays=("TIP", "SHIM", "SEAL", "follower_bore"),
    ),
    Row(
        number="23",
        event=done("grind_tip", *V),
        table=all_of(("TIP", "PROJ", "LASH", "SEAL"), V),
        added=r.LEAK_TOO,
        stays=("STEM", "CON", "WID", "MARG", "HGT", "REC"),
    ),
    Row(number="24", event=r.washed_again, table=NOTHING),
    Row(
        number="25b",
        event=done("heat_cycle", "engine"),
        table={"LASH": FOUR},
        stays=("LEAK", "MARKS", "TRQ", "SQ", "TIP"),
    ),
    Row(
        number="26",
        event=r.back_from_the_shop,
        table={
            **all_of(SHOP, FOUR),
            **all_of(("SQ", "chamber_volume", "LEAK", "COMP"), C1),
            **all_of(("FLAT-H", "oil_at_cams"), ("head",)),
            "MARKS": CAMS,
        },
        stays=("STEM", "stem_runout", "MARG", "PROJ", *SPR, "SHIM", "BORE", "PIST", "LOBE", "FLAT-B"),
    ),
    Row(
        number="26 (the sheet signs the rest as untouched)",
        event=r.back_with_a_sheet,
        table={
            **all_of(tuple(n for n in SHOP if n != "REC"), V),
            **all_of(("LEAK", "COMP", "chamber_volume"), C1),
            "FLAT-H": ("head",),
            "REC": FOUR,
        },
        stays=("STEM", "SQ", "MARKS", "oil_at_cams", "PROJ", "SHIM"),
    ),
    Row(
        number="27",
        event=done("tap_keepers", *V),
        table=all_of(("SEAL", "LASH"), V),
        added=r.LEAK_TOO,
        stays=("TIP", "HGT"),
    ),
    Row(
        number="28",
        event=r.plug_out_and_in,
        table={"TRQ": ("c1 plug",), "LEAK": C1, "COMP": C1},
        stays=("LASH", "SEAL", "MARKS", "oil_at_cams"),
    ),
    Row(number="29", event=r.shim_out_and_back, table=HOLDER, stays=("SHIM", "TIP", "SEAL", "LEAK")),
)

ROWS = (*ENGINE, *PARTS)
