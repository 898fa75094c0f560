"""The small end tells what the bottom end went through."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="small_end_bore",
    name="small end bore",
    dimension="length",
    unit="mm",
    where=lambda a: a.cylinders,
    wants=(Wants(measurand="small_end_bore", statistic="largest"),),
    formula="as read",
    example="19.023 mm",
)
