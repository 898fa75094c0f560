"""One tooth out bends valves at the first turn of the starter."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="timing_marks",
    name="timing marks",
    dimension="words",
    unit="",
    where=lambda a: a.cams,
    wants=(Wants(measurand="timing_marks", statistic="mean"),),
    rule="test",
    good=("in line",),
    good_word="in line",
    bad_word="off",
    formula="as seen after two turns",
    example="in line",
)
