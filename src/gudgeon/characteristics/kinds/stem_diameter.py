"""Wear takes from the stem where its guide works."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="stem_diameter",
    name="stem diameter",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="stem_diameter", statistic="smallest"),),
    formula="smallest of six places",
    example="4.966 mm",
)
