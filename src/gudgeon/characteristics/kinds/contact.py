"""The ring must sit in the middle of the face, unbroken."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="contact",
    name="contact",
    dimension="words",
    unit="",
    where=lambda a: a.valves,
    wants=(Wants(measurand="contact", statistic="mean"),),
    rule="test",
    good=("centre",),
    good_word="in line",
    bad_word="off",
    renewed_by=surfaces(("seat", "face")),
    formula="as seen",
    example="centre",
)
