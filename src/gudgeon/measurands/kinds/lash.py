"""Lash says whether a valve still closes and how noisily it opens; it is the first thing read and the last thing proved."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    side, cam, features = a.layout.side(w), a.cam(w), list[Feature]()
    features += [Surface(slot=f"{w}/valve", name="face"), Surface(slot=f"{w}/valve", name="tip")]
    features += [Surface(slot=f"{w}/seat", name="face"), Surface(slot=f"{w}/follower", name="pad")]
    features += [Surface(slot=f"{cam}/cam", name="base circle"), Surface(slot=f"{cam}/cam", name="journals")]
    features += [Surface(slot=f"{cam}/holder", name="bore")]
    features += [Surface(slot=slot, name="faces") for slot in (f"{w}/shim",) if a.has(slot)]
    if a.has(f"{cam}/follower shaft"):
        features += [Surface(slot=f"{w}/follower", name="bore")]
        features += [Surface(slot=f"{cam}/follower shaft", name="diameter"), Joint(place=cam, name="follower shaft")]
    features += [Joint(place=w, name=joint) for joint in ("guide axis", "keepers", "shim", "adjuster")]
    features += [Joint(place=cam, name="holder"), Joint(place=a.head(w), name="settled")]
    if side.follower == "pushrod_screw":
        features += [Surface(slot=f"{w}/pushrod", name="ends"), Surface(slot=f"{w}/lifter", name="pad")]
        features += [Surface(slot=f"{a.head(w)}/head", name="height"), Joint(place=w, name="pushrod")]
        features += [Surface(slot=f"{a.cylinder(w)}/barrel", name="height")]
        features += [Surface(slot=f"{a.cylinder(w)}/base gasket", name="thickness")]
        features += [Surface(slot=f"{a.head(w)}/head gasket", name="thickness")]
        features += [Joint(place=a.head(w), name="head"), Joint(place=a.cylinder(w), name="base")]
    return tuple(features)


KIND = Measurand(
    key="lash",
    name="lash",
    dimension="length",
    unit="mm",
    gauges=("feeler",),
    where=lambda a: a.valves,
    observes=_observes,
    needs=("cold", "tdc", "holder", "decompressor"),
    plausible=(0.0, 1.5),
    pair=True,
    drawing="lash",
    ask="Light drag. The leaf that goes, then the leaf that does not: 0.12/0.13. No leaf goes: no gap.",
    example="0.12/0.13",
)
