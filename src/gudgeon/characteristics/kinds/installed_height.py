"""A spring grown too long holds its valve shut too lightly."""

from gudgeon.characteristics.shape import Characteristic, Wants

KIND = Characteristic(
    key="installed_height",
    name="spring installed height",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="installed_height", statistic="largest"),),
    places=2,
    formula="as read",
    example="34.55 mm",
)
