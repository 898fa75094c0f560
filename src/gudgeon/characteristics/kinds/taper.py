"""A tapered bore works its rings at every stroke; the gauge's own error cancels."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="taper",
    name="bore taper",
    dimension="length",
    unit="mm",
    where=lambda a: a.cylinders,
    wants=(Wants(measurand="bore_diameter", statistic="spread along"),),
    formula="largest difference of depths in one axis",
    example="0.011 mm",
)
