"""Air under a known pressure says how much leaks and, by ear, where: valves, rings or gasket."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.measurands.shape import Measurand


def _points(a: Anatomy, w: str) -> tuple[str, ...]:
    return ("cold",)


def _extra(a: Anatomy, w: str) -> tuple[str, ...]:
    return ("warm", "wet")


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    cylinder, head = a.cylinder(w), a.head(w)
    valves = a.valves_of(cylinder)
    seats = [Surface(slot=f"{v}/{part}", name="face") for v in valves for part in ("valve", "seat")]
    joints = [Joint(place=v, name=name) for v in valves for name in ("keepers", "guide axis")]
    rings = [Surface(slot=f"{r}/ring", name=name) for r in a.rings_of(cylinder) for name in ("face", "ends")]
    return (
        *seats,
        *joints,
        *rings,
        Surface(slot=f"{cylinder}/barrel", name="bore"),
        Surface(slot=f"{cylinder}/barrel", name="finish"),
        Surface(slot=f"{cylinder}/barrel", name="face"),
        Surface(slot=f"{cylinder}/piston", name="skirt"),
        Surface(slot=f"{head}/head", name="face"),
        Joint(place=head, name="head"),
        Joint(place=cylinder, name="base"),
        Joint(place=cylinder, name="rings"),
        Joint(place=cylinder, name="plug"),
    )


KIND = Measurand(
    key="leak_down",
    name="leak-down",
    dimension="percent",
    unit="%",
    gauges=("leak tester",),
    where=lambda a: a.cylinders,
    observes=_observes,
    points=_points,
    extra_points=_extra,
    needs=("decompressor",),
    plausible=(0.0, 100.0),
    drawing="gauge",
    ask="At compression top dead centre, crank held; every lash above zero. Note where it is heard.",
    caution=(
        "Air turns the crank with force: hold it, no tool left on the crank nut, hands clear; open the "
        "supply slowly; glasses."
    ),
    example="24 %",
)
