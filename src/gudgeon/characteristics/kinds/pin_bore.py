"""The piston is softer than its pin, so its bore opens first."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="pin_bore",
    name="piston pin bore",
    dimension="length",
    unit="mm",
    where=lambda a: a.cylinders,
    wants=(Wants(measurand="pin_bore", statistic="largest"),),
    formula="as read",
    example="19.009 mm",
)
