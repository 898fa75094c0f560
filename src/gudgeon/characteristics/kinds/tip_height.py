"""Past its limit a tip leaves no shim thin enough."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="tip_height",
    name="tip height",
    dimension="length",
    unit="mm",
    where=lambda a: a.valves,
    wants=(Wants(measurand="tip_height", statistic="largest"),),
    places=2,
    renewed_by=surfaces(),
    formula="as read",
    example="41.26 mm",
)
