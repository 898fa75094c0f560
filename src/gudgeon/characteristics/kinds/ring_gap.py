"""Too small breaks the engine, too large leaks."""

from gudgeon.characteristics.shape import Characteristic, Wants, surfaces

KIND = Characteristic(
    key="ring_gap",
    name="ring gap",
    dimension="length",
    unit="mm",
    where=lambda a: a.rings,
    wants=(Wants(measurand="ring_gap", statistic="largest"),),
    places=2,
    renewed_by=surfaces(("ring", "ends")),
    formula="as read",
    example="0.34 mm",
)
