"""Marks say that the chain is off; a degree wheel says by how much, and so by which tooth."""

from gudgeon.anatomy import Anatomy, Feature
from gudgeon.measurands.kinds import timing_marks
from gudgeon.measurands.shape import Measurand


def _points(a: Anatomy, w: str) -> tuple[str, ...]:
    return ("opens", "closes")


def _extra(a: Anatomy, w: str) -> tuple[str, ...]:
    return ("centre",)


def _observes(a: Anatomy, w: str) -> tuple[Feature, ...]:
    return timing_marks.KIND.observes(a, w)


KIND = Measurand(
    key="cam_angle",
    name="cam timing on a degree wheel",
    dimension="angle",
    unit="°",
    gauges=("degree wheel",),
    where=lambda a: a.cams,
    observes=_observes,
    points=_points,
    extra_points=_extra,
    needs=("turned",),
    plausible=(-90.0, 180.0),
    drawing="gauge",
    ask=(
        "Wheel on the crank, true top found by a stop from both sides. At the lift the book names. Intake: opens before "
        "top, closes after bottom. Exhaust: opens before bottom, closes after top. Centre: intake after top, exhaust before it."
    ),
    caution="Forwards only; stop screw out before the starter; hard stop is stop.",
    example="15 °",
)
