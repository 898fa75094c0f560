"""The trade's table of events, row by row: what each makes stale or missing, and what it must leave alone.

`table` is the middle column as it stands. `added` is what follows from what each measurand observes (section 1.1 of the
trade's rules: leak-down observes faces, seats, valve joint, rings, bore, piston, both gasket faces, head joint and plug)
although the row does not name it, each with its reason. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from story import FINGER, Ledger

from gudgeon.anatomy import Layout
from gudgeon.job.entries import PartFitted, PartsSwapped

Places = tuple[str, ...]
V: Places = ("c1.ex.left",)
IN: Places = ("c1.in.left", "c1.in.right")
EX: Places = ("c1.ex.left", "c1.ex.right")
FOUR: Places = (*IN, *EX)
CAMS: Places = ("cam.in", "cam.ex")
C1: Places = ("c1",)
RINGS: Places = ("c1.ring.top", "c1.ring.second")
C2_VALVES: Places = ("c2.in.left", "c2.in.right", "c2.ex.left", "c2.ex.right")
ALL_FOUR: Places = ("c1", "c2", "c3", "c4")

LEAK_PATH = "cranking pressure leaks where leak-down leaks"
VALVE_JOINT = "leak-down observes the valve joint"
OIL_WAY = "oil crosses this joint: it is seen again at the cams"

#: Read with another gauge off the same thing: the table names the first, the second ages exactly with it.
TWINS = {"MARKS": "cam_angle"}


@dataclass(frozen=True, kw_only=True)
class Row:
    """One row: an event on an engine, and what it does to evidence that was all fresh."""

    number: str
    event: Callable[[Ledger], object]
    layout: Layout = FINGER
    table: Mapping[str, Places] = field(default_factory=dict)
    added: Mapping[str, tuple[Places, str]] = field(default_factory=dict)
    stays: tuple[str, ...] = ()
    dirty: bool = False
    before: Callable[[Ledger], object] = lambda ledger: None

    def stale(self) -> set[str]:
        """Every reading by name and place that must no longer stand."""
        table = {**self.table, **{twin: self.table[name] for name, twin in TWINS.items() if name in self.table}}
        own = {f"{name} {place}" for name, places in table.items() for place in places}
        return own | {f"{name} {place}" for name, (places, _why) in self.added.items() for place in places}


def holder_off_and_on(ledger: Ledger) -> None:
    ledger.do("open_cam_holder", "cam.in")
    ledger.do("tighten_cam_holder", "cam.in")


def holder_and_tensioner(ledger: Ledger) -> None:
    ledger.do("remove_tensioner", "engine")
    holder_off_and_on(ledger)
    ledger.do("release_tensioner", "engine")


def shims_swapped(ledger: Ledger) -> None:
    ledger.do("open_cam_holder", "cam.in")
    ledger.add(PartsSwapped(slot="c1.in.left/shim", other="c1.in.right/shim"))
    ledger.do("tighten_cam_holder", "cam.in")


def spring_renewed(ledger: Ledger) -> None:
    ledger.do("open_keepers", *V)
    ledger.renew("c1.ex.left/spring")
    ledger.do("seat_keepers", *V)


def guide_renewed(ledger: Ledger) -> None:
    ledger.do("fit_guide", *V)
    ledger.renew("c1.ex.left/guide")


def base_gasket(cylinder: str, number: str) -> Callable[[Ledger], None]:
    def event(ledger: Ledger) -> None:
        ledger.do("loosen_head", "head")
        ledger.do("loosen_base", cylinder)
        ledger.renew(f"{cylinder}/base gasket", number)
        ledger.do("tighten_base", cylinder)
        ledger.do("tighten_head", "head")

    return event


def tensioner_out_and_in(ledger: Ledger) -> None:
    ledger.do("remove_tensioner", "engine")
    ledger.do("release_tensioner", "engine")


def slackened_and_retightened(ledger: Ledger) -> None:
    ledger.do("loosen_head", "head")
    ledger.do("retighten_head", "head")


def slackened_and_tightened(ledger: Ledger) -> None:
    ledger.do("loosen_head", "head")
    ledger.do("tighten_head", "head")


def bucket_renewed(ledger: Ledger) -> None:
    ledger.do("open_cam_holder", "cam.in")
    ledger.renew("c2.in.left/follower")
    ledger.do("tighten_cam_holder", "cam.in")


def chain_renewed(ledger: Ledger) -> None:
    ledger.do("remove_tensioner", "engine")
    ledger.renew("engine/chain")
    ledger.do("release_tensioner", "engine")


def rings_renewed(ledger: Ledger) -> None:
    for ring in RINGS:
        ledger.renew(f"{ring}/ring")


def exhaust_valves_swapped(ledger: Ledger) -> None:
    ledger.add(PartsSwapped(slot="c1.ex.left/valve", other="c1.ex.right/valve"))


def shaft_renewed(ledger: Ledger) -> None:
    ledger.do("open_follower_shaft", "cam.in")
    ledger.renew("cam.in/follower shaft")


def old_head_gasket_back(ledger: Ledger) -> None:
    ledger.do("loosen_head", "head")
    ledger.add(PartFitted(part="orig:head/head gasket", slot="head/head gasket"))
    ledger.do("tighten_head", "head")


def shim_out_and_back(ledger: Ledger) -> None:
    ledger.do("open_cam_holder", "cam.in")
    ledger.renew("c1.in.left/shim")
    ledger.add(PartFitted(part="orig:c1.in.left/shim", slot="c1.in.left/shim"))
    ledger.do("tighten_cam_holder", "cam.in")


def plug_out_and_in(ledger: Ledger) -> None:
    ledger.do("plug_out", "c1")
    ledger.do("plug_in", "c1")


def washed_again(ledger: Ledger) -> None:
    ledger.do("wash", "engine")
    for slot in ledger.anatomy.slots:
        ledger.do("clean", slot)


def back_from_the_shop(ledger: Ledger) -> None:
    ledger.do("sent_out", "head/head", order="M-9")
    ledger.do("came_back", "head/head", order="M-9")


SIGNED = ("height", "chamber", "spring seats", "oil ways", "form", "heat")


def back_with_a_sheet(ledger: Ledger) -> None:
    kept = [f"head/head {name}" for name in SIGNED]
    kept += [f"{v}/{part}" for v in FOUR if v not in V for part in ("guide", "seat")]
    ledger.do("sent_out", "head/head", order="M-9")
    ledger.do("came_back", "head/head", order="M-9", untouched=", ".join(kept))


def done(operation: str, where: str) -> Callable[[Ledger], object]:
    return lambda ledger: ledger.do(operation, where)


def all_of(names: tuple[str, ...], places: Places) -> dict[str, Places]:
    return dict.fromkeys(names, places)


NOTHING: Mapping[str, Places] = {}
FACE_AND_SEAT = ("TIP", "WID", "CON", "SEAL", "LASH", "REC")
SEAT_CUT = (*FACE_AND_SEAT, "RUN", "HGT", "VP")
COMP_TOO = {"COMP": (C1, LEAK_PATH)}
LEAK_TOO = {"LEAK": (C1, VALVE_JOINT), "COMP": (C1, LEAK_PATH)}
HEAD_OFF = {**COMP_TOO, "oil_at_cams": (("head",), OIL_WAY)}
