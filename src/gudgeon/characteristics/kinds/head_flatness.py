"""A warped face opens its gasket at the place that is furthest from a nut."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="head_flatness",
    name="head face flatness",
    dimension="length",
    unit="mm",
    where=lambda a: a.heads,
    wants=(Wants(measurand="head_flatness", statistic="largest"),),
    formula="largest gap in six directions",
    example="<0.02",
)
