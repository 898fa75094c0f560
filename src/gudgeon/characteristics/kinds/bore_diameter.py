"""The largest place decides what the piston has left."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="bore_diameter",
    name="bore diameter",
    dimension="length",
    unit="mm",
    where=lambda a: a.cylinders,
    wants=(Wants(measurand="bore_diameter", statistic="largest"),),
    formula="largest of six places",
    example="76.020 mm",
)
