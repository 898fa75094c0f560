"""An oval bore leaks past round rings; the gauge's own error cancels."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="out_of_round",
    name="bore out-of-round",
    dimension="length",
    unit="mm",
    where=lambda a: a.cylinders,
    wants=(Wants(measurand="bore_diameter", statistic="spread across"),),
    formula="largest difference of two axes at one depth",
    example="0.013 mm",
)
