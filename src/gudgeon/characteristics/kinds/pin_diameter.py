"""A worn pin knocks, and takes piston and rod with it."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="pin_diameter",
    name="piston pin diameter",
    dimension="length",
    unit="mm",
    where=lambda a: a.cylinders,
    wants=(Wants(measurand="pin_diameter", statistic="smallest"),),
    formula="as read",
    example="18.993 mm",
)
