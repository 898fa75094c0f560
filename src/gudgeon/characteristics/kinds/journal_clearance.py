"""Too wide starves the cam of oil; too narrow seizes it."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="journal_clearance",
    name="cam journal clearance",
    dimension="length",
    unit="mm",
    where=lambda a: a.cams,
    wants=(Wants(measurand="journal_clearance", statistic="largest"),),
    renewed_by=surfaces(),
    formula="widest place of the strip",
    example="0.051 mm",
)
