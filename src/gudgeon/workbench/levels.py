"""The levels of an engine taken apart along its centre line: which parts, joints and characteristics lie on each."""

from __future__ import annotations

from dataclasses import dataclass, replace

from gudgeon.anatomy import Layout, Side


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """Which parts, joints and characteristics belong to a level, and how it is drawn."""

    key: str
    drawing: str
    name: str
    kinds: tuple[str, ...]
    joints: tuple[str, ...] = ()
    about: tuple[str, ...] = ()


COVER = Level(
    key="cover",
    drawing="cover",
    name="cover, plug",
    kinds=("cover", "plug"),
    joints=("cover", "plug"),
    about=("leak_down", "compression"),
)
CAMS = Level(
    key="cams",
    drawing="cams",
    name="cams, holders",
    kinds=("cam", "holder", "sprocket", "chain", "tensioner", "chain guide"),
    joints=("holder", "sprocket", "tensioner"),
    about=("timing_marks", "lobe_height", "base_circle", "journal_diameter", "journal_clearance", "cam_runout",
           "cam_axial_play", "chain_length", "tensioner_travel", "oil_at_cams"),
)  # fmt: skip
FOLLOWERS = Level(
    key="followers",
    drawing="followers",
    name="followers, shims",
    kinds=("follower", "follower shaft", "shim"),
    joints=("shim", "follower shaft"),
    about=("lash", "shim_thickness", "follower_bore", "shaft_diameter", "follower_clearance"),
)
PUSHRODS = Level(
    key="pushrods",
    drawing="push-rods",
    name="push-rods, lifters",
    kinds=("pushrod", "lifter"),
    joints=("pushrod",),
)
SPRINGS = Level(
    key="springs",
    drawing="springs",
    name="springs, keepers",
    kinds=("spring", "retainer", "keepers", "stem seal"),
    joints=("keepers",),
    about=("spring_free_length", "spring_load", "spring_tilt", "installed_height"),
)
VALVES = Level(
    key="valves",
    drawing="valves",
    name="valves",
    kinds=("valve",),
    about=("stem_diameter", "stem_runout", "valve_margin", "tip_height", "tip_projection", "valve_to_piston"),
)
HEAD = Level(
    key="head",
    drawing="head",
    name="head, guides, seats",
    kinds=("head", "guide", "seat"),
    joints=("head", "guide axis"),
    about=("guide_bore", "stem_guide_clearance", "wobble", "seat_width", "contact", "seat_runout", "recession",
           "seal_test", "head_flatness"),
)  # fmt: skip
GASKET = Level(
    key="gasket",
    drawing="gasket",
    name="gasket, dowels",
    kinds=("head gasket",),
    joints=("head",),
    about=("squish",),
)
BARREL = Level(
    key="barrel",
    drawing="barrel",
    name="barrel",
    kinds=("barrel", "base gasket"),
    joints=("base",),
    about=("bore_diameter", "out_of_round", "taper", "barrel_flatness"),
)
PISTON = Level(
    key="piston",
    drawing="piston",
    name="piston, rings, pin",
    kinds=("piston", "ring", "oil ring", "pin", "circlips"),
    joints=("pin", "rings"),
    about=("piston_diameter", "piston_clearance", "ring_gap", "side_clearance", "pin_diameter", "pin_bore",
           "pin_piston_clearance"),
)  # fmt: skip
CRANKCASE = Level(
    key="crankcase",
    drawing="crankcase",
    name="crankcase mouth",
    kinds=("crankcase", "rod"),
    about=("big_end_play", "small_end_bore", "pin_rod_clearance"),
)


def levels_of(layout: Layout) -> tuple[Level, ...]:
    """The levels from the cover down; a push-rod engine has its cam below."""
    followers = _followers(layout.intake)
    below = layout.cam_drive == "pushrod"
    top = (COVER, followers, PUSHRODS) if below else (COVER, CAMS, followers)
    mouth = CRANKCASE
    if below:
        mouth = replace(mouth, kinds=(*mouth.kinds, *CAMS.kinds), about=(*mouth.about, *CAMS.about))
    return (*top, SPRINGS, VALVES, HEAD, GASKET, BARREL, PISTON, mouth)


def _followers(side: Side) -> Level:
    kind = side.follower
    if side.screw_end == "cam" and kind == "rocker_screw":
        return replace(FOLLOWERS, drawing="rockers", name="rockers, screws at the cam")
    if kind in ("rocker_screw", "pushrod_screw"):
        return replace(FOLLOWERS, drawing="rockers", name="rockers, screws")
    if kind == "rocker":
        return replace(FOLLOWERS, drawing="rockers", name="rockers, shims")
    return replace(FOLLOWERS, drawing="buckets", name="buckets, shims") if kind.startswith("bucket") else FOLLOWERS
