"""Half of the head joint."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="barrel_flatness",
    name="barrel face flatness",
    dimension="length",
    unit="mm",
    where=lambda a: a.cylinders,
    wants=(Wants(measurand="barrel_flatness", statistic="largest"),),
    formula="largest gap in six directions",
    example="0.04/0.05",
)
