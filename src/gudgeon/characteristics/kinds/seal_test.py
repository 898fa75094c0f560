"""Valve and seat must meet before the head goes on."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="seal_test",
    name="seal test",
    dimension="words",
    unit="",
    where=lambda a: a.valves,
    wants=(Wants(measurand="seal_test", statistic="mean"),),
    rule="test",
    good=("holds", "dry"),
    good_word="holds",
    bad_word="leaks",
    renewed_by=surfaces(),
    formula="as seen, three minutes",
    example="holds",
)
