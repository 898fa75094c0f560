"""One tooth out bends valves at the first turn: marks are read after the tensioner works and the crank has turned."""

from gudgeon.measurands.shape import Measurand
from gudgeon.measurands.timing import timing_rests_on

KIND = Measurand(
    key="timing_marks",
    name="timing marks",
    dimension="words",
    unit="",
    gauges=("eye",),
    where=lambda a: a.cams,
    observes=timing_rests_on,
    needs=("turned",),
    words=("in line", "off"),
    drawing="gauge",
    ask="Crank at its mark, approached forwards: do the cam marks line up?",
    caution="Forwards only; fingers out of chain and sprockets; hard stop is stop.",
    example="in line",
)
