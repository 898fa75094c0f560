"""The hold points of a top-end job: what going on would hide, what must stand as evidence, whom to believe.

A hold passes on fresh, conforming evidence or on a signed override with its reason. It ages with what it rests on: work
that disturbs a feature of its evidence undoes it. Source of the list: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.anatomy import Anatomy, Feature, Joint
from gudgeon.measurands.own import measurands

HEAD_OUT = ("head out", "whole top end")
BARREL = ("cylinder", "whole top end")
DOWN = ("head out", "cylinder", "whole top end")
ALL = ("valves", "leak test", *DOWN)
#: First looks after a top-end overhaul, in running hours (common practice, no source; the maker's manual comes first).
FIRST_LOOKS_H = (2.0, 10.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """A point that is not passed without evidence.

    `proves` are characteristics that must be fresh and conforming; `joints` must be at final torque; `nothing_inside`
    counts rags and dropped parts; `asks` is what the one who signs has seen; `ages_with` are measurands whose features
    undo the signature when they are disturbed; `if_opened` skips the hold while none of these joints was opened;
    `after` are holds that stand before it, where the scope has them; `once` counts parts that are used once.

    `decided` are joints behind which no part may stand that was decided to be renewed.

    `as_found` wants one of these read before anything was opened; `new` are kinds of parts that must be new once their joint
    was opened; `washed` is work that leaves grit behind; `drawn_up` wants every fastener of an opened joint at its last
    stage; `all_back` that nothing is at the shop; `approved` the owner's word; `retightened` what the book says after a heat
    cycle; `cured` that the locker had its time; `if_done` skips the hold until one of these was done.
    """

    key: str
    name: str
    hides: str
    scopes: tuple[str, ...]
    proves: tuple[str, ...] = ()
    joints: tuple[str, ...] = ()
    ages_with: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()
    nothing_inside: bool = False
    if_opened: tuple[str, ...] = ()
    done: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    once: bool = False
    as_found: tuple[str, ...] = ()
    new: tuple[str, ...] = ()
    washed: tuple[str, ...] = ()
    drawn_up: bool = False
    all_back: bool = False
    approved: bool = False
    retightened: bool = False
    cured: bool = False
    if_done: tuple[str, ...] = ()
    decided: tuple[str, ...] = ()

    def features(self, anatomy: Anatomy) -> tuple[Feature, ...]:
        """What a signature here rests on, so that it ages as a reading does."""
        every = measurands(anatomy)
        keys = dict.fromkeys((*(k for k in self.proves if k in every), *self.ages_with))
        seen = [f for k in keys for w in every[k].where(anatomy) for f in every[k].observes(anatomy, w)]
        return tuple(dict.fromkeys((*seen, *joints_named(anatomy, self.joints))))


def joints_named(anatomy: Anatomy, names: tuple[str, ...]) -> tuple[Joint, ...]:
    """Every joint of these names that the engine has."""
    found = {j for slot in anatomy.slots.values() for j in slot.joints if j.name in names}
    return tuple(sorted(found, key=str))


_LIST = (
    Hold(
        key="H0",
        name="engine and permission",
        hides="the wrong book, or work nobody allowed",
        scopes=ALL,
        asks=(
            "engine number read off the engine and held against the book's range",
            "leave to strip given, with its ceiling",
        ),
    ),
    Hold(
        key="H0b",
        name="dropped part found",
        hides="a keeper or a nut between piston and valve at the next turn",
        scopes=ALL,
        nothing_inside=True,
        if_done=("dropped_in",),
        asks=("what was dropped is found, whole, and counted",),
    ),
    Hold(
        key="H1",
        name="as found",
        hides="as-found values are lost once a cam holder is loosened",
        scopes=("leak test", *DOWN),
        as_found=("lash", "leak_down", "compression"),
        asks=("lash, leak-down and compression read as found, cold; warm too if that is the complaint", "photos taken"),
    ),
    Hold(
        key="H1b",
        name="oil and filter",
        hides="metal in the filter means the bottom end is coming apart too",
        scopes=DOWN,
        asks=("oil and filter looked at for metal",),
    ),
    Hold(
        key="H2",
        name="top dead centre, tensioner out first",
        hides="a wrong TDC spoils every lash; a tensioner left in makes the chain jump",
        scopes=DOWN,
        asks=(
            "crank mark and both cam marks, intake just closed as the piston came up",
            "tensioner out before any cam holder",
        ),
    ),
    Hold(
        key="H3",
        name="places kept",
        hides="a shim whose place is lost has lost its reading",
        scopes=DOWN,
        asks=("shims, followers, valves, springs and keepers in numbered places",),
    ),
    Hold(
        key="H4",
        name="clean and at room temperature",
        hides="carbon and heat make every size false",
        scopes=DOWN,
        asks=("parts cleaned by material, dry, at room temperature",),
    ),
    Hold(
        key="H5",
        name="bottom end accepted",
        hides="a good top end on a bad bottom end is money burnt",
        scopes=DOWN,
        asks=(
            "rod felt and looked at: big end accepted",
            "every place read or left out on purpose, before anything is ordered",
        ),
    ),
    Hold(
        key="H5b",
        name="authority",
        hides="a bill nobody agreed to",
        scopes=DOWN,
        approved=True,
        asks=("the second price told, with what was found, and its ceiling written down",),
    ),
    Hold(
        key="H6",
        name="incoming check",
        hides="what the shop did is found when the one-use bolts are down",
        scopes=HEAD_OUT,
        proves=("seat_width", "contact", "tip_height", "stem_guide_clearance"),
        ages_with=("seat_width", "tip_height", "guide_bore"),
        washed=("cut_seat", "lap_valve", "ream_guide", "reface_valve", "skim_head"),
        all_back=True,
        asks=("head washed, passages and bucket or journal bores looked through",),
    ),
    Hold(
        key="H7a",
        name="rings, piston, circlips",
        hides="a butting ring or a loose circlip wrecks the engine in its first hour",
        scopes=BARREL,
        proves=("ring_gap", "piston_clearance"),
        ages_with=("ring_gap",),
        joints=("pin", "rings"),
        new=("circlips",),
        decided=("pin", "rings", "base"),
        washed=("hone", "rebore", "deglaze", "skim_barrel", "file_ring_gap"),
        asks=(
            "ring marks up, gaps turned apart",
            "piston arrow to the right side",
            "new circlips, gap away from the notch, seated: second look",
        ),
    ),
    Hold(
        key="H7b",
        name="counted out",
        hides="a rag or a keeper in the crankcase",
        scopes=DOWN,
        nothing_inside=True,
        asks=("parts counted out = in, rags out before the barrel",),
        joints=("base",),
    ),
    Hold(
        key="H7",
        name="squish and valve-to-piston",
        hides="piston, head and valves meeting at the first turn",
        scopes=DOWN,
        proves=("squish", "valve_to_piston"),
        ages_with=("squish", "valve_to_piston"),
    ),
    Hold(
        key="H8",
        name="bench leak test",
        hides="a leaking seat under a torqued head",
        scopes=HEAD_OUT,
        proves=("seal_test",),
        ages_with=("seal_test",),
        decided=("keepers", "guide axis"),
        asks=("keepers tapped and seen seated on every valve",),
    ),
    Hold(
        key="H9",
        name="dowels and oil passage",
        hides="a head set on without a dowel, an O-ring or its oil",
        scopes=DOWN,
        joints=("head",),
        decided=("head",),
        all_back=True,
        asks=(
            "dowels counted in, gasket the right way up",
            "oil passage blown through and seen, restrictor open, O-ring in",
        ),
    ),
    Hold(
        key="H9a",
        name="cams and tensioner in",
        hides="a chain a tooth out is found by the valves",
        scopes=("valves", *DOWN),
        joints=("holder", "sprocket", "tensioner"),
        if_opened=("holder", "sprocket", "tensioner"),
        decided=("holder", "sprocket", "tensioner", "follower shaft"),
        asks=(
            "crank at the book's mark, cams at theirs, the pulled strand taut",
            "tensioner reset, then fitted and tight, then released",
        ),
    ),
    Hold(
        key="H9b",
        name="torque",
        hides="a joint left at its first stage",
        scopes=ALL,
        joints=("head", "base", "holder", "sprocket", "tensioner"),
        drawn_up=True,
        once=True,
        if_opened=("head", "base", "holder", "sprocket", "tensioner"),
    ),
    Hold(
        key="H10",
        name="lash proved",
        hides="a tight valve burns, whatever the shims say",
        scopes=("valves", *DOWN),
        proves=("lash",),
        ages_with=("lash",),
        nothing_inside=True,
        after=("H11",),
        asks=("read cold, after two turns by hand, tensioner working",),
    ),
    Hold(
        key="H11",
        name="marks after two turns",
        hides="timing a tooth out bends valves at the first turn of the starter",
        scopes=("valves", *DOWN),
        proves=("timing_marks",),
        ages_with=("timing_marks",),
        nothing_inside=True,
        if_opened=("holder", "sprocket", "tensioner"),
        asks=("turned forwards by hand, no hard stop",),
    ),
    Hold(
        key="H11b",
        name="locker cured",
        hides="sprocket bolts that come loose",
        scopes=DOWN,
        joints=("sprocket",),
        if_opened=("sprocket",),
        cured=True,
        asks=("locker on degreased threads, full cure time over",),
    ),
    Hold(
        key="H12a",
        name="oil at the cams",
        hides="a blocked oil way: cams gone in a minute",
        scopes=DOWN,
        proves=("oil_at_cams",),
        ages_with=("oil_at_cams",),
        after=("H11",),
    ),
    Hold(
        key="H12",
        name="first start",
        hides="the first start is the one that costs",
        scopes=("leak test", *DOWN),
        proves=("leak_down", "compression"),
        ages_with=("leak_down",),
        nothing_inside=True,
        done=("fill_fluids",),
        after=("H9b", "H10", "H11", "H12a"),
        asks=("oil and coolant filled and bled, no leak", "DO NOT START tag taken off by the one who fitted it"),
    ),
    Hold(
        key="H12b",
        name="after the heat cycle",
        hides="a leak that shows warm only, a lash that settled",
        scopes=("leak test", *DOWN),
        proves=("lash",),
        ages_with=("lash",),
        retightened=True,
        if_done=("heat_cycle",),
        asks=("no leak at working temperature", "oil and coolant looked at again, cold"),
    ),
    Hold(
        key="H13",
        name="recheck agreed",
        hides="a lash that settles is found by the owner, on the hill",
        scopes=ALL,
        asks=("running-in and recheck date told to the owner and agreed", "what was not done said aloud"),
    ),
)

HOLDS: Mapping[str, Hold] = {hold.key: hold for hold in _LIST}


def holds_of(scope: str) -> tuple[Hold, ...]:
    """The holds of a scope, in the order in which they are met."""
    return tuple(hold for hold in _LIST if scope in hold.scopes)
