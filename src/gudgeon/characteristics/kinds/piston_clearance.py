"""Bore and piston may each pass and their fit fail."""

from gudgeon.characteristics.shape import Characteristic, Wants, difference, surfaces

KIND = Characteristic(
    key="piston_clearance",
    name="piston clearance",
    dimension="length",
    unit="mm",
    where=lambda a: a.cylinders,
    wants=(
        Wants(measurand="bore_diameter", statistic="largest"),
        Wants(measurand="piston_diameter", statistic="smallest"),
    ),
    renewed_by=surfaces(("barrel", "bore"), ("piston", "skirt")),
    combine=difference,
    formula="largest bore − piston",
    example="0.080 mm",
)
