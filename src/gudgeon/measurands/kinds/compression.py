"""Cranking pressure sums up valves, rings, gasket and timing; it is compared at this altitude only."""

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
        Surface(slot=f"{cylinder}/base gasket", name="thickness"),
        Surface(slot=f"{head}/head gasket", name="thickness"),
        Surface(slot=f"{head}/head", name="chamber"),
        Surface(slot=f"{cylinder}/piston", name="crown"),
    )


KIND = Measurand(
    key="compression",
    name="compression",
    dimension="pressure",
    unit="kPa",
    gauges=("compression gauge",),
    where=lambda a: a.cylinders,
    observes=_observes,
    points=_points,
    extra_points=_extra,
    needs=(),
    plausible=(150.0, 2500.0),
    drawing="gauge",
    ask="Throttle open, four or five strokes until steady, kPa on the gauge.",
    caution=(
        "Ignition and injection off, plug lead earthed away from the hole and clear of fuel mist; hands "
        "off belts and fans."
    ),
    example="1090 kPa",
)
