"""A collapsed skirt knocks, and lets its rings work at a slant."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="piston_diameter",
    name="piston diameter",
    dimension="length",
    unit="mm",
    where=lambda a: a.cylinders,
    wants=(Wants(measurand="piston_diameter", statistic="smallest"),),
    formula="as read at the stated height",
    example="75.962 mm",
)
