"""A spring grown too long holds its valve shut too lightly."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="installed_height",
    name="spring installed height",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="installed_height", statistic="largest"),),
    places=2,
    renewed_by=surfaces(("seat", "depth")),
    formula="as read",
    example="34.55 mm",
)
