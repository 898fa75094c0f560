"""A bent stem opens its guide and cannot seal."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="stem_runout",
    name="stem run-out",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="stem_runout", statistic="largest"),),
    formula="full swing of the dial",
    example="0.012 mm",
)
