"""Marks say that the chain is off; a degree wheel says by how much, and so by which tooth."""

from gudgeon.anatomy import Anatomy
from gudgeon.measurands.shape import Measurand
from gudgeon.measurands.timing import timing_rests_on


def _points(a: Anatomy, w: str) -> tuple[str, ...]:
    return ("opens", "closes")


def _extra(a: Anatomy, w: str) -> tuple[str, ...]:
    return ("centre",)


KIND = Measurand(
    key="cam_angle",
    name="cam timing on a degree wheel",
    dimension="angle",
    unit="°",
    gauges=("degree wheel",),
    where=lambda a: a.cams,
    observes=timing_rests_on,
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
