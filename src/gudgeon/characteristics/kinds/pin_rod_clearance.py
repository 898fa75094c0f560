"""Pin and rod may each pass and their fit fail."""

from gudgeon.characteristics.shape import Characteristic, Wants, difference, surfaces

KIND = Characteristic(
    key="pin_rod_clearance",
    name="pin-to-rod clearance",
    dimension="length",
    unit="mm",
    where=lambda a: a.cylinders,
    wants=(
        Wants(measurand="small_end_bore", statistic="largest"),
        Wants(measurand="pin_diameter", statistic="smallest"),
    ),
    renewed_by=surfaces(("rod", "small end"), ("pin", "diameter")),
    combine=difference,
    formula="small end − pin",
    example="0.030 mm",
)
