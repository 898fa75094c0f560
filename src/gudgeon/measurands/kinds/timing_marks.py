"""One tooth out bends valves at the first turn: marks are read after the tensioner works and the crank has turned."""

from gudgeon.anatomy import Anatomy, Feature, Joint, Surface
from gudgeon.measurands.shape import Measurand


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    stack = [(h, part, name) for h in a.heads for part, name in (("head", "height"), ("head gasket", "thickness"))]
    stack += [
        (c, part, name) for c in a.cylinders for part, name in (("barrel", "height"), ("base gasket", "thickness"))
    ]
    between = () if a.pushrod else stack
    loop = [
        Surface(slot=f"engine/{part}", name=name)
        for part, name in (("chain", "length"), ("chain guide", "pad"))
        if a.has(f"engine/{part}")
    ]
    return (
        Surface(slot=f"{w}/sprocket", name="teeth"),
        *loop,
        *(Surface(slot=f"{place}/{part}", name=name) for place, part, name in between),
        Joint(place=w, name="sprocket"),
        Joint(place="engine", name="tensioner"),
        Joint(place="engine", name="direction"),
    )


KIND = Measurand(
    key="timing_marks",
    name="timing marks",
    dimension="words",
    unit="",
    gauges=("eye",),
    where=lambda a: a.cams,
    observes=_observes,
    needs=("turned",),
    words=("in line", "off"),
    drawing="gauge",
    ask="Crank at its mark, approached forwards: do the cam marks line up?",
    caution="Forwards only; fingers out of chain and sprockets; hard stop is stop.",
    example="in line",
)
