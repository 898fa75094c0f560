"""A worn groove lets its ring flutter, and then gas passes behind it."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="side_clearance",
    name="ring side clearance",
    dimension="length",
    unit="mm",
    where=lambda a: a.rings,
    wants=(Wants(measurand="side_clearance", statistic="largest"),),
    renewed_by=surfaces(("ring", "sides")),
    formula="largest all round",
    example="0.058 mm",
)
