"""The ring must sit in the middle of the face, unbroken."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="contact",
    name="contact",
    dimension="words",
    unit="",
    where=lambda a: a.valves,
    wants=(Wants(measurand="contact", statistic="mean"),),
    rule="test",
    good=("centre",),
    bad_word="off",
    formula="as seen",
    example="centre",
)
