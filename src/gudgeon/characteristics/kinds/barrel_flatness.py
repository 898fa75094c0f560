"""Half of the head joint: a warped barrel face leaks however flat the head is."""

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
