"""Under its guard the piston meets the head when the rod stretches."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="squish",
    name="squish",
    dimension="length",
    unit="mm",
    where=lambda a: a.cylinders,
    wants=(Wants(measurand="squish", statistic="smallest"),),
    rule="guard",
    places=2,
    renewed_by=surfaces(),
    formula="smallest of four spots",
    example="0.98 mm",
)
