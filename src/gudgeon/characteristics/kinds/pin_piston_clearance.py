"""Pin and piston may each pass and their fit fail."""

from gudgeon.characteristics.shape import Characteristic, Wants, difference, surfaces

KIND = Characteristic(
    key="pin_piston_clearance",
    name="pin-to-piston clearance",
    dimension="length",
    unit="mm",
    where=lambda a: a.cylinders,
    wants=(
        Wants(measurand="pin_bore", statistic="largest"),
        Wants(measurand="pin_diameter", statistic="smallest"),
    ),
    renewed_by=surfaces(("piston", "pin bore"), ("pin", "diameter")),
    combine=difference,
    formula="pin bore − pin",
    example="0.016 mm",
)
